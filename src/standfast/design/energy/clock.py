"""Instants, and the local clock that tariffs and meter files go by.

A local day has 23, 24 or 25 hours where clocks change, or something between. An instant is a number of seconds since
1970 UTC; a time of day is a number of minutes that a clock on the wall shows.
"""

from collections import Counter
from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from typing import Literal, NamedTuple
from zoneinfo import ZoneInfo

from standfast.faults import Unanswered

DAY_MIN = 1440

LabelFault = Literal["label_does_not_exist", "gap_at_clock_change", "label_repeated"]


class Labelled(NamedTuple):
    """The instants of local labels, or why they cannot be told; whether a label stood twice, in the repeated hour."""

    epoch_s: list[int]
    fault: LabelFault | None
    repeated: bool


class Window(NamedTuple):
    """Times of day with a price of their own: `from_min` counts, `to_min` does not. One may reach over midnight."""

    from_min: float
    to_min: float
    buy_per_kwh: float

    def holds(self, minute: float) -> bool:
        """Whether a time of day lies in the window."""
        if self.from_min <= self.to_min:
            return self.from_min <= minute < self.to_min
        return minute >= self.from_min or minute < self.to_min


class TariffDay(NamedTuple):
    """Readings sorted into windows: places of those inside one, sums, and what they cost."""

    window_index: list[int]
    energy_kwh: float
    window_kwh: float
    bill: float


def zone_of(name: str) -> ZoneInfo:
    """A zone of the IANA data.

    Raises:
        Unanswered: ``unknown_zone`` where the data hold none of that name.
    """
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise Unanswered("unknown_zone", f"the time zone data hold no {name!r}") from error


def day_seconds(zone: ZoneInfo, day: date) -> int:
    """Length of a local day; zero for a day that a zone left out when it changed sides of the date line."""
    return _epoch_s(_midnight(zone, day + timedelta(days=1))) - _epoch_s(_midnight(zone, day))


def whole_steps(zone: ZoneInfo, day: date, step_min: float) -> int:
    """How many intervals of a length a local day holds."""
    return int(day_seconds(zone, day) / 60 / step_min + 1e-9)


def local_minute(zone: ZoneInfo, epoch_s: float) -> float:
    """Minutes after local midnight that the wall clock shows at an instant."""
    here = (datetime(1970, 1, 1, tzinfo=UTC) + timedelta(seconds=epoch_s)).astimezone(zone)
    return here.hour * 60 + here.minute + (here.second + here.microsecond / 1e6) / 60


def tariff_day(
    zone: ZoneInfo,
    first_start_epoch_s: float,
    dt_h: float,
    readings_kwh: Sequence[float],
    windows: Sequence[Window],
    buy_else_per_kwh: float,
) -> TariffDay:
    """Sort readings into the windows of a tariff by the local clock at their start; the first window that holds one
    counts."""
    inside, bill = [], 0.0
    for place, reading in enumerate(readings_kwh):
        minute = local_minute(zone, first_start_epoch_s + place * dt_h * 3600)
        price = next((window.buy_per_kwh for window in windows if window.holds(minute)), None)
        if price is not None:
            inside.append(place)
        bill += reading * (buy_else_per_kwh if price is None else price)
    return TariffDay(inside, sum(readings_kwh), sum(readings_kwh[place] for place in inside), bill)


def instants(zone: ZoneInfo, day: date, step_min: float, label_min: Sequence[float]) -> Labelled:
    """The instants of readings that carry only local times of day, in the order of the file.

    Where the clock shows a time twice, its first label is the earlier instant. Instants must lie one step apart.
    """
    times: dict[float, list[int]] = {label: _epochs_s(zone, day, label) for label in label_min}
    if any(not found for found in times.values()):
        return Labelled([], "label_does_not_exist", False)
    counts = Counter(label_min)
    if any(count > len(times[label]) for label, count in counts.items()):
        return Labelled([], "label_repeated", False)
    used: Counter[float] = Counter()
    found = []
    for label in label_min:
        found.append(times[label][used[label]])
        used[label] += 1
    if any(later - earlier != step_min * 60 for earlier, later in pairwise(found)):
        return Labelled([], "gap_at_clock_change", False)
    return Labelled(found, None, max(counts.values(), default=0) > 1)


def _epochs_s(zone: ZoneInfo, day: date, minute: float) -> list[int]:
    """The instants at which the wall clock shows a time on a day: none, one or two, the earlier first."""
    if not 0 <= minute < DAY_MIN:
        return []
    shown = _midnight(zone, day).replace(tzinfo=None) + timedelta(minutes=minute)
    found = set()
    for fold in (0, 1):
        instant = _epoch_s(shown.replace(tzinfo=zone, fold=fold))
        back = datetime.fromtimestamp(instant, zone).replace(tzinfo=None)
        if back == shown:
            found.add(instant)
    return sorted(found)


def _midnight(zone: ZoneInfo, day: date) -> datetime:
    """Start of a local day. Where the clock jumps over midnight, the instant of the jump."""
    return datetime(day.year, day.month, day.day, tzinfo=zone)


def _epoch_s(moment: datetime) -> int:
    return round(moment.timestamp())
