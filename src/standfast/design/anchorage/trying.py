"""Tries every fixing that was offered on one base, and takes the least-cost one that passes."""

from collections.abc import Mapping, Sequence

from standfast.design.anchorage import bracket, concrete, concrete_fit, edges, wood, wood_fit
from standfast.design.anchorage.forces import Asked
from standfast.design.anchorage.held import Base, Tried
from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.task import SheetFile, Task
from standfast.faults import Refusal
from standfast.sheet import Check, Value, cannot_tell
from standfast.survey.joined import INVERTER

KINDS: dict[str, tuple[str, ...]] = {"wood": ("lag screw", "wood screw"), "concrete": ("anchor",)}
"""Base → kinds of data sheet that hold in it."""


def every(task: Task, found: Pattern, base: Base, readings: Sequence[Asked], fixings: Sequence[SheetFile],
          prices: Mapping[str, float], sides: edges.Sides | None = None) -> list[Tried]:  # fmt: skip
    """Every fixing for this base with its checks, cheapest first, those without a price last.

    Args:
        task: what is held.
        found: all its holes, those that hold nothing too: each gets a fastener.
        base: what they go into.
        readings: what the worst fastener carries: as the maker states it, then the bounding one where there is one.
        fixings: data sheets; those for another base are passed over.
        prices: price of one piece by data sheet.
        sides: where the concrete of a floor ends; None at a wall.
    """
    fitting = [sheet for sheet in fixings if sheet.content.kind in KINDS[base]]
    count = len(found.holes)
    costs = {sheet.content.id: prices[sheet.content.id] * count for sheet in fitting if sheet.content.id in prices}
    fitting.sort(key=lambda sheet: costs.get(sheet.content.id, float("inf")))

    def judged(sheet: SheetFile) -> tuple[Check, ...]:
        one, *bounding = (_judged(task, found, asked, base, sheet, sides) for asked in readings)
        for other in bounding:
            one = [_either(even, worse) for even, worse in zip(one, other, strict=True)]
        return tuple(one)

    def stray(sheet: SheetFile) -> Value | None:
        return wood_fit.stray(task, readings[-1], wood.screw(task, sheet)) if base == "wood" and readings[-1] else None

    return [Tried(sheet, costs.get(sheet.content.id), judged(sheet), stray(sheet)) for sheet in fitting]


def best(tried: list[Tried], fixings: Sequence[SheetFile]) -> Tried | None:
    """The cheapest that passes; where none does the one with the fewest open checks, of several the first offered."""
    offered = [sheet.content.id for sheet in fixings]
    passing = next((each for each in tried if not each.open), None)
    nearest = min(tried, key=lambda each: (each.open, offered.index(each.sheet.content.id)), default=None)
    return passing or nearest


def none_offered(task: Task, base: Base) -> Check:
    """No data sheet fits the base: the word of [equipment] that takes one for what is held."""
    word = {"wood": "fastener", "concrete": "anchor"}[base]
    word = "base_anchor" if task.part == "foot" else "inverter_fastener" if task.unit == INVERTER else word
    one = {"wood": "a lag screw or wood screw", "concrete": "an anchor"}[base]
    reason = f"equipment.{word}: {task.job.file} names no data sheet of {one} for it: choose one by its id"
    return cannot_tell(task.id("fixing"), "A fixing is chosen", task.practice.clause("hanging"), reason)


def _either(even: Check, bounding: Check) -> Check:
    """A check as the maker states the sharing, and under a bounding assumption about it.

    The first refuses by itself. Where it passes the second counts: it rests on a bounding assumption, so that its
    failure cannot be told before the maker says how the fasteners share.
    """
    return even if even.open else bounding


def _judged(task: Task, found: Pattern, asked: Asked, base: Base, sheet: SheetFile,
            sides: edges.Sides | None) -> list[Check]:  # fmt: skip
    if not found.holes:
        title = "The unit has holes for fasteners"
        return [cannot_tell(task.id("holes"), title, task.maker, task.unsaid("holes"))]
    if base == "concrete":
        return _in_concrete(task, found, asked, sheet, sides)
    one = wood.screw(task, sheet)
    fit = [*bracket.checks(task, len(found.holes), sheet, one.D), wood_fit.least_studs(task, found)]
    if not asked:
        return [*fit, *wood_fit.nothing_holds(task, found)]
    unplaced = wood_fit.unplaced(task, found)
    held = (wood_fit.once_placed(check, unplaced) for check in wood.checks(task, asked, one))
    return [*fit, *wood_fit.checks(task, found, asked, one, sheet), *held]


def _in_concrete(task: Task, found: Pattern, asked: Asked, sheet: SheetFile,
                 sides: edges.Sides | None) -> list[Check]:  # fmt: skip
    try:
        ground = edges.ground(task, found) if sides is None else edges.around(task, found, sides)
    except Refusal as refusal:
        clause = task.books.book("aci318").clause("group")
        return [cannot_tell(task.id("concrete-group"), "The anchors can be worked out", clause, str(refusal))]
    each = concrete.anchors(task, found, sheet, ground)
    count = len(found.holes)
    through = bracket.checks(task, count, sheet, each.d_a) if task.part == "wall" else bracket.through(
        task, sheet, each.d_a)  # fmt: skip
    return [
        concrete_fit.suits_concrete(task, each),
        *through,
        *concrete_fit.checks(task, each),
        *concrete.checks(task, asked, each),
    ]
