"""Zones that are rectangles round a unit: so much beside it, so much above it, down to the floor.

A thing is out of the zone as soon as it is far enough beside the unit or far enough above it.
"""

from collections.abc import Iterator

from standfast.design.siting.asking import PART, Ask, provided, rule
from standfast.design.siting.layout import HABITABLE, Layout, Thing, Unit
from standfast.design.siting.solid import Span, gap, mm, tenths
from standfast.sheet import Check, Value, measured, worst

BESIDE, ABOVE = "beside", "above"
REMAINING_OPENING, WEEP_HOLES = "remaining_opening_enough", "weep_holes_filled"
_GAP_BESIDE = "gap beside the unit, below zero by the overlap"
_GAP_ABOVE = "gap above the unit, below zero by the overlap"


def _zone(ask: Ask, key: str, unit: Unit, thing: Thing) -> dict[str, tuple[float, Value]]:
    """What is there and what is asked, beside and above: the directions of the better one, both where they tie."""
    beside, above = ask.book.number(f"{key}_beside"), ask.book.number(f"{key}_above")
    there = {
        BESIDE: (mm(gap(unit.solid.x, thing.solid.x) or 0), beside),
        ABOVE: (mm(_over(unit.solid.z, thing.solid.z)), above),
    }
    margins = {side: tenths(actual) - tenths(limit.quantity) for side, (actual, limit) in there.items()}
    best = max(margins.values())
    return {side: there[side] for side, margin in margins.items() if margin == best}


def _over(unit: Span | None, thing: Span | None) -> int:
    """Gap from the top of the unit up to the thing, below zero where the thing begins lower."""
    return 0 if unit is None or thing is None else thing.low - unit.high


def _inside(ask: Ask, key: str, unit: Unit, thing: Thing) -> bool:
    return any(
        tenths(actual) - ask.slack < tenths(limit.quantity) for actual, limit in _zone(ask, key, unit, thing).values()
    )


