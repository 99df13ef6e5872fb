"""Plan details of a wall: from above, with the depth of the working space, what stands in the room, vehicles and their
barrier, and the pad of standing units; and the units with board, studs and holes at a larger scale.

The wall stands at the top of the sheet as on the elevation, so left is left on both. Nothing is drawn that was not
surveyed or chosen: what is not known is told in a note.
"""

from collections.abc import Sequence

from standfast.design.anchorage.held import Anchorage
from standfast.design.siting.layout import Thing
from standfast.design.siting.placed import PlacedUnit, Siting
from standfast.design.siting.solid import Span, mm
from standfast.design.siting.spaces import Space, outline, spaces
from standfast.handover.drawings.elevation import CONCRETE, WORKING, told
from standfast.handover.drawings.enlarged import enlarged
from standfast.handover.drawings.face import Face, Shown, face, listed, units_on, wall_named
from standfast.handover.drawings.from_above import box, known, thickness, wall_cut
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import Drawing
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point
from standfast.shelf import Adoption
from standfast.survey.house import Footing, VehiclePath, Wall
from standfast.survey.read import Survey
from standfast.units import feet_inches

DETAIL_MM = 92.0
"""Paper kept for the detail, above the foot."""
MARGINS = (32.0, DETAIL_MM + furniture.FOOT_MM + dimension.ROW_MM, 36.0, 34.0)
_STOP_MM, _BOLLARD_MM = 127.0, 89.0
"""Sizes by which a wheel stop and a bollard are drawn where the survey tells their distance only."""


def plan(
    survey: Survey, adoption: Adoption, siting: Siting, wall: str, held: Sequence[Anchorage] = ()
) -> Drawing:  # fmt: skip
    """A wall with units from above, and the units on it at a larger scale.

    Args:
        survey: the job file.
        adoption: the books in force.
        siting: where the units are.
        wall: id of the wall.
        held: how the units are held: the anchors of their feet are taken from here.

    Raises:
        DoesNotFit: where the wall is too large for the sheet, or its height was not surveyed.
    """
    seen, here, units = face(survey, siting, wall), wall_named(survey, wall), units_on(siting, wall)
    kept = spaces(adoption, siting.on(wall))
    working = [each for each in kept if each.kind == "working space" and each.solid.y is not None]
    deep = max([_front(units), *(mm((each.solid.y or Span(0, 0)).high) for each in working)]) + 200
    names = listed([each.unit.name for each in units])
    words = f"Wall {wall} from above with {names}, working space, and a detail of each unit on its studs"
    extent = (0.0, -deep, seen.length, thickness(here) + 60)
    drawing = Drawing.fitted(f"Plan of wall {wall}", words, ANSI_B.drawing, extent, MARGINS)
    if working:
        drawing.zone(_down(outline([each.solid for each in working], "plan")), WORKING[0], told(working))
    _path(drawing, here.vehicle_path, deep)
    _pad(drawing, here.footing)
    wall_cut(drawing, here, seen, 0, seen.length)
    for place in units:
        _unit(drawing, place)
    for thing in seen.things:
        _thing(drawing, seen, thing)
    for body in seen.others:
        _body(drawing, seen, body, deep)
    _protection(drawing, here.vehicle_path, units)
    _dimensions(drawing, seen, units, working)
    _notes(drawing, seen, here)
    enlarged(drawing, units, _feet(held), seen, here, DETAIL_MM)
    furniture.foot(drawing)
    return drawing


def _feet(held: Sequence[Anchorage]) -> dict[str, list[tuple[float, float]]]:
    """Holes in the floor under each unit, mm along the wall and out from it."""
    return {
        each.unit: [(hole.x.quantity, hole.out.quantity) for hole in each.foot.holes
                    if not hole.x.missing and not hole.out.missing]
        for each in held
        if each.foot is not None
    }  # fmt: skip


def _front(units: Sequence[PlacedUnit]) -> float:
    return max(mm((each.unit.solid.y or Span(0, 0)).high) for each in units)


def _down(rings: Sequence[Sequence[Point]]) -> list[list[Point]]:
    """Rings with y out of the wall, as they stand on the sheet: the room below the wall."""
    return [[(x, -y) for x, y in ring] for ring in rings]


def _pad(drawing: Drawing, footing: Footing | None) -> None:
    """The pad of standing units, where it is one and not the floor of the room."""
    if footing is None or footing.left is None or not known(footing.width) or not known(footing.depth):
        return
    left, right, deep = known(footing.left), known(footing.left) + known(footing.width), known(footing.depth)
    drawing.zone([[(left, 0.0), (right, 0.0), (right, -deep), (left, -deep)]], CONCRETE, footing.kind or "pad")


def _thing(drawing: Drawing, seen: Face, thing: Shown) -> None:
    """Equipment on the wall; an opening is a gap in it."""
    sides, text = box(thing.solid), seen.names[thing.id]
    if thing.solid.x is None:
        return
    left, right = mm(thing.solid.x.low), mm(thing.solid.x.high)
    with drawing.part(f"thing-{thing.id}", text):
        if thing.opening:
            drawing.rect(left, -20, right - left, 140, "medium", "white")
        elif sides is not None and sides[2] and sides[3]:
            drawing.rect(*sides, "medium", "white")
            drawing.keep_clear(sides[0], sides[1], sides[0] + sides[2], sides[1] + sides[3], own=True)
        else:
            drawing.cross(((left + right) / 2, 0), 2, "medium")
    labels.note(drawing, ((left + right) / 2, 0 if sides is None else sides[1]), text, 30, (0, -1), arrow=False)


