"""A wall with units as elevation and plan show it: sizes in mm, names, and sentences about what it is made of."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.siting.layout import BODIES, OPENINGS, Thing
from standfast.design.siting.placed import PlacedUnit, Siting
from standfast.design.siting.solid import Solid, mm
from standfast.paper.drawing import DoesNotFit
from standfast.survey.house import Wall
from standfast.survey.read import Survey
from standfast.units import Quantity, feet_inches

NOT_KNOWN = "not known"


class Shown(NamedTuple):
    """A thing on the wall: its id, its outline in tenths, whether it is an opening, and whether the job adds it."""

    id: str
    solid: Solid
    opening: bool
    new: bool


class Face(NamedTuple):
    """A wall for the drawings.

    Attributes:
        length: of the face, mm.
        height: of the face, mm.
        things: openings and equipment on it, from the left.
        others: bodies on other walls of the room that stand near it, in its frame.
        names: what each thing is called, with (E) or (N).
        studs: middles of studs, mm.
        build_up: sentences about what the wall is made of.
        detection: a sentence about the detector of the room; empty outdoors.
        vehicles: a sentence about vehicles and what protects the units.
        floor: level of the floor.
        footing: a sentence about what standing units stand on; empty where the survey says nothing of it.
        ceiling: height of the wall.
        room: the room from which it is seen.
        behind: what is on the other side.
    """

    length: float
    height: float
    things: tuple[Shown, ...]
    others: tuple[Thing, ...]
    names: dict[str, str]
    studs: tuple[float, ...]
    build_up: tuple[str, ...]
    detection: str
    vehicles: str
    floor: str
    footing: str
    ceiling: str
    room: str
    behind: str


def wall_named(survey: Survey, id: str) -> Wall:
    """A wall of the job by its id."""
    return next(wall for wall in survey.job.walls if wall.id == id)


def units_on(siting: Siting, wall: str) -> list[PlacedUnit]:
    """The units on a wall, in the order of their names."""
    return [each for each in siting.places if each.wall == wall]


def listed(names: Sequence[str]) -> str:
    """``Battery 1``, ``Battery 1 and Battery 2``, ``Battery 1, Battery 2 and Battery 3``."""
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def face(survey: Survey, siting: Siting, id: str) -> Face:
    """A wall that holds units.

    Args:
        survey: the job file.
        siting: where the units stand.
        id: of the wall.

    Raises:
        DoesNotFit: where its height was not surveyed, so that no drawing of it can be made.
    """
    wall, layout = wall_named(survey, id), siting.on(id).layout
    if layout.facts.ceiling is None or layout.facts.wall_to is None:
        raise DoesNotFit(f"the drawing of wall {wall.id} needs its height: write walls.{wall.id}.height")
    room = next((each for each in survey.job.rooms if each.id == wall.room), None)
    studs = layout.room.studs if layout.room is not None else None
    shown = [
        Shown(each.id, each.solid, each.kind in OPENINGS, each.new)
        for each in layout.things
        if each.on_wall and (each.kind in BODIES or each.kind in OPENINGS)
    ]
    surveyed = {each.id for other in survey.job.walls for each in other.obstacles}
    others = [
        each for each in layout.things if not each.on_wall and each.kind in BODIES and each.id in surveyed
    ]  # fmt: skip
    detection = room.detection if room is not None else None
    outdoors = wall.room == "outside" or (room is not None and room.kind == "outside")
    height = mm(layout.facts.ceiling)
    return Face(
        mm(layout.facts.wall_to),
        height,
        tuple(sorted(shown, key=lambda each: each.solid.x or (0, 0))),
        tuple(others),
        _names(survey),
        tuple(mm(each) for each in studs.centres) if studs is not None else (),
        _build_up(wall),
        "" if outdoors else f"Detection in this room, by survey: {detection or NOT_KNOWN}.",
        _vehicles(siting, [each.id for each in units_on(siting, id)]),
        _floor(wall),
        _footing(wall),
        f"height of the wall {feet_inches(height)}",
        room.kind if room is not None else wall.room,
        (wall.behind or NOT_KNOWN).replace("-", " "),
    )


def _names(survey: Survey) -> dict[str, str]:
    """Panels by the name of their schedule, the chosen inverter by its own; all else by its id, hyphens as spaces."""
    panels = {panel.id: panel.name for panel in survey.job.panels}
    names = {each.id: each.id.replace("-", " ") for wall in survey.job.walls for each in wall.openings}
    for wall in survey.job.walls:
        for each in wall.obstacles:
            name = panels.get(each.panel or "") or each.id.replace("-", " ")
            if each.kind == "inverter" and each.state == "new":
                name = "Inverter"
            names[each.id] = f"{name} ({'N' if each.state == 'new' else 'E'})"
    return names


def _vehicles(siting: Siting, units: Sequence[str]) -> str:
    """The worst that is said of vehicles and one of these units."""
    asked = {f"siting.vehicle-damage/{unit}" for unit in units}
    found = [check for check in siting.checks if check.id in asked]
    if not found:
        return ""
    check = min(found, key=lambda each: ("fail", "cannot tell", "pass", "not applicable").index(each.verdict))
    told = {"pass": check.reason or "protected", "fail": f"NOT PROTECTED: {check.reason}"}
    return f"Vehicles ({check.clause}): {told.get(check.verdict, check.reason)}."


def _build_up(wall: Wall) -> tuple[str, ...]:
    made = wall.build_up
    lines = [f"Wall: {made.kind or NOT_KNOWN}; lining: {_thick(made.lining, made.lining_thickness)}."]
    if made.kind in ("timber frame", "steel studs"):
        size = f"{_text(made.stud_width)} × {_text(made.stud_depth)} at {_text(made.stud_spacing)} on centre"
        first = f"first one {_text(made.first_stud)} from the left end"
        lines.append(f"Studs: {size}, {first}; {made.species or NOT_KNOWN}.")
    elif made.kind == "concrete":
        strength = _text(made.concrete_strength)
        lines.append(f"Concrete: {_text(made.concrete_thickness)} thick, specified strength {strength}.")
    return tuple(lines)


def _thick(lining: str | None, thickness: Quantity | None) -> str:
    if lining is None:
        return NOT_KNOWN
    return lining if lining == "none" else f"{lining}, {_text(thickness)}"


def _text(quantity: Quantity | None) -> str:
    return NOT_KNOWN if quantity is None else quantity.text


def _floor(wall: Wall) -> str:
    level = wall.floor_above_grade
    return "floor" if level is None else f"floor, {level.text} above grade"


def _footing(wall: Wall) -> str:
    footing = wall.footing
    if footing is None:
        return ""
    concrete = footing.kind in ("concrete slab", "concrete pad")
    made = f", {_text(footing.thickness)} thick, specified strength {_text(footing.concrete_strength)}"
    return f"Under standing units: {footing.kind or NOT_KNOWN}{made if concrete else ''}."
