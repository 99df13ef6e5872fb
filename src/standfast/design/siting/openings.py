"""Openings: doors, windows and ventilation ports near a unit outdoors, and units in one row between them."""

import math
from collections.abc import Iterator
from itertools import combinations

from standfast.design.siting.asking import Ask, rule
from standfast.design.siting.layout import OUTDOORS, Facts, Layout, Thing, Unit
from standfast.design.siting.solid import TENTHS, Span, clear_mm, gap, rectangular_mm, tenths
from standfast.sheet import Check, Value, cannot_tell, measured

INTO_DWELLING = "into the dwelling"
_REACH = "opening_clearance_reach"
_KINDS = "opening_clearance_kinds"
STRAIGHT = "straight distance between the outlines"
RECTANGLE = "greatest of the gaps along the axes"
STRING = "shortest way round the outside corner"


@rule("opening-clearance", "crc", "irc", "nfpa855", "pas63100")
def opening_clearance(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Each opening that the edition counts, from each unit that is placed outdoors."""
    limit = ask.distance("opening_clearance", layout.facts.limits_in)
    for unit in layout.units:
        if unit.solid.x is None or unit.place not in (None, *OUTDOORS):
            continue
        for thing in counts_or_unknown(ask, layout):
            title = f"Is {unit.name} far enough from {thing.name}?"
            if _counts(ask, thing) is None:
                yield ask.unknown(
                    title,
                    thing.lacks("leads_into", f"whether {thing.name} leads directly into the dwelling"),
                    unit.id,
                    thing.id,
                )
                continue
            actual, how = _distance(unit, thing, layout)
            yield ask.clear(title, actual, how, limit, unit.id, thing.id)


def counts_or_unknown(ask: Ask, layout: Layout) -> list[Thing]:
    """The openings that the edition counts, and those of which nobody knows whether they count."""
    kinds = ask.words(_KINDS)
    return [thing for thing in layout.things if thing.kind in kinds and _counts(ask, thing) is not False]


def _counts(ask: Ask, thing: Thing) -> bool | None:
    """Whether the edition counts an opening; None where that is not known."""
    return thing.leads_into_dwelling if ask.book.number(_REACH).word == INTO_DWELLING else True


def _distance(unit: Unit, thing: Thing, layout: Layout) -> tuple[float, str]:
    if layout.facts.zone_shape == "rectangle":
        return rectangular_mm(unit.solid, thing.solid), RECTANGLE
    corners = layout.kind("outside corner")
    if layout.facts.corner_measure == "string" and corners and _round_the_corner(thing):
        ways = [clear_mm(unit.solid, each.solid) + clear_mm(each.solid, thing.solid) for each in corners]
        return min(ways), STRING
    return clear_mm(unit.solid, thing.solid), STRAIGHT


def _round_the_corner(thing: Thing) -> bool:
    """True where an opening lies behind the face of the battery's wall, in plan."""
    return thing.solid.y is not None and thing.solid.y.low < 0 and thing.solid.y.high <= 0


def free_stretches(ask: Ask, layout: Layout, row: Unit, stretch: Span) -> list[Span]:
    """The parts of a stretch of wall in which a unit of that height keeps clear of every opening that counts."""
    limit = tenths(ask.distance("opening_clearance", layout.facts.limits_in).quantity)
    taken = [_taken(row, thing, limit, layout.facts) for thing in counts_or_unknown(ask, layout)]
    free, at = [], stretch.low
    for each in sorted(span for span in taken if span is not None):
        if each.low > at:
            free.append(Span(at, min(each.low, stretch.high)))
        at = max(at, each.high)
        if at >= stretch.high:
            return free
    return [*free, Span(at, stretch.high)]


def _taken(row: Unit, thing: Thing, limit: int, facts: Facts) -> Span | None:
    """The stretch along the wall in which a unit of that height would come too near an opening."""
    if thing.solid.x is None:
        return None
    above = max(gap(row.solid.z, thing.solid.z) or 0, 0)
    if above >= limit:
        return None
    reach = limit if facts.zone_shape == "rectangle" else _whole_root(limit * limit - above * above)
    return thing.solid.x.grown(reach, reach)


def _whole_root(number: int) -> int:
    """The least whole number whose square is not less."""
    root = math.isqrt(number)
    return root if root * root == number else root + 1


@rule("unit-spacing", "crc", "irc", "nfpa855")
def unit_spacing(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Every pair of units; or, for units not placed yet, whether a row of them fits."""
    if layout.facts.side_by_side:
        yield _row_fits(ask, layout)
        return
    for one, other in pairs(layout):
        yield _apart(ask, layout, one, other)


def pairs(layout: Layout) -> Iterator[tuple[Unit, Unit]]:
    """The pairs of units of which one at least is on this wall, each in the order of their names."""
    placed = [unit for unit in layout.units if unit.solid.x is not None]
    for one, other in combinations(placed, 2):
        yield one, other
    for one in placed:
        for other in layout.others:
            yield (one, other) if one.id < other.id else (other, one)


def _apart(ask: Ask, layout: Layout, one: Unit, other: Unit) -> Check:
    """One pair: by the code, or by the smaller spacing of a fire test report as far as the authority accepted that."""
    title = f"Are {one.name} and {other.name} far enough from each other?"
    if one.solid.x is None or other.solid.x is None:
        return ask.unknown(title, "where both walls stand in plan (start and end of each)", one.id, other.id)
    apart, facts, of_code = clear_mm(one.solid, other.solid), layout.facts, code_spacing(ask, layout.facts)
    by_code = ask.clear(title, apart, STRAIGHT, of_code, one.id, other.id)
    listed = facts.listed_spacing
    if layout.room is None:
        return ask.clear(title, apart, STRAIGHT, spacing(ask, facts), one.id, other.id)
    if by_code.verdict == "pass" or listed is None or listed.quantity >= of_code.quantity:
        return by_code
    by_test = ask.clear(title, apart, STRAIGHT, listed, one.id, other.id)
    if facts.spacing_test_accepted:
        return by_test._replace(condition=BY_TEST) if by_test.verdict == "pass" else by_test
    if facts.spacing_test_accepted is None and by_test.verdict == "pass":
        return cannot_tell(by_code.id, title, ask.clause, f"not known: {ACCEPTANCE}", *by_test.values()[-1:])
    return by_code


BY_TEST = "the authority accepted the fire test report of the unit for this spacing"
ACCEPTANCE = (
    'whether the authority accepts the smaller spacing of the fire test report ([[acceptances]] "unit spacing")'
)


def spacing(ask: Ask, facts: Facts) -> Value:
    """The spacing of the code, or the smaller one of the listing where a large-scale fire test for it was accepted."""
    by_code, listed = code_spacing(ask, facts), facts.listed_spacing
    if listed is not None and facts.spacing_test_accepted and listed.quantity < by_code.quantity:
        return listed
    return by_code


def code_spacing(ask: Ask, facts: Facts) -> Value:
    """The spacing of the code, mm."""
    return ask.distance("unit_spacing", facts.limits_in)


def _row_fits(ask: Ask, layout: Layout) -> Check:
    """Whether the units fit side by side into the stretch of wall that openings leave, where their rule applies too."""
    facts, units = layout.facts, layout.units
    title = "Do the units fit side by side?"
    if facts.wall_from is None or facts.wall_to is None:
        return ask.unknown(title, "the stretch of wall that may be used")
    openings, parts = ask.beside.get("opening-clearance"), [Span(facts.wall_from, facts.wall_to)]
    if openings is not None:
        for unit in units:
            parts = [free for part in parts for free in free_stretches(openings, layout, unit, part)]
    apart = spacing(ask, facts)
    between = tenths(apart.quantity)
    needed = sum(unit.width for unit in units) + between * (len(units) - 1)
    usable = max((part.high - part.low for part in parts), default=0)
    if needed > usable and _packed(units, parts, between):
        usable = parts[-1].high - parts[0].low
    limit = measured("row_mm", needed / TENTHS, "mm", "widths of the units and the spacings between them", apart)
    return ask.clear(title, usable / TENTHS, "stretch of wall less the clearance of openings", limit)


def _packed(units: tuple[Unit, ...], parts: list[Span], between: int) -> bool:
    """Whether the units fit from left to right, each as far left as it goes."""
    end: int | None = None
    for unit in units:
        starts = (max(part.low, part.low if end is None else end + between) for part in parts)
        fitting = [start for start, part in zip(starts, parts, strict=True) if start + unit.width <= part.high]
        if not fitting:
            return False
        end = min(fitting) + unit.width
    return True
