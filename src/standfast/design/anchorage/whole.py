"""How one unit is held: the least-cost fixing that passes, its holes, and every check with its working."""

from collections.abc import Mapping, Sequence

from standfast.design.anchorage import bracket, concrete, concrete_fit, forces, joints, loads, walls, wood, wood_fit
from standfast.design.anchorage.forces import Asked
from standfast.design.anchorage.held import Anchorage, Base, Foot, FootHole, Hole, Tried
from standfast.design.anchorage.pattern import Pattern, pattern
from standfast.design.anchorage.task import JobFile, Place, SheetFile, Task, millimetres
from standfast.faults import Refusal
from standfast.sheet import Check, Value, cannot_tell
from standfast.shelf import Adoption

__all__ = ["Anchorage", "Foot", "FootHole", "Hole", "Tried", "anchor"]

KINDS: dict[str, tuple[str, ...]] = {"wood": ("lag screw", "wood screw"), "concrete": ("anchor",)}
"""Base → kinds of data sheet that hold in it."""


def anchor(
    job: JobFile,
    battery: SheetFile,
    fixings: Sequence[SheetFile],
    books: Adoption,
    place: Place,
    *,
    unit: str = "battery-1",
    prices: Mapping[str, float] | None = None,
    plug: SheetFile | None = None,
    base_anchors: Sequence[SheetFile] = (),
) -> Anchorage:
    """Hold a unit at a place on a wall.

    Args:
        job: the job file.
        battery: data sheet of the unit.
        fixings: data sheets of screws and anchors that may be used; those for another kind of wall are passed over.
        books: the editions in force.
        place: where the unit hangs.
        unit: its name everywhere.
        prices: price of one piece by data sheet, any one currency; a fixing without a price is tried after those
            that have one, in the order given.
        plug: data sheet of a plug, where one was chosen: it is judged, and never carries a hanging unit.
        base_anchors: data sheets of anchors that may hold the foot of a unit that stands.

    Returns:
        The least-cost fixing whose checks all pass; where none passes, the one with the fewest open checks.

    Raises:
        KeyError: where the job has no wall of that name.
    """
    task = Task(unit, job, battery, place, books)
    ground, found = walls.footing(task), pattern(task)
    checks = [ground.check, walls.maker_allows(task), *joints.checks(books, battery, unit)]
    checks += walls.plug(task, plug) if plug is not None else ()
    tried = _try(task, found, ground.base, fixings, prices or {})
    best = next((each for each in tried if not each.open), None) or _nearest(tried, fixings)
    if best is not None:
        checks += best.checks
    elif ground.base is not None:
        checks.append(_no_fixing(task, ground.base))
    return Anchorage(
        unit,
        place.wall,
        ground.base,
        best.sheet if best is not None else None,
        best.cost if best is not None else None,
        tuple(_row(hole.id, hole.x, hole.y, hole.off) for hole in found.holes),
        battery.fact("fixing.plate", "t_plate", "mm"),
        millimetres("t_lining", task.lining),
        wood.gravity(task) if ground.base == "wood" else None,
        best.stray if best is not None else None,
        tuple(checks),
        tuple(tried),
    )


def _nearest(tried: list[Tried], fixings: Sequence[SheetFile]) -> Tried | None:
    """Where none passes: the one with the fewest open checks, of several the one that was offered first."""
    offered = [sheet.content.id for sheet in fixings]
    return min(tried, key=lambda each: (each.open, offered.index(each.sheet.content.id)), default=None)


def _try(task: Task, found: Pattern, base: Base | None, fixings: Sequence[SheetFile],
         prices: Mapping[str, float]) -> list[Tried]:  # fmt: skip
    """Every fixing for this base with its checks, cheapest first, those without a price last."""
    if base is None:
        return []
    cases = loads.for_wood(task) if base == "wood" else loads.for_concrete(task)
    shared = forces.asked(task, found, cases) if found.holes else []
    hooked = forces.asked(task, found, cases, on_upper_rail=True) if found.holes else []
    fitting = [sheet for sheet in fixings if sheet.content.kind in KINDS[base]]
    count = len(found.holes)
    costs = {sheet.content.id: prices[sheet.content.id] * count for sheet in fitting if sheet.content.id in prices}
    fitting.sort(key=lambda sheet: costs.get(sheet.content.id, float("inf")))

    def judged(sheet: SheetFile) -> tuple[Check, ...]:
        even, upper = (_judged(task, found, asked, base, sheet) for asked in (shared, hooked))
        return tuple(_either(one, other) for one, other in zip(even, upper, strict=True))

    def stray(sheet: SheetFile) -> Value | None:
        return wood_fit.stray(task, hooked, wood.screw(task, sheet)) if base == "wood" and found.holes else None

    return [Tried(sheet, costs.get(sheet.content.id), judged(sheet), stray(sheet)) for sheet in fitting]


def _either(even: Check, upper: Check) -> Check:
    """A check with the weight shared by all fasteners, and by the upper ones alone.

    The first refuses by itself. Where it passes the second counts: it rests on a bounding assumption, so that its
    failure cannot be told before the maker says which fasteners carry weight.
    """
    return even if even.open else upper


def _judged(task: Task, found: Pattern, asked: Asked, base: Base, sheet: SheetFile) -> list[Check]:
    if not found.holes:
        title = "The unit has holes for fasteners"
        return [cannot_tell(task.id("holes"), title, task.maker, task.battery.fact("fixing.holes", "holes").how)]
    if base == "wood":
        one = wood.screw(task, sheet)
        return [
            *bracket.checks(task, len(found.holes), sheet, one.D),
            wood_fit.least_studs(task, found),
            *wood_fit.checks(task, found, asked, one, sheet),
            *wood.checks(task, asked, one),
        ]
    return _in_concrete(task, found, asked, sheet)


def _in_concrete(task: Task, found: Pattern, asked: Asked, sheet: SheetFile) -> list[Check]:
    try:
        each = concrete.anchors(task, found, sheet)
    except Refusal as refusal:
        clause = task.books.book("aci318").clause("group")
        return [cannot_tell(task.id("concrete-group"), "The anchors can be worked out", clause, str(refusal))]
    return [
        concrete_fit.suits_concrete(task, each),
        *bracket.checks(task, len(found.holes), sheet, each.d_a),
        *concrete_fit.checks(task, each),
        *concrete.checks(task, asked, each),
    ]


def _no_fixing(task: Task, base: Base) -> Check:
    kinds = " or ".join(KINDS[base])
    reason = f"no data sheet of a {kinds} was offered: name one under [equipment]"
    return cannot_tell(task.id("fixing"), "A fixing is chosen", task.practice.clause("hanging"), reason)


def _row(id: str, x: Value, y: Value, off: Value | None) -> Hole:
    return Hole(id, millimetres("x", x), millimetres("y", y), None if off is None else millimetres("off", off))
