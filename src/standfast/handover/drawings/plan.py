"""Plan details of the wall: from above, with the depth of the working space, what stands in the room, vehicles and
their barrier; and the unit with bracket, board and studs at a larger scale.

The wall stands at the top of the sheet as on the elevation, so left is left on both. Nothing is drawn that was not
surveyed or chosen: what is not known is told in a note.
"""

from collections.abc import Sequence

from standfast.design.siting.layout import Thing
from standfast.design.siting.placed import Siting
from standfast.design.siting.solid import Solid, Span, mm
from standfast.design.siting.spaces import Space, outline, spaces
from standfast.design.siting.whole import wall_of
from standfast.handover.drawings.elevation import WORKING, told
from standfast.handover.drawings.face import Face, Shown, face
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import Drawing, Scale
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point
from standfast.shelf import Adoption
from standfast.survey.house import VehiclePath, Wall
from standfast.survey.read import Survey
from standfast.units import Quantity, feet_inches

DETAIL = Scale(8, "1-1/2 in = 1 ft")
DETAIL_MM = 92.0
"""Paper kept for the detail, above the foot."""
MARGINS = (32.0, DETAIL_MM + furniture.FOOT_MM + dimension.ROW_MM, 36.0, 34.0)
BESIDE_MM = 250.0
"""How much of the wall the detail shows beside the unit."""
_STOP_MM, _BOLLARD_MM = 127.0, 89.0
"""Sizes by which a wheel stop and a bollard are drawn where the survey tells their distance only."""


def plan(survey: Survey, adoption: Adoption, siting: Siting, name: str) -> Drawing:
    """The wall of the unit from above, and the unit on it at a larger scale.

    Args:
        survey: the job file.
        adoption: the books in force.
        siting: where the unit hangs.
        name: what the unit is called everywhere.

    Raises:
        DoesNotFit: where the wall is too large for the sheet, or its height was not surveyed.
    """
    seen, wall = face(survey, siting), wall_of(survey, siting.places[0])
    working = [
        each for each in spaces(adoption, siting.judged[0]) if each.kind == "working space" and each.solid.y is not None
    ]
    deep = max([_front(siting), *(mm((each.solid.y or Span(0, 0)).high) for each in working)]) + 200
    behind = _thickness(wall) + 60
    title = f"Plan of wall {siting.places[0].wall}"
    words = (
        f"Wall {siting.places[0].wall} from above with {name}, its working space, and a detail of the unit on its studs"
    )
    drawing = Drawing.fitted(title, words, ANSI_B.drawing, (0, -deep, seen.length, behind), MARGINS)
    if working:
        drawing.zone(_down(outline([each.solid for each in working], "plan")), WORKING[0], told(working))
    _path(drawing, wall.vehicle_path, deep)
    _wall(drawing, wall, seen, 0, seen.length)
    _unit(drawing, siting, name)
    for thing in seen.things:
        _thing(drawing, seen, thing)
    for body in seen.others:
        _body(drawing, seen, body, deep)
    _protection(drawing, wall.vehicle_path, siting)
    _dimensions(drawing, seen, siting, working)
    _notes(drawing, seen, wall, deep)
    _detail(drawing, survey, siting, seen, wall, name)
    furniture.foot(drawing)
    return drawing


def _front(siting: Siting) -> float:
    return mm((siting.places[0].unit.solid.y or Span(0, 0)).high)


def _down(rings: Sequence[Sequence[Point]]) -> list[list[Point]]:
    """Rings with y out of the wall, as they stand on the sheet: the room below the wall."""
    return [[(x, -y) for x, y in ring] for ring in rings]


def _size(quantity: Quantity | None) -> float:
    return 0.0 if quantity is None else float(quantity.number)


def _thickness(wall: Wall) -> float:
    """What is known of the thickness of the wall, mm: board and studs, or concrete; 0 where nothing is."""
    made = wall.build_up
    core = made.stud_depth if made.stud_depth is not None else made.concrete_thickness
    return _size(made.lining_thickness) + _size(core)


