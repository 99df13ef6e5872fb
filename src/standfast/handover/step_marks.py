"""The drawing of the small pictures of the work order: black on white, large enough for a phone, told in words too."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.equipment.model import Part
from standfast.fieldwork.holes import Hole
from standfast.fieldwork.order.acts import Change
from standfast.fieldwork.plan import Device, Plan
from standfast.paper.lettering import wrapped
from standfast.paper.svg import Arc, Circle, Group, Lettering, Mark, Path, write

WIDE_MM = 130.0
SMALL_MM, TEXT_MM = 2.5, 2.8
ROW_MM = 16.0
WIDER = 1.2
"""How much wider the letters of another device may be than those of the paper."""


class Position(NamedTuple):
    """Where a switch stands, and whether a lock holds it there; what is `pulled` is out or in: a fuse, a connector."""

    closed: bool
    locked: bool
    pulled: bool = False

    def turned(self, change: Change) -> "Position":
        """Where it stands after one change."""
        after = {
            "open": self._replace(closed=False), "close": self._replace(closed=True),
            "lock": self._replace(locked=True), "unlock": self._replace(locked=False),
        }  # fmt: skip
        return after[change]

    def told(self, plan: Plan) -> str:
        """In words."""
        words = ("out", "in") if self.pulled else ("open", "closed")
        state = plan.say(f"picture.{words[self.closed]}")
        return f"{state}, {plan.say('picture.locked')}" if self.locked else state


class Made(NamedTuple):
    """A picture: its SVG, what it shows in words, its width on paper in mm."""

    svg: str
    told: str
    width: float


def made(id: str, drawn: Sequence[Mark], high: float, title: str, told: str) -> Made:
    """Marks as a picture as wide as all of them, so high in mm, with its title and what it shows in words."""
    return Made(write([Group(id, title, tuple(drawn))], WIDE_MM, high, title, told), told, WIDE_MM)


def switches(plan: Plan, rows: Sequence[tuple[str, Position, Position]]) -> Made:
    """Each switch of a step before and after it, with the lock where one hangs."""
    title, drawn = plan.say("picture.switches"), list[Mark]()
    drawn += [
        Lettering((x, 4), plan.say(f"picture.{word}"), SMALL_MM, bold=True)
        for x, word in ((54, "before"), (96, "after"))
    ]
    for place, (name, before, after) in enumerate(rows):
        y = 8 + place * ROW_MM
        drawn += _lines(name, 1, y + 5, 50)
        drawn += [*_switch(54, y + 5, before), *_switch(96, y + 5, after)]
        drawn += [
            Path(((86, y + 5), (93, y + 5))),
            Path(((93, y + 5), (90.5, y + 3.8), (90.5, y + 6.2)), "thin", True, "black"),
        ]
        drawn += [*_state(54, y + 13, 40, before.told(plan)), *_state(96, y + 13, WIDE_MM - 97, after.told(plan))]
    told = "; ".join(f"{name}: {before.told(plan)} → {after.told(plan)}" for name, before, after in rows)
    return made("switches", drawn, 8 + len(rows) * ROW_MM, title, f"{title}: {told}.")


def _state(x: float, y: float, wide: float, told: str) -> list[Mark]:
    """Where a switch stands, in words: on one line, or on two that keep clear of what is beside and below."""
    lines = wrapped(told, wide / WIDER, SMALL_MM, True)
    top, apart = (y, 0.0) if len(lines) == 1 else (y - 1.3, 3.4)
    return [Lettering((x, top + apart * place), line, SMALL_MM, bold=True) for place, line in enumerate(lines)]


def _switch(x: float, y: float, at: Position) -> list[Mark]:
    """A switch of which the blade touches or stands off; a padlock hangs beside it."""
    blade = Path(((x + 7, y), (x + 16, y if at.closed else y - 4.5)), "heavy")
    found: list[Mark] = [
        Path(((x, y), (x + 7, y))), blade, Path(((x + 16, y), (x + 23, y))),
        Circle((x + 7, y), 0.9, "outline", "white"), Circle((x + 16, y), 0.9, "outline", "white"),
    ]  # fmt: skip
    return [*found, *padlock(x + 25, y - 1)] if at.locked else found


def padlock(x: float, y: float, size: float = 1.0) -> list[Mark]:
    """A padlock with its body from `x`, `y` on, 5 mm wide times `size`."""
    wide, high = 5 * size, 4 * size
    body = Path(((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)), "outline", True, "black")
    return [body, Arc((x + wide / 2, y), 1.7 * size, 0, 180, "outline")]


def holes(plan: Plan, found: Sequence[Hole], *, floor: bool) -> Made:
    """The holes of one thing as they are seen facing the wall, or the floor from above with the wall on top."""
    title = plan.say("picture.holes_floor" if floor else "picture.holes", name=found[0].name)
    xs, ys = sorted({hole.x.quantity for hole in found}), sorted({hole.y.quantity for hole in found})
    left, right, top, deep = 66.0 if floor else 48.0, WIDE_MM - 8, 10.0, 50.0
    scale = min((right - left) / max(xs[-1] - xs[0], 1.0), deep / max(ys[-1] - ys[0], 1.0))
    high = max(scale * (ys[-1] - ys[0]), 12.0)
    columns = {x: left + (x - xs[0]) * scale for x in xs}
    rows = {y: top + ((y - ys[0]) if floor else (ys[-1] - y)) * scale for y in ys}
    rows = _apart(rows, 5.0)
    high = max(high, max(rows.values()) - top)
    drawn: list[Mark] = []
    for hole in found:
        x, y = columns[hole.x.quantity], rows[hole.y.quantity]
        drawn += [Circle((x, y), 1.6, "outline", "white"), Path(((x - 3, y), (x + 3, y)), "thin")]
        drawn += [Path(((x, y - 3), (x, y + 3)), "thin")]
        drawn.append(Lettering((x + 2.4, y - 1.6), hole.id.rpartition("/")[2], SMALL_MM, bold=True))
    for y_mm, y in rows.items():
        drawn.append(Path(((left - 4, y), (left - 1, y)), "thin"))
        drawn.append(Lettering((left - 5, y + 0.9), _of(found, y_mm, up=True), SMALL_MM, "end"))
    foot = top + high + 6
    for place, (x_mm, x) in enumerate(columns.items()):
        below = foot + 5 * place
        drawn.append(Path(((x, top + high + 3), (x, below - 3)), "thin"))
        drawn.append(Lettering((min(x, WIDE_MM - 22), below), _of(found, x_mm, up=False), SMALL_MM, "middle"))
    foot += 5 * len(columns) + 1
    drilled = _drilled(plan, found)
    for text, bold in (*((each, True) for each in drilled),
                       (plan.say("picture.from_floor" if floor else "picture.from_wall"), False)):  # fmt: skip
        lines = _lines(text, 1, foot, WIDE_MM - 2, bold=bold)
        drawn, foot = drawn + lines, foot + 4 * len(lines) + 1
    told = "; ".join(f"{hole.id.rpartition('/')[2]}: {hole.across}, {hole.up}" for hole in found)
    return made("holes", drawn, foot, title, f"{title}: {told}. {'. '.join(drilled)}.")


def _drilled(plan: Plan, found: Sequence[Hole]) -> list[str]:
    """Bit and depth of the holes as the hole table prints them, each once with the holes that have it."""
    alike: dict[str, list[str]] = {}
    for hole in found:
        deep = (
            plan.say("paper.holes_deep", bit=bit, depth=depth) for bit, depth in zip(hole.bit, hole.depth, strict=True)
        )
        alike.setdefault("; ".join(deep), []).append(hole.id.rpartition("/")[2])
    return [f"{', '.join(names)}: {text}" for text, names in alike.items()]


def _of(found: Sequence[Hole], at_mm: float, *, up: bool) -> str:
    """The dimension of a row or column as the hole table prints it."""
    return next((each.up if up else each.across) for each in found if (each.y if up else each.x).quantity == at_mm)


def _apart(rows: Mapping[float, float], least: float) -> dict[float, float]:
    """Rows that would run into one another are moved apart: the picture shows the order, the figures the place."""
    moved, last = dict[float, float](), None
    for name, y in sorted(rows.items(), key=lambda pair: pair[1]):
        last = y if last is None else max(y, last + least)
        moved[name] = last
    return moved


def stack(plan: Plan, device: Device, parts: Sequence[Part], now: set[str]) -> Made:
    """The pieces of a stack in the order in which they are set, from below; those of this step are drawn heavy."""
    pieces = [part for part in sorted(parts, key=_height) for _ in range(part.count or 1)]
    title, high = plan.say("picture.stack", name=device.name), 9.0
    drawn: list[Mark] = []
    for place, part in enumerate(pieces):
        top = 4 + (len(pieces) - 1 - place) * high
        corners = ((4, top), (40, top), (40, top + high), (4, top + high))
        drawn.append(Path(corners, "heavy" if part.id in now else "thin", True, "grey" if part.id in now else "white"))
        drawn.append(Lettering((22, top + 6), str(place + 1), 3.5, "middle", bold=part.id in now))
        drawn.append(Lettering((44, top + 6), plan.told(device.sheet, part.name), TEXT_MM, bold=part.id in now))
    told = "; ".join(f"{place}: {plan.told(device.sheet, part.name)}" for place, part in enumerate(pieces, 1))
    return made("stack", drawn, 8 + high * len(pieces), title, f"{title}: {told}.")


def _height(part: Part) -> float:
    return 0.0 if part.at is None else float(part.at.number)


def terminals(plan: Plan, every: Sequence[str], here: str, landed: Sequence[str]) -> Made:
    """The terminals of a device, the one of this step heavy, with the conductors that land on it."""
    title = plan.say("picture.terminals", name=here)
    lines = [line for each in landed for line in wrapped(each, 66 / WIDER, SMALL_MM)]
    drawn: list[Mark] = []
    top, middle = 3.0, 6.5
    for name in every:
        at, told = name == here, wrapped(name, 50 / WIDER, SMALL_MM, name == here)
        high = 3.0 + 4 * len(told)
        corners = ((2, top), (54, top), (54, top + high), (2, top + high))
        drawn.append(Path(corners, "heavy" if at else "thin", True, "grey" if at else "white"))
        drawn += [Lettering((4, top + 4.7 + 4 * place), line, SMALL_MM, bold=at) for place, line in enumerate(told)]
        middle, top = top + high / 2 if at else middle, top + high + 2
    drawn.append(Path(((54, middle), (60, middle))))
    start = max(5.0, middle - 2 * len(lines))
    drawn += [Lettering((62, start + 4.2 * place), line, SMALL_MM) for place, line in enumerate(lines)]
    deep = max(top, start + 4.2 * len(lines)) + 2
    return made("terminals", drawn, deep, title, f"{title}: {'; '.join(landed)}.")


def _lines(text: str, x: float, y: float, wide: float, *, bold: bool = False) -> list[Mark]:
    return [
        Lettering((x, y + 4 * place), line, SMALL_MM, bold=bold)
        for place, line in enumerate(wrapped(text, wide / WIDER, SMALL_MM, bold))
    ]
