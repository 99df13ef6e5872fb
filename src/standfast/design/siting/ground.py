"""A wall of the job made ready for its units: what was surveyed, the rules in force, the question of a place."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile, battery_way
from standfast.design.siting import choosing, surveyed
from standfast.design.siting.asking import Ask, bound, held
from standfast.design.siting.choosing import Question
from standfast.design.siting.frames import exact, frame, moved
from standfast.design.siting.instructions import FRAMES
from standfast.design.siting.keepouts import keepouts
from standfast.design.siting.layout import Facts, Layout, Unit
from standfast.design.siting.rules import stated
from standfast.design.siting.solid import Solid, Span, tenths
from standfast.design.siting.things import Surveyed, is_chosen_inverter, same_room
from standfast.faults import BadFormula, NotInEdition
from standfast.sheet import Value, missing
from standfast.shelf import Adoption
from standfast.survey.house import Wall

NOT_FOR_JOBS = frozenset({"repurposed-battery", "low-door", "wheel-stop", "bollard"})
"""Rules that a job of listed units does not ask by themselves."""


class Wish(NamedTuple):
    """Where a unit shall be, as far as it is fixed beforehand: wall, and edges in tenths."""

    wall: str | None
    left: int | None
    bottom: int | None


class Ground(NamedTuple):
    """A wall that units may stand at.

    Attributes:
        seen: the job, seen from this wall.
        bare: the wall without units.
        asks: the rules in force, bound, with the placing tolerance.
    """

    seen: Surveyed
    bare: Layout
    asks: dict[str, Ask]

    @property
    def wall(self) -> Wall:
        """The wall of the job."""
        return self.seen.wall

    def unit(self, id: str) -> Unit:
        """A unit at this wall that has no place on it yet."""
        return surveyed.unit(self.seen, id)


def ground(adoption: Adoption, seen: Surveyed, sheets: Mapping[str, SheetFile]) -> Ground:
    """A wall of the job with the rules in force."""
    screw, edge = _screw(adoption, sheets)
    bare = surveyed.layout(seen, edge, screw)
    bare = bare._replace(facts=_tolerant(adoption, bare.facts))
    return Ground(seen, bare, in_force(adoption, bare))


def rules_of_jobs(adoption: Adoption) -> list[str]:
    """The rules that a job asks, as far as some book in force states them."""
    return [id for id in stated(adoption) if id not in NOT_FOR_JOBS]


def in_force(adoption: Adoption, layout: Layout) -> dict[str, Ask]:
    """The rules in force, bound, with the placing tolerance."""
    asked = {id: bound(adoption, id) for id in rules_of_jobs(adoption)}
    return {id: each._replace(beside=asked, placing=layout.facts.placing) for id, each in asked.items()}


def question(adoption: Adoption, at: Ground, layout: Layout, unit: Unit) -> Question:
    """The question of the place of a unit on a wall.

    Args:
        adoption: the books in force.
        at: the wall.
        layout: the wall with the units that stand already, on it and on others.
        unit: the unit that is placed.
    """
    lift = held(adoption, ("practice",), "lift_run")
    asked = choosing.question(unit, keepouts(at.asks, layout, unit), _target(at.seen, unit.id), round(lift.quantity))
    asked = asked._replace(wall=at.wall.id)
    if unit.stands:
        top = None if layout.room is None or layout.room.footing is None else layout.room.footing.top
        asked = asked._replace(bottom=top or 0)
    studs = None if layout.room is None else layout.room.studs
    if studs is None or layout.facts.wall_build not in FRAMES:
        return asked
    off_allowed = 0.0 if studs.off_centre.missing else studs.off_centre.quantity
    dear, stray = (held(adoption, ("practice",), key) for key in ("off_stud_run", "off_centre_run"))
    off, by = tenths(dear.quantity * 1000), round(stray.quantity)
    return choosing.framed(asked, unit, studs.centres, off_allowed, off, by)


def fixed(asked: Question, wish: Wish) -> Question:
    """The question with the edges that are wished on its wall; a unit that stands keeps the height of its footing."""
    if wish.wall not in (None, asked.wall):
        return asked
    return asked._replace(left=wish.left, bottom=wish.bottom if asked.bottom is None else asked.bottom)


def wish_of(job: JobFile, unit: str) -> Wish:
    """Where a unit shall be: its own wish, else what is wished for all, else for the only one.

    A left edge counts only beside a wall that is named too; a lower edge counts on every wall.
    """
    wishes, alone = job.content.wishes, (job.content.equipment.quantity or 1) == 1
    own = next((each for each in wishes.units if each.id == unit), None)
    wall = own.wall if own is not None and own.wall is not None else wishes.wall
    left = own.left if own is not None and own.left is not None else wishes.left if alone else None
    bottom = own.bottom if own is not None and own.bottom is not None else wishes.bottom if alone else None
    return Wish(wall, *(None if each is None else exact(each) for each in (None if wall is None else left, bottom)))


def put(unit: Unit, left: int, bottom: int) -> Unit:
    """A unit at a place of its wall."""
    height = 0 if unit.solid.z is None else unit.solid.z.high - unit.solid.z.low
    return unit._replace(solid=Solid(Span(left, left + unit.width), unit.solid.y, Span(bottom, bottom + height)))


def seen_from(at: Ground, unit: Unit, other: Wall) -> Unit:
    """A unit of another wall in the frame of this one.

    From another room only the distance in plan is told, since floors may lie at different heights.
    """
    own, there, near = frame(at.wall), frame(other), same_room(at.seen, other)
    solid = Solid(z=unit.solid.z) if own is None or there is None else moved(unit.solid, there, own)
    return unit._replace(solid=solid if near else solid._replace(z=None), beyond=not near)


def _target(seen: Surveyed, unit: str) -> tuple[int, int] | None:
    """Where the run of a unit goes, seen in the frame of the wall: the middle of its inverter, else of its panel."""
    own = frame(seen.wall)
    panel = _panel(seen.job, unit)
    for inverter in (True, False):
        for wall in sorted(seen.job.content.walls, key=lambda each: each.id != seen.wall.id):
            for obstacle in wall.obstacles:
                if inverter and not is_chosen_inverter(obstacle):
                    continue
                if not inverter and (obstacle.panel is None or obstacle.panel != panel):
                    continue
                x = exact(obstacle.left) + exact(obstacle.width) // 2
                z = exact(obstacle.bottom) + exact(obstacle.height) // 2
                there = frame(wall)
                if wall.id == seen.wall.id:
                    return x, z
                if own is not None and there is not None:
                    return round(own.here(there.plan(x, 0))[0]), z
    return None


def _panel(job: JobFile, unit: str) -> str | None:
    try:
        return battery_way(job, unit)[0]
    except BadFormula:
        return None


def _screw(adoption: Adoption, sheets: Mapping[str, SheetFile]) -> tuple[Value, Value]:
    """Diameter of the screw, mm, and its least distance from the edge of a stud, in diameters."""
    role = sheets.get("fastener")
    if role is None:
        screw = missing("D", "mm", "equipment.fastener: choose the screw that holds the unit")
    else:
        screw = role.fact("fastener.diameter", "D", "mm")
    try:
        return screw, held(adoption, ("nds",), "edge_parallel")
    except NotInEdition as refusal:
        return screw, missing("n_D", "1", str(refusal))


def _tolerant(adoption: Adoption, facts: Facts) -> Facts:
    """The facts with a placing tolerance: the survey's, else that of tape and level; never none."""
    if facts.placing is not None:
        return facts
    return facts._replace(placing=held(adoption, ("practice",), "placing_tolerance"))
