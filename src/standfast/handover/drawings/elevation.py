"""The elevation of a wall to scale: units, studs, holes, openings, equipment, and the spaces that are kept free.

Seen facing the wall, from the room in which the work is done. Sizes are the surveyed ones; the places of the units are
those that siting chose. (E) is there already, (N) is added by this job.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise, permutations

from standfast.design.anchorage.whole import Anchorage
from standfast.design.siting.later import later
from standfast.design.siting.placed import JudgedWall, PlacedUnit, Siting
from standfast.design.siting.solid import Solid, Span, mm
from standfast.design.siting.spaces import Space, outline, room_for, spaces, zones
from standfast.handover.drawings.face import Face, Shown, face, listed, units_on, wall_named
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import Drawing
from standfast.paper.hatching import HatchName
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped
from standfast.paper.sheets import ANSI_B
from standfast.shelf import Adoption
from standfast.survey.house import Footing
from standfast.survey.read import Survey
from standfast.units import feet_inches, inches

BESIDE_MM, TOP_MM = 24.0, 56.0
"""Paper beside the dimensions at the left and right, and above those over the wall, for notes."""
NOTE_MM = 240.0
"""Greatest width of a line of the notes."""
BELOW_MM = 3 * dimension.ROW_MM + 4 + furniture.FOOT_MM
ZONES: dict[str, tuple[HatchName, str]] = {
    "opening-clearance": ("cross", "too near an opening"),
    "gas-relief-vent": ("grid", "too near a gas vent"),
    "end-wall-height": ("level", "a vehicle can reach"),
    "vehicle-path": ("level", "a vehicle can reach"),
    "beside-vehicle-path": ("level", "a vehicle can reach"),
    "flood-level": ("dashed", "under the flood level"),
    "door-swing": ("dashed", "swept by a door"),
}
"""Rules whose zones are hatched on the wall: their hatch and what the key says."""
WORKING: tuple[HatchName, str] = ("upright", "working space")
DEDICATED: tuple[HatchName, str] = ("counter", "dedicated space")
CONCRETE: HatchName = "dotted"
LATER: tuple[HatchName, str] = ("sparse", "room for one more unit some day (no verdict)")
Box = tuple[float, float, float, float]
"""Left, bottom, right and top on the wall, mm."""


def elevation(
    survey: Survey, adoption: Adoption, siting: Siting, wall: str, held: Sequence[Anchorage] = ()
) -> Drawing:  # fmt: skip
    """The elevation of a wall on which units hang or stand.

    Args:
        survey: the job file.
        adoption: the books in force: their spaces and zones are drawn.
        siting: where the units are.
        wall: id of the wall.
        held: how things are held: the holes of what is no unit are taken from here.

    Raises:
        DoesNotFit: where the wall is too large for the sheet, or its height was not surveyed.
    """
    seen, judged, units = face(survey, siting, wall), siting.on(wall), units_on(siting, wall)
    boxes = [box_of(each) for each in units]
    heights, rows = _distinct((low, high) for _, low, _, high in boxes), _rows(units)
    margins = (
        len(heights) * dimension.ROW_MM + BESIDE_MM, BELOW_MM, max(1, len(rows)) * dimension.ROW_MM + BESIDE_MM,
        dimension.ROW_MM + TOP_MM,
    )  # fmt: skip
    names = listed([each.unit.name for each in units])
    said = f"Wall {wall} from the front with {names}, holes, studs, equipment and the spaces kept free"
    extent = (0.0, 0.0, seen.length, seen.height)
    drawing = Drawing.fitted(f"Elevation of wall {wall}", said, ANSI_B.drawing, extent, margins)
    kept, more = spaces(adoption, judged), later(adoption, siting, wall)
    if more.spot is not None:
        drawing.zone(room_for(judged._replace(question=more.question)), *LATER, edge=False)
    _zones(drawing, adoption, judged, kept)
    _wall(drawing, seen)
    _footing(drawing, seen, wall_named(survey, wall).footing)
    _studs(drawing, seen)
    for place, box in zip(units, boxes, strict=True):
        _unit(drawing, place, box)
    for thing in seen.things:
        _thing(drawing, seen, thing)
    _other_holes(drawing, [each for each in held if each.wall == wall and each.unit not in {u.id for u in units}])
    _switches(drawing, units, boxes)
    _free(drawing, kept)
    _dimensions(drawing, seen, units, boxes)
    for row, (low, high) in enumerate(heights, 1):
        dimension.upward(drawing, [0, low, high, seen.height], 0, "left", row)
    for row, levels in enumerate(rows, 1):
        dimension.upward(drawing, [0, *levels], seen.length, "right", row)
    _notes(drawing, seen, str(more), apart(siting, units))
    furniture.foot(drawing)
    return drawing


def box_of(place: PlacedUnit) -> Box:
    """The outline of a unit on its wall, mm."""
    x, z = place.unit.solid.x or Span(0, 0), place.unit.solid.z or Span(0, 0)
    return mm(x.low), mm(z.low), mm(x.high), mm(z.high)


def _distinct(levels: Iterable[tuple[float, ...]]) -> list[tuple[float, ...]]:
    return sorted({tuple(sorted(set(each))) for each in levels})


def _rows(units: Sequence[PlacedUnit]) -> list[tuple[float, ...]]:
    """Heights of the holes of each unit, equal ones once."""
    return [each for each in _distinct(tuple(up for _, up in unit.holes) for unit in units) if each]


def _zones(drawing: Drawing, adoption: Adoption, judged: JudgedWall, kept: Sequence[Space]) -> None:
    """Hatched areas: zones of rules, dedicated spaces, and working spaces as one area."""
    working = [space for space in kept if space.kind == "working space"]
    if working:
        drawing.zone(outline([space.solid for space in working], "elevation"), WORKING[0], told(working))
    for zone in zones(adoption, judged, *ZONES):
        hatch, meaning = ZONES[zone.rule]
        drawing.zone(zone.rings, hatch, f"{meaning} ({zone.clause})")
    for space in kept:
        if space.kind == "dedicated space":
            drawing.zone([_ring(space.solid)], DEDICATED[0], f"{DEDICATED[1]} ({space.clause})")


def told(working: Sequence[Space]) -> str:
    """What the key says of working spaces: what they are, and by which clauses."""
    first, *more = dict.fromkeys(space.clause for space in working)
    return f"{WORKING[1]} ({', '.join([str(first), *(each.clause for each in more)])})"


def _ring(solid: Solid) -> list[tuple[float, float]]:
    x, z = solid.x or Span(0, 0), solid.z or Span(0, 0)
    return [(mm(x.low), mm(z.low)), (mm(x.high), mm(z.low)), (mm(x.high), mm(z.high)), (mm(x.low), mm(z.high))]


def _wall(drawing: Drawing, wall: Face) -> None:
    with drawing.part("wall", "Floor, ceiling and ends of the wall"):
        drawing.rect(0, 0, wall.length, wall.height, "outline")
        drawing.line((-300, 0), (wall.length + 300, 0), pen="heavy")
    drawing.text((wall.length, 0), wall.floor, anchor="end", shift=(-1, -4))
    drawing.text((wall.length, wall.height), wall.ceiling, anchor="end", shift=(-1, 1.5))


def _footing(drawing: Drawing, wall: Face, footing: Footing | None) -> None:
    """A pad before the wall; a slab that runs along it is told in the notes."""
    if footing is None or footing.left is None or footing.width is None or footing.height is None:
        return
    left, right = float(footing.left.number), float(footing.left.number + footing.width.number)
    top = float(footing.height.number)
    if top <= 0:
        return
    with drawing.part("footing", wall.footing):
        told = f"{footing.kind}, its top {inches(top)} up"
        drawing.zone([[(left, 0), (right, 0), (right, top), (left, top)]], CONCRETE, told)
        drawing.rect(left, 0, right - left, top, "outline")


def _studs(drawing: Drawing, wall: Face) -> None:
    with drawing.part("studs", "Middles of the studs behind the lining"):
        for stud in wall.studs:
            drawing.line((stud, 0), (stud, wall.height), pen="centre")
    if wall.studs:
        middle = wall.studs[-1]
        labels.note(drawing, (middle, wall.height * 0.93), "middle of stud, by survey; find each on site", 40, (1, 0))


def _thing(drawing: Drawing, wall: Face, thing: Shown) -> None:
    """One thing on the wall with its name; what is new tells the height of its lower edge."""
    if thing.solid.x is None or thing.solid.z is None:
        return
    (low, high), (under, over) = thing.solid.x, thing.solid.z
    left, bottom, right, top = mm(low), mm(under), mm(high), mm(over)
    text = wall.names[thing.id]
    with drawing.part(f"thing-{thing.id}", text):
        if right > left and top > bottom:
            drawing.rect(left, bottom, right - left, top - bottom, "hidden" if thing.opening else "medium", "white")
            drawing.keep_clear(left, bottom, right, top, own=True)
        else:
            drawing.cross(((left + right) / 2, (bottom + top) / 2), 2, "medium")
    labels.inside(drawing, (left, bottom, right, top), f"{text}\n{inches(bottom)} up" if thing.new else text, 36)


def _unit(drawing: Drawing, place: PlacedUnit, box: Box) -> None:
    """A unit with its hole centres; no text of another thing may stand on it."""
    left, bottom, right, top = box
    name = place.unit.name.upper()
    with drawing.part(place.id, place.unit.name):
        drawing.rect(left, bottom, right - left, top - bottom, "outline", "white")
        for hole in place.holes:
            drawing.cross(hole, 1.2, "medium")
    middle = ((left + right) / 2, bottom + (top - bottom) * 0.55)
    if width_mm(name, LEAST_MM) + 2 <= (right - left) / drawing.scale.ratio:
        drawing.text(middle, name, anchor="middle", bold=True)
        drawing.text(middle, "(N)", anchor="middle", shift=(0, -4.2))
    else:
        labels.note(drawing, (left, middle[1]), f"{name} (N)", 40, (-1, 0.3), arrow=False)
    drawing.keep_clear(left, bottom, right, top)


def _other_holes(drawing: Drawing, held: Sequence[Anchorage]) -> None:
    """Hole centres of what hangs here and is no battery unit: an inverter of its own."""
    for each in held:
        with drawing.part(f"holes-{each.unit}", f"Holes of {each.unit}"):
            for hole in each.holes:
                if not hole.x.missing and not hole.y.missing:
                    drawing.cross((hole.x.quantity, hole.y.quantity), 1.2, "medium")


def _switches(drawing: Drawing, units: Sequence[PlacedUnit], boxes: Sequence[Box]) -> None:
    """How high the switch of a unit is; said once where it is the same for several."""
    told = set[float]()
    for place, (_, bottom, right, _) in zip(units, boxes, strict=True):
        maker = place.unit.maker
        if maker is not None and not maker.switch_height.missing:
            up = bottom + maker.switch_height.quantity
            if up not in told:
                text = f"middle of the switch {feet_inches(up)} up"
                labels.note(drawing, (right, up), text, 30, (1, 0.3))
            told.add(up)


def _free(drawing: Drawing, kept: Sequence[Space]) -> None:
    """The free space that the maker asks for, as a broken line; said once."""
    rings = [_ring(space.solid) for space in kept if space.kind == "free space of the maker"]
    with drawing.part("free-space", "Free space that the maker asks for"):
        for ring in rings:
            drawing.area(ring, "phantom")
    if rings:
        last = max(rings, key=lambda ring: ring[2])
        labels.note(drawing, last[2], "free space that the maker asks for", 34, (0.7, 0.7))


def _dimensions(drawing: Drawing, wall: Face, units: Sequence[PlacedUnit], boxes: Sequence[Box]) -> None:
    """Below: holes, units with the gaps between them, wall. Above: left edges of things."""
    columns = sorted({x for unit in units for x, _ in unit.holes})
    if columns:
        dimension.across(drawing, [0, *columns, wall.length], 0, "below", 1)
    edges = sorted({x for left, _, right, _ in boxes for x in (left, right)})
    dimension.across(drawing, [0, *edges, wall.length], 0, "below", 2)
    dimension.across(drawing, [0, wall.length], 0, "below", 3)
    starts = sorted({mm(each.solid.x.low) for each in wall.things if each.solid.x is not None} - {0.0})
    dimension.across(drawing, [0, *starts], wall.height, "above", 1)


def apart(siting: Siting, units: Sequence[PlacedUnit]) -> list[str]:
    """The clear width between units that stand beside each other, and what is asked by which clause."""
    row = sorted(units, key=lambda each: box_of(each)[0])
    found: list[str] = []
    for left, right in pairwise(row):
        clear = box_of(right)[0] - box_of(left)[2]
        names = {f"siting.unit-spacing/{a}/{b}" for a, b in permutations((left.id, right.id))}
        check = next((each for each in siting.checks if each.id in names), None)
        told = f"{left.unit.name} on the left, {right.unit.name} on the right of it: {feet_inches(clear)} apart"
        if check is not None and check.limit is not None and not check.limit.missing:
            told += f"; asked at least {feet_inches(check.limit.quantity)} ({check.clause})"
        found.append(f"{told}.")
    return found


def _notes(drawing: Drawing, wall: Face, more: str, between: Sequence[str]) -> None:
    """What the wall is made of, detection, room for later, and how the drawing is read, above it."""
    lines = [
        f"Seen from: {wall.room}. Behind: {wall.behind}.",
        *wall.build_up,
        wall.footing,
        wall.detection,
        wall.vehicles,
        *between,
        *wrapped(f"Later: {more}", NOTE_MM, LEAST_MM),
        "(E) existing, (N) new. Crosses: hole centres; their coordinates are in the hole table of the work order.",
        "Dimensions in inches (mm). Scan before drilling; find both edges of each stud.",
    ]
    at = (0.0, wall.height)
    for index, line in enumerate(each for each in lines if each):
        drawing.text(at, line, shift=(0, dimension.ROW_MM + TOP_MM - 8 - index * 4.4))
