"""A reading against its limit: decimal texts, exact, never a float.

The same rules run on the tablet (`compare.js`), with whole numbers of any length. Verdict and reason are words of a
closed list; what people read is made from them by the catalogue.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Any, Literal, NamedTuple

Word = Literal["pass", "fail", "cannot tell", "recorded"]
Reason = Literal[
    "", "no value", "limit not readable", "wrong unit", "over range", "not a number", "uncertainty not readable",
    "near the limit", "too early", "not seen", "check failed", "no photo",
]  # fmt: skip
"""Why: empty where the numbers say it. The last four are of timers, serials and photos."""

LONGEST = 40
"""Characters of a number; no instrument shows more."""
OVER = "OL"
RELATIONS = ("at least", "at most", "between", "equal")

_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")
_WORST: tuple[Word, ...] = ("fail", "cannot tell", "pass", "recorded")


class Verdict(NamedTuple):
    """What a reading says: a word, and why."""

    word: Word
    reason: Reason = ""


class Number(NamedTuple):
    """A decimal number: ``whole`` tenths, hundredths, … of as many places."""

    whole: int
    places: int

    def at(self, places: int) -> int:
        """In units of that many places; there are at least as many as its own."""
        scale: int = 10 ** (places - self.places)
        return self.whole * scale


def number(text: object) -> Number | None:
    """A decimal text as an exact number; None where it is none: digits, a point with digits on both sides, a minus."""
    if not isinstance(text, str) or len(text) > LONGEST or not _NUMBER.fullmatch(text):
        return None
    before, _, after = text.partition(".")
    return Number(int(before + after), len(after))


def compare(
    value: str, unit: str, limit: Mapping[str, Any] | None, uncertainty: Mapping[str, Any] | None = None
) -> Verdict:
    """The verdict on one reading.

    Args:
        value: decimal text as it was read; ``OL`` for over range, ``>999`` for more than the instrument shows.
        unit: of the reading; it has to be that of the limit to the letter.
        limit: ``relation``, ``value``, ``upper`` (of ``between``), ``unit``, ``over_range``; in ``also`` the same
            limit in other units that an instrument may show. None where there is none.
        uncertainty: of the instrument: ``percent`` of the reading and ``digits`` in its unit, both decimal texts.

    Returns:
        `recorded` without a limit. `cannot tell`, never a pass, where something is missing or cannot be read, and where
        the band of the instrument reaches over the limit. ``OL`` is what ``over_range`` says; ``>x`` is decided by x
        where x decides it, and is else a fail where ``over_range`` says so, but no pass: the instrument ended too soon.
    """
    if value == "":
        return Verdict("cannot tell", "no value")
    if limit is None:
        return Verdict("recorded")
    same = _in_unit(limit, unit)
    bounds = _bounds(limit if same is None else same)
    if bounds is None:
        return Verdict("cannot tell", "limit not readable")
    if same is None:
        return Verdict("cannot tell", "wrong unit")
    if value == OVER:
        word = same.get("over_range")
        return Verdict("pass" if word == "pass" else "fail" if word == "fail" else "cannot tell", "over range")
    over = value.startswith(">")
    read = number(value[1:] if over else value)
    if read is None:
        return Verdict("cannot tell", "not a number")
    band = _band(read, uncertainty)
    if band is None:
        return Verdict("cannot tell", "uncertainty not readable")
    word = _within(read, band, bounds, over=over)
    if word != "cannot tell":
        return Verdict(word, "over range" if over else "")
    if over:
        return Verdict("fail" if same.get("over_range") == "fail" else "cannot tell", "over range")
    return Verdict("cannot tell", "near the limit")


def worst(words: Iterable[Word]) -> Word:
    """The worst of several verdicts: fail, cannot tell, pass, recorded; of none: cannot tell."""
    return min(words, key=_WORST.index, default="cannot tell")


def _in_unit(limit: Mapping[str, Any], unit: str) -> Mapping[str, Any] | None:
    """A limit in the unit of a reading; None where it does not stand in that unit."""
    also = limit.get("also")
    alike = [limit, *(also if isinstance(also, list) else [])]
    return next((each for each in alike if isinstance(each, Mapping) and each.get("unit") == unit), None)


def _bounds(limit: Mapping[str, Any]) -> tuple[Number | None, Number | None] | None:
    """Least and greatest of what passes, None for an open end; None altogether where the limit cannot be read."""
    value, relation = number(limit.get("value")), limit.get("relation")
    upper = number(limit.get("upper")) if relation == "between" else value
    if value is None or upper is None or relation not in RELATIONS:
        return None
    places = max(value.places, upper.places)
    if value.at(places) > upper.at(places):
        return None
    return None if relation == "at most" else value, None if relation == "at least" else upper


def _band(read: Number, uncertainty: Mapping[str, Any] | None) -> Number | None:
    """Half the width of the band in which the true value lies."""
    if uncertainty is None:
        return Number(0, 0)
    percent, digits = number(uncertainty.get("percent")), number(uncertainty.get("digits"))
    if percent is None or digits is None or percent.whole < 0 or digits.whole < 0:
        return None
    share = Number(max(read.whole, -read.whole) * percent.whole, read.places + percent.places + 2)
    places = max(share.places, digits.places)
    return Number(share.at(places) + digits.at(places), places)


def _within(read: Number, band: Number, bounds: tuple[Number | None, Number | None], *, over: bool) -> Word:
    """Where the band lies: wholly inside, wholly outside, or neither; one that is over range has no upper end."""
    least, most = bounds
    places = max(each.places for each in (read, band, least, most) if each is not None)
    low, high = read.at(places) - band.at(places), read.at(places) + band.at(places)
    above_least = least is None or low >= least.at(places)
    below_most = most is None or (not over and high <= most.at(places))
    if above_least and below_most:
        return "pass"
    too_low = least is not None and not over and high < least.at(places)
    too_high = most is not None and low > most.at(places)
    return "fail" if too_low or too_high else "cannot tell"