def _wall(drawing: Drawing, wall: Wall, seen: Face, left: float, right: float) -> None:
    """The wall cut: its face, the board, studs crossed out as cut wood, concrete hatched."""
    made = wall.build_up
    lining, thick = _size(made.lining_thickness) if made.lining != "none" else 0.0, _thickness(wall)
    with drawing.part("wall", "The wall, cut"):
        drawing.line((left, 0), (right, 0), pen="heavy")
        if lining:
            drawing.line((left, lining), (right, lining), pen="medium")
        if thick:
            drawing.line((left, thick), (right, thick), pen="heavy" if made.kind == "concrete" else "hidden")
        if made.kind == "concrete" and made.concrete_thickness is not None:
            ring = [(left, lining), (right, lining), (right, thick), (left, thick)]
            drawing.zone([ring], "diagonal", "concrete, cut", edge=False)
        wide, deep = _size(made.stud_width), _size(made.stud_depth)
        for middle in seen.studs if wide and deep else ():
            a, b = max(left, middle - wide / 2), min(right, middle + wide / 2)
            if a < b:
                drawing.rect(a, lining, b - a, deep, "medium", "white")
                drawing.line((a, lining), (b, lining + deep), pen="fine")
                drawing.line((a, lining + deep), (b, lining), pen="fine")


def _box(solid: Solid) -> tuple[float, float, float, float] | None:
    """Left, bottom, width and height on the sheet of a body from above; None where its depth is not known."""
    if solid.x is None or solid.y is None:
        return None
    return mm(solid.x.low), -mm(solid.y.high), mm(solid.x.high - solid.x.low), mm(solid.y.high - solid.y.low)


def _thing(drawing: Drawing, seen: Face, thing: Shown) -> None:
    """Equipment on the wall; an opening is a gap in it."""
    box, text = _box(thing.solid), seen.names[thing.id]
    if thing.solid.x is None:
        return
    left, right = mm(thing.solid.x.low), mm(thing.solid.x.high)
    with drawing.part(f"thing-{thing.id}", text):
        if thing.opening:
            drawing.rect(left, -20, right - left, 140, "medium", "white")
        elif box is not None and box[2] and box[3]:
            drawing.rect(*box, "medium", "white")
        else:
            drawing.cross(((left + right) / 2, 0), 2, "medium")
    labels.note(drawing, ((left + right) / 2, 0 if box is None else box[1]), text, 30, (0, -1), arrow=False)


def _body(drawing: Drawing, seen: Face, body: Thing, deep: float) -> None:
    """A body on another wall of the room, as far as it stands in the picture."""
    box = _box(body.solid)
    if box is None or box[0] + box[2] < 0 or box[0] > seen.length or -box[1] - box[3] > deep:
        return
    left, right = max(box[0], 0.0), min(box[0] + box[2], seen.length)
    low = max(box[1], -deep)
    with drawing.part(f"thing-{body.id}", seen.names[body.id]):
        drawing.rect(left, low, right - left, box[1] + box[3] - low, "medium", "white")
    labels.inside(drawing, (left, low, right, box[1] + box[3]), seen.names[body.id], 30)


def _unit(drawing: Drawing, siting: Siting, name: str) -> None:
    box = _box(siting.places[0].unit.solid)
    if box is not None:
        with drawing.part("unit", name):
            drawing.rect(*box, "outline", "white")
        middle = (box[0] + box[2] / 2, box[1] + box[3] / 2)
        drawing.text(middle, name.upper(), anchor="middle", bold=True, shift=(0, -1.2))
        drawing.keep_clear(box[0], box[1], box[0] + box[2], box[1] + box[3])


def _path(drawing: Drawing, path: VehiclePath | None, deep: float) -> None:
    """The driving path straight behind the vehicle door, where the wall faces it."""
    if path is not None and path.wall == "end wall":
        left, right = _size(path.left), _size(path.right)
        ring = [(left, 0.0), (right, 0.0), (right, -deep), (left, -deep)]
        drawing.zone([ring], "level", "driving path, to the wall")


def _protection(drawing: Drawing, path: VehiclePath | None, siting: Siting) -> None:
    """The barrier that the survey names, at its distance from the front of the unit."""
    if path is None or path.protection in (None, "none") or path.protection_distance is None:
        return
    solid = siting.places[0].unit.solid
    left, right = (mm(each) for each in solid.x or Span(0, 0))
    near = -_front(siting) - _size(path.protection_distance)
    middle = (left + right) / 2
    with drawing.part("protection", f"{path.protection} before the unit"):
        if path.protection == "bollard":
            centre = (middle, near - _BOLLARD_MM / 2)
            drawing.circle(centre, _BOLLARD_MM / 2, "outline", "white")
            drawing.cross(centre, 1.2)
        else:
            drawing.rect(left - 150, near - _STOP_MM, right - left + 300, _STOP_MM, "outline", "white")
    labels.note(drawing, (middle, near), f"{path.protection} (N), as the code sizes and anchors it", 40, (1, -0.5))
    dimension.between(drawing, (right, -_front(siting)), (right, near))


