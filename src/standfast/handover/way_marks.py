"""The picture of how a panel is held off from every source: the ways of the graph, with the locks that hang on them.

It is drawn from the same installation graph as the one-line diagram, so both show the same switches in the same order.
"""

from collections.abc import Container, Iterator
from typing import NamedTuple

from standfast.design.installation.graph import Part
from standfast.fieldwork.isolation import BREAKS, Isolation
from standfast.fieldwork.plan import Plan
from standfast.handover.step_marks import SMALL_MM, WIDE_MM, WIDER, Made, Position, made, padlock
from standfast.paper.lettering import wrapped
from standfast.paper.svg import Circle, Lettering, Mark, Path

LEFT_MM, RIGHT_MM = 25.0, 106.0
"""Between the box of the source and that of the panel."""
ROW_MM, LINE_MM, NAME_MM = 12.0, 3.6, 6.2


class Way(NamedTuple):
    """A source with the switches on its way to the panel, from the source on, as they stand when all is locked."""

    source: str
    switches: tuple[tuple[str, Position], ...]


def ways(plan: Plan, zone: Isolation) -> list[Way]:
    """The way of every source to a panel, or to the DC side of an inverter."""
    graph, end = plan.installation, zone.id.removesuffix("-dc") if zone.direct else zone.id
    kinds = ("battery", "array") if zone.direct else ("utility", "generator", "inverter", "battery", "array", "other")
    found = []
    for source in graph.feeding(end):
        if zone.direct and source.kind not in kinds:
            continue
        between = [part for part in graph.path(source.id, end) if part.kind in BREAKS]
        inside = _inside(plan, zone, source.name, {part.name for part in between})
        found.append(Way(source.name, (*inside, *((part.name, _stands(zone, part)) for part in between))))
    return found


def _inside(plan: Plan, zone: Isolation, source: str, drawn: Container[str]) -> Iterator[tuple[str, Position]]:
    """What holds a source off that the graph does not have: the switch inside a battery, its leads, its connectors."""
    switch = plan.say("order.break_battery", name=source)
    for opening in (*zone.openings, *zone.kept_open):
        if source in opening.sources and opening.switch not in drawn:
            yield opening.switch, Position(closed=False, locked=False, pulled=opening.switch != switch)


def _stands(zone: Isolation, part: Part) -> Position:
    """Open and locked where it is of the isolation, open where it is new and nobody has closed it yet."""
    held, pulled = part.id in (*zone.opened, *zone.locked), part.kind == "fuse"
    return Position(closed=part.existing and not held, locked=held and not pulled, pulled=pulled)


def picture(plan: Plan, zone: Isolation) -> Made | None:
    """The ways one below the other, the panel at the right; None where no source reaches it."""
    found = ways(plan, zone)
    if not found:
        return None
    title, drawn, top = plan.say("picture.ways", name=zone.panel), list[Mark](), 4.0
    for way in found:
        marks, deep = _row(plan, way, top)
        drawn, top = drawn + marks, top + deep
    corners = ((RIGHT_MM, 2.0), (WIDE_MM - 1, 2.0), (WIDE_MM - 1, top), (RIGHT_MM, top))
    drawn.append(Path(corners, "heavy", True, "grey"))
    drawn += _text(zone.panel, RIGHT_MM + 1.5, top / 2, WIDE_MM - RIGHT_MM - 3, bold=True)
    told = "; ".join(
        f"{way.source} – {' – '.join([*(f'{name} {at.told(plan)}' for name, at in way.switches), zone.panel])}"
        for way in found
    )
    return made("ways", drawn, top + 2, title, f"{title}: {told}.")


def _row(plan: Plan, way: Way, top: float) -> tuple[list[Mark], float]:
    """One way from left to right: heavy as far as it stays live."""
    y, pitch = top + 5, (RIGHT_MM - LEFT_MM) / max(len(way.switches), 1)
    drawn: list[Mark] = [*_text(way.source, 1, y + 0.9, LEFT_MM - 4)]
    live, x, deep = True, LEFT_MM - 3, ROW_MM
    drawn.append(Lettering((LEFT_MM - 2, y - 2), plan.say("picture.live"), SMALL_MM, bold=True))
    for place, (name, at) in enumerate(way.switches):
        start = LEFT_MM + place * pitch + 4
        drawn.append(Path(((x, y), (start, y)), "heavy" if live else "thin"))
        live = live and at.closed
        drawn += _symbol(start, y, at)
        x = start + 9
        lines = _text(name, start - 3, y + NAME_MM, pitch - 2)
        lines += _text(at.told(plan), start - 3, y + NAME_MM + LINE_MM * len(lines), pitch - 2, bold=True)
        drawn, deep = drawn + lines, max(deep, 5 + NAME_MM + LINE_MM * len(lines))
    drawn.append(Path(((x, y), (RIGHT_MM, y)), "heavy" if live else "thin"))
    return drawn, deep


def _symbol(x: float, y: float, at: Position) -> Iterator[Mark]:
    """A switch 9 mm wide, with its lock."""
    yield Path(((x, y), (x + 9, y if at.closed else y - 3.5)), "heavy")
    yield from (Circle((each, y), 0.8, "outline", "white") for each in (x, x + 9))
    if at.locked:
        yield from padlock(x + 3, y - 3.6 if at.closed else y + 1.2, 0.5)


def _text(text: str, x: float, y: float, wide: float, *, bold: bool = False) -> list[Mark]:
    return [
        Lettering((x, y + LINE_MM * place), line, SMALL_MM, bold=bold)
        for place, line in enumerate(wrapped(text, wide / WIDER, SMALL_MM, bold))
    ]
