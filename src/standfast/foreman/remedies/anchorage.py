"""Ladders of the anchorage: another fixing, another place, a tied pad, a pad where the ground carries nothing."""

from collections.abc import Iterator

from standfast.design.anchorage.inverter import inverter_place
from standfast.design.anchorage.pattern import left_edges
from standfast.design.anchorage.task import Task
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, places, siting, tape
from standfast.foreman.remedies.change import Change, Ladder, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.house import Wall
from standfast.survey.joined import INVERTER

INCH_MM = 25.4
THICK = (4, 6, 8, 10, 12, 16)
"""Thicknesses of a pad that is cast, in. No verdict rests on them, nor on its margin and strength: each is tried."""
MARGIN_MM = 500.0
"""How far such a pad reaches beyond the unit to the left, to the right and in front."""


def fixing(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Another anchor for the foot, another screw for the inverter, another screw or anchor for unit or brace."""
    roles = ("base_anchor",) if _foot(check) else ("fastener", "anchor")
    roles = ("inverter_fastener",) if _inverter(check) else roles
    yield from at_hand.other(*roles)(plan, check)


def place(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The unit or the inverter moved to where its holes meet studs."""
    yield from _inverter_moved(plan) if _inverter(check) else places.place(plan, check)


def behind(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The board behind the bracket taken away, or another wall: both for what hangs, not for a foot or an inverter."""
    if not _foot(check) and not _inverter(check):
        yield from siting.lining(plan, check)
    if not _inverter(check):
        yield from places.walls(plan, check)


def tied(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A pad that is there and stands by itself tied to the house; bars of a new one are not worked out."""
    path, wall = _wall(plan, check)
    if wall.footing is None or wall.footing.state == "new":
        return
    says = "tie the pad to the slab or foundation of the house with bars"
    yield ladder([one(says, ((*path, "footing", "doweled"), True))])


def heavier(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A new pad cast thicker."""
    path, wall = _wall(plan, check)
    if wall.footing is None or wall.footing.state != "new" or wall.footing.thickness is None:
        return
    now = amount(wall.footing.thickness, "mm") / INCH_MM
    says = "cast the pad {} in thick"
    yield ladder(one(says.format(n), ((*path, "footing", "thickness"), f"{n} in")) for n in THICK if n > now)


def cast(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A concrete pad where the unit stands, in place of what carries nothing."""
    path, wall = _wall(plan, check)
    body = plan.sheets["battery"].sheet.body
    placed = next((each for each in plan.design.siting.places if each.id in check.id.split("/")), None)
    if placed is None or placed.left.missing or body.width is None or body.depth is None:
        return
    at = (*path, "footing")
    left = max(0.0, placed.left.quantity - MARGIN_MM)
    right = min(amount(wall.length, "mm"), placed.left.quantity + amount(body.width, "mm") + MARGIN_MM)
    facts: list[tuple[str, str | bool]] = [
        ("kind", "concrete pad"), ("left", _tape(plan, at, left)), ("width", _tape(plan, at, right - left)),
        ("depth", _tape(plan, at, amount(body.depth, "mm") + MARGIN_MM)), ("concrete_strength", "2500 psi"),
        ("concrete_kind", "normalweight"), ("doweled", False), ("state", "new"),
    ]  # fmt: skip
    words = [((*at, word), value) for word, value in facts]
    says = "cast a concrete pad {} in thick under the unit"
    yield ladder(one(says.format(each), *words, ((*at, "thickness"), f"{each} in")) for each in THICK)


def _inverter_moved(plan: JobPlan) -> Iterator[Ladder]:
    there, sheet = inverter_place(plan.survey), plan.sheets.get("inverter")
    if there is None or sheet is None or there.left.missing:
        return
    edges = left_edges(Task(INVERTER, plan.survey, sheet, there, plan.adoption))
    now = there.left.quantity
    path = _thing(plan)
    ordered = sorted(edges, key=lambda edge: (edge - now) ** 2)
    yield ladder(
        _moved(path, edge - now, text)
        for edge in ordered
        if round(edge - now, 1)
        for text in tape.texts(plan, (*path, "left"), edge)
    )


def _moved(path: Path, by: float, edge: str) -> Change:
    way = f"{tape.said(edge, max(by, -by))} {'right' if by > 0 else 'left'}"
    return one(f"hang the inverter {way}, where its holes meet studs", ((*path, "left"), edge))


def _tape(plan: JobPlan, table: Path, mm: float) -> str:
    """A measure of a pad as the tape of the job has it; what it gains or loses is less than the pad stands out."""
    return tape.texts(plan, (*table, "left"), round(mm))[0]


def _thing(plan: JobPlan) -> Path:
    """The inverter among the things of its wall."""
    return next(
        ("walls", number, "obstacles", place)
        for number, wall in enumerate(plan.survey.job.walls)
        for place, thing in enumerate(wall.obstacles)
        if thing.kind == "inverter" and thing.state == "new"
    )


def _wall(plan: JobPlan, check: Check) -> tuple[Path, Wall]:
    """The wall of the unit that a check is about."""
    id = next((each.wall for each in plan.design.anchorages if each.unit in check.id.split("/")), None)
    return next((("walls", n), wall) for n, wall in enumerate(plan.survey.job.walls) if wall.id == id)


def _foot(check: Check) -> bool:
    return check.id.endswith("/foot")


def _inverter(check: Check) -> bool:
    return INVERTER in check.id.split("/")


WAYS = (
    ("siting.on-its-footing/", (places.place, cast, places.walls)),
    ("anchorage.pad-", (heavier, tied)),
    ("anchorage.footing-carries/", (cast, behind)),
    ("anchorage.maker-footing/", (cast, behind)),
    ("anchorage.foot-stays/", (at_hand.other("battery"), behind)),
    ("anchorage.", (fixing, place, behind)),
)
"""The least change first."""