def _body(drawing: Drawing, seen: Face, body: Thing, deep: float) -> None:
    """A body on another wall of the room, as far as it stands in the picture."""
    sides = box(body.solid)
    if sides is None or sides[0] + sides[2] < 0 or sides[0] > seen.length or -sides[1] - sides[3] > deep:
        return
    left, right = max(sides[0], 0.0), min(sides[0] + sides[2], seen.length)
    low = max(sides[1], -deep)
    with drawing.part(f"thing-{body.id}", seen.names[body.id]):
        drawing.rect(left, low, right - left, sides[1] + sides[3] - low, "medium", "white")
    labels.inside(drawing, (left, low, right, sides[1] + sides[3]), seen.names[body.id], 30)


def _unit(drawing: Drawing, place: PlacedUnit) -> None:
    """A unit from above, with its name where there is room for it; no other text may stand on it."""
    sides, name = box(place.unit.solid), place.unit.name.upper()
    if sides is None:
        return
    with drawing.part(place.id, place.unit.name):
        drawing.rect(*sides, "outline", "white")
    middle = (sides[0] + sides[2] / 2, sides[1] + sides[3] / 2)
    wide, high = (each / drawing.scale.ratio for each in sides[2:])
    if width_mm(name, LEAST_MM) + 2 <= wide and high >= LEAST_MM + 1:
        drawing.text(middle, name, anchor="middle", bold=True, shift=(0, -1.2))
    else:
        labels.note(drawing, (middle[0], sides[1]), name, 40, (0, -1), arrow=False)
    drawing.keep_clear(sides[0], sides[1], sides[0] + sides[2], sides[1] + sides[3])


def _path(drawing: Drawing, path: VehiclePath | None, deep: float) -> None:
    """The driving path straight behind the vehicle door, where the wall faces it."""
    if path is not None and path.wall == "end wall":
        left, right = known(path.left), known(path.right)
        ring = [(left, 0.0), (right, 0.0), (right, -deep), (left, -deep)]
        drawing.zone([ring], "level", "driving path, to the wall")


def _protection(drawing: Drawing, path: VehiclePath | None, units: Sequence[PlacedUnit]) -> None:
    """The barrier that the survey names, at its distance from the front of the units: a bollard before each."""
    if path is None or path.protection in (None, "none") or path.protection_distance is None:
        return
    spans = [each.unit.solid.x or Span(0, 0) for each in units]
    left, right = mm(min(each.low for each in spans)), mm(max(each.high for each in spans))
    near = -_front(units) - known(path.protection_distance)
    middles = [mm(each.low + each.high) / 2 for each in spans]
    with drawing.part("protection", f"{path.protection} before the units"):
        if path.protection == "bollard":
            for middle in middles:
                centre = (middle, near - _BOLLARD_MM / 2)
                drawing.circle(centre, _BOLLARD_MM / 2, "outline", "white")
                drawing.cross(centre, 1.2)
        else:
            drawing.rect(left - 150, near - _STOP_MM, right - left + 300, _STOP_MM, "outline", "white")
    text = f"{path.protection} (N), as the code sizes and anchors it"
    labels.note(drawing, (max(middles), near), text, 40, (1, -0.5))
    dimension.between(drawing, (right, -_front(units)), (right, near))


def _dimensions(drawing: Drawing, seen: Face, units: Sequence[PlacedUnit], working: Sequence[Space]) -> None:
    """Above: the units along the wall. To the right: depth of a unit and of its working space."""
    edges = sorted({mm(each) for unit in units for each in unit.unit.solid.x or ()})
    dimension.across(drawing, [0, *edges, seen.length], _top(drawing, seen), "above", 1)
    names = {each.id for each in units}
    ends = {-mm((each.solid.y or Span(0, 0)).high) for each in working if each.thing in names}
    steps = [0.0, -_front(units), *sorted(ends, reverse=True)]
    dimension.upward(drawing, steps, seen.length, "right", 1)


def _top(drawing: Drawing, seen: Face) -> float:
    """Model y above the wall from which dimensions start."""
    return drawing.real(3.5)


def _notes(drawing: Drawing, seen: Face, wall: Wall) -> None:
    facing = (
        "not known" if wall.facing is None else f"{feet_inches(known(wall.facing))}, {wall.facing_is or 'not known'}"
    )
    lines = [
        f"Room: {seen.room}. Behind the wall: {seen.behind}. Distance to the opposite face: {facing}.",
        *(each for each in (seen.footing, seen.vehicles) if each),
        "(E) existing, (N) new. The working space stays free; nothing is stored in it.",
    ]
    for index, line in enumerate(lines):
        drawing.text((0, 0), line, shift=(0, drawing.at((0, 0))[1] - 6 - index * 4.4))