def _dimensions(drawing: Drawing, seen: Face, siting: Siting, working: Sequence[Space]) -> None:
    """Above: the unit along the wall. To the right: depth of the unit and of its working space."""
    left = siting.places[0].left.quantity
    right = left + siting.places[0].unit.width / 10
    dimension.across(drawing, [0, left, right, seen.length], _top(drawing, seen), "above", 1)
    own = [each for each in working if each.thing == siting.places[0].id and each.solid.y is not None]
    steps = [0.0, -_front(siting), *(-mm((each.solid.y or Span(0, 0)).high) for each in own)]
    dimension.upward(drawing, steps, seen.length, "right", 1)


def _top(drawing: Drawing, seen: Face) -> float:
    """Model y above the wall from which dimensions start."""
    return drawing.real(3.5)


def _notes(drawing: Drawing, seen: Face, wall: Wall, deep: float) -> None:
    facing = (
        "not known" if wall.facing is None else f"{feet_inches(_size(wall.facing))}, {wall.facing_is or 'not known'}"
    )
    lines = [
        f"Room: {seen.room}. Behind the wall: {seen.behind}. Distance to the opposite face: {facing}.",
        *([seen.vehicles] if seen.vehicles else []),
        "(E) existing, (N) new. The working space stays free; nothing is stored in it.",
    ]
    for index, line in enumerate(lines):
        drawing.text((0, 0), line, shift=(0, drawing.at((0, 0))[1] - 6 - index * 4.4))


def _detail(drawing: Drawing, survey: Survey, siting: Siting, seen: Face, wall: Wall, name: str) -> None:
    """The unit on its studs from above: board, studs, unit, and where its columns of holes are."""
    box = _box(siting.places[0].unit.solid)
    if box is None:
        return
    left, right = max(0.0, box[0] - BESIDE_MM), min(seen.length, box[0] + box[2] + BESIDE_MM)
    foot = drawing.height - furniture.FOOT_MM
    centre = drawing.width / 2 - (left + right) / 2 / DETAIL.ratio
    detail = drawing.detail(DETAIL, (centre, foot - DETAIL_MM + 40))
    with detail.part("detail", f"{name} from above, larger"):
        _wall(detail, wall, seen, left, right)
        for end in (left, right):
            detail.line((end, -_front(siting) - 40), (end, _thickness(wall) + 40), pen="phantom")
        detail.rect(*box, "outline", "white")
        columns = sorted({x for x, _ in siting.places[0].holes})
        for column in columns:
            detail.line((column, 40 - box[3]), (column, _thickness(wall) + 30), pen="centre")
    detail.text((box[0] + box[2] / 2, box[1] + box[3] / 2), name.upper(), anchor="middle", bold=True, shift=(0, -1.2))
    detail.text((left, _thickness(wall)), f"Detail: {name} from above. Scale {DETAIL}", bold=True, shift=(0, 17))
    dimension.across(detail, [box[0], *columns, box[0] + box[2]], box[1], "below", 1)
    dimension.upward(detail, [box[1], 0.0, _thickness(wall)] if _thickness(wall) else [box[1], 0.0], right, "right", 1)
    _layers(detail, wall, seen, left, right)


def _layers(detail: Drawing, wall: Wall, seen: Face, left: float, right: float) -> None:
    """Names of board and studs, and what of the wall was not surveyed."""
    made, at = wall.build_up, left + 60
    lining = _size(made.lining_thickness) if made.lining != "none" else 0.0
    if lining and made.lining_thickness is not None:
        text = f"{made.lining}, {made.lining_thickness.text}"
        labels.note(detail, (at, lining / 2), text, 40, (-1, -0.6))
    shown = [each for each in seen.studs if left < each < right]
    if shown and made.stud_width is not None and made.stud_depth is not None:
        text = f"stud {made.stud_width.text} × {made.stud_depth.text}, {made.species or 'species not known'}"
        labels.note(detail, (shown[0], lining + _size(made.stud_depth) / 2), text, 44, (-1, 0.6))
    if made.kind == "concrete" and _thickness(wall):
        return
    thick = _thickness(wall)
    text = "back of the studs; what is behind was not surveyed" if thick else "thickness of the wall not surveyed"
    labels.note(detail, (right - 60, thick), text, 44, (1, 0.8))