@rule("window-zone", "asnzs5139")
def window_zone(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Windows and vents into a habitable room: a check ``window-beside`` or ``window-above``, both where they tie."""
    for unit in layout.units:
        for thing in layout.kind("window", "vent", "air brick"):
            title = f"Is {thing.name} outside the zone of {unit.name}?"
            if thing.opens_into is None:
                yield ask.unknown(
                    title, thing.lacks("leads_into", f"the room that {thing.id} opens into"), unit.id, thing.id
                )
            elif thing.opens_into == "habitable room":
                for side, (actual, limit) in _zone(ask, "window", unit, thing).items():
                    how = _GAP_BESIDE if side == BESIDE else _GAP_ABOVE
                    check = ask.clear(title, actual, how, limit, unit.id, thing.id)
                    yield check._replace(id=f"{PART}window-{side}/{unit.id}/{thing.id}")


@rule("appliance-zone", "asnzs5139")
def appliance_zone(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Appliances that do not belong to the system; accessories never count."""
    kinds = ask.words("appliance_kinds")
    for unit in layout.units:
        for thing in layout.things:
            if thing.kind not in kinds or thing.part_of_system:
                continue
            title = f"Is {thing.name} outside the zone of {unit.name}?"
            for side, (actual, limit) in list(_zone(ask, "appliance", unit, thing).items())[:1]:
                how = _GAP_BESIDE if side == BESIDE else _GAP_ABOVE
                yield ask.clear(title, actual, how, limit, unit.id, thing.id)


@rule("weep-holes", "asnzs5139")
def weep_holes(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Weep holes into a habitable room inside the zone are to be filled: one check for each hole."""
    for unit in layout.units:
        for hole in layout.kind("weep hole"):
            title = f"Is {hole.id} outside the zone of {unit.name}, or filled?"
            if hole.opens_into is None:
                yield ask.unknown(
                    title, hole.lacks("leads_into", f"the room that {hole.id} opens into"), unit.id, hole.id
                )
            elif hole.opens_into == "habitable room" and _inside(ask, "window", unit, hole):
                yield ask.passes(
                    title, unit.id, hole.id, condition=WEEP_HOLES, reason="a noncombustible filler closes it"
                )


@rule("exit-zone", "asnzs5139")
def exit_zone(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Exits beside a unit; an edition may allow a wide one on a condition about the opening that remains."""
    limit = ask.book.number("exit_beside")
    wide = ask.book.number("exit_wide").quantity if ask.book.number("exit_wide_allowed").yes else None
    for unit in layout.units:
        for thing in layout.things:
            if not thing.is_exit:
                continue
            title = f"Is {thing.name}, an exit, far enough beside {unit.name}?"
            aside = mm(gap(unit.solid.x, thing.solid.x) or 0)
            check = ask.clear(title, aside, _GAP_BESIDE, limit, unit.id, thing.id)
            broad = thing.solid.x is not None and wide is not None and mm(thing.solid.x.high - thing.solid.x.low) > wide
            yield provided(check, REMAINING_OPENING) if broad else check


def _barrier_needed(ask: Ask, layout: Layout) -> bool | None:
    """Whether the wall needs a barrier; None where it is not known."""
    facts = layout.facts
    if facts.wall_build is not None and facts.wall_build in ask.words("barrier_walls"):
        return False
    if facts.room_behind is not None and facts.room_behind not in HABITABLE:
        return False
    return None if facts.wall_build is None or facts.room_behind is None else True


@rule("barrier", "asnzs5139")
def barrier(ask: Ask, layout: Layout) -> Iterator[Check]:
    """A noncombustible barrier where the wall can burn and a habitable room lies behind it."""
    accepted = ask.words("barrier_materials")
    for unit in layout.units:
        title = f"Is there a noncombustible barrier behind {unit.name}?"
        match _barrier_needed(ask, layout):
            case None:
                yield ask.unknown(title, "what the wall is made of, and what room lies behind it", unit.id)
            case False:
                yield ask.passes(title, unit.id, reason="the wall needs none")
            case True if any(each.material in accepted for each in layout.kind("barrier")):
                yield ask.passes(title, unit.id)
            case True:
                yield ask.fails(title, "there is none", unit.id)


@rule("barrier-extent", "asnzs5139")
def barrier_extent(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The barrier covers the outline and its surround; one check for each barrier edge that leaves the least margin."""
    accepted = ask.words("barrier_materials")
    sheets = [each for each in layout.kind("barrier") if each.material in accepted]
    if not sheets or not _barrier_needed(ask, layout):
        return
    for unit in layout.units:
        edges = [_edges(ask, layout, unit, sheet) for sheet in sheets]
        best = max(edges, key=lambda each: min(check.margin or 0.0 for check in each))
        least = min(check.margin or 0.0 for check in best)
        yield from (check for check in best if (check.margin or 0.0) <= least)


def _edges(ask: Ask, layout: Layout, unit: Unit, sheet: Thing) -> list[Check]:
    (ux, _, uz), (bx, _, bz) = unit.solid, sheet.solid
    if ux is None or uz is None or bx is None or bz is None:
        return [ask.unknown(f"Does {sheet.id} cover the surround of {unit.name}?", "its outline", unit.id, sheet.id)]
    beside, above = ask.book.number("barrier_beside"), _above_or_ceiling(ask, layout, uz)
    flush = measured("b_below", 0.0, "mm", "the outline itself")
    found = []
    for edge, length, limit in (
        ("left", ux.low - bx.low, beside),
        ("right", bx.high - ux.high, beside),
        ("top", bz.high - uz.high, above),
        ("bottom", uz.low - bz.low, flush),
    ):
        title = f"Does {sheet.id} reach far enough beyond {unit.name} ({edge})?"
        found.append(ask.clear(title, mm(length), "from the edge of the unit", limit, unit.id, sheet.id, edge))
    return found


def _above_or_ceiling(ask: Ask, layout: Layout, unit: Span) -> Value:
    above = ask.book.number("barrier_above")
    if layout.facts.ceiling is None:
        return above
    ceiling = measured("b_ceiling", mm(layout.facts.ceiling - unit.high), "mm", "from the unit up to the ceiling")
    return worst("b_above", [above, ceiling], "min", ask.clause)
