"""The elevation of the wall to scale: unit, studs, holes, openings, equipment, and the spaces that are kept free.

Seen facing the wall, from the room in which the work is done. Sizes are the surveyed ones; the place of the unit is the
one that siting chose. (E) is there already, (N) is added by this job.
"""

from collections.abc import Sequence

from standfast.design.siting.placed import Siting
from standfast.design.siting.solid import Solid, Span, mm
from standfast.design.siting.spaces import Space, outline, spaces, zones
from standfast.handover.drawings.face import Face, Shown, face
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import Drawing
from standfast.paper.hatching import HatchName
from standfast.paper.sheets import ANSI_B
from standfast.shelf import Adoption
from standfast.survey.read import Survey
from standfast.units import feet_inches, inches

MARGINS = (36.0, 3 * dimension.ROW_MM + 4 + furniture.FOOT_MM, 34.0, dimension.ROW_MM + 48)
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


def elevation(survey: Survey, adoption: Adoption, siting: Siting, name: str) -> Drawing:
    """The elevation of the wall on which the unit hangs.

    Args:
        survey: the job file.
        adoption: the books in force: their spaces and zones are drawn.
        siting: where the unit hangs.
        name: what the unit is called everywhere.

    Raises:
        DoesNotFit: where the wall is too large for the sheet, or its height was not surveyed.
    """
    wall = face(survey, siting)
    extent = (0.0, 0.0, wall.length, wall.height)
    title = f"Elevation of wall {siting.places[0].wall}"
    said = (
        f"Wall {siting.places[0].wall} from the front with {name}, its holes, studs, equipment and the spaces kept free"
    )
    drawing = Drawing.fitted(title, said, ANSI_B.drawing, extent, MARGINS)
    kept = spaces(adoption, siting.judged[0])
    _zones(drawing, adoption, siting, kept)
    _wall(drawing, wall)
    _studs(drawing, wall)
    _unit(drawing, siting, name)
    for thing in wall.things:
        _thing(drawing, wall, thing)
    _free(drawing, kept)
    _dimensions(drawing, wall, siting)
    _notes(drawing, wall)
    furniture.foot(drawing)
    return drawing


def _zones(drawing: Drawing, adoption: Adoption, siting: Siting, kept: Sequence[Space]) -> None:
    """Hatched areas: zones of rules, dedicated spaces, and working spaces as one area."""
    working = [space for space in kept if space.kind == "working space"]
    if working:
        drawing.zone(outline([space.solid for space in working], "elevation"), WORKING[0], told(working))
    for zone in zones(adoption, siting.judged[0], *ZONES):
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
        else:
            drawing.cross(((left + right) / 2, (bottom + top) / 2), 2, "medium")
    labels.inside(drawing, (left, bottom, right, top), f"{text}\n{inches(bottom)} up" if thing.new else text, 36)


def _unit(drawing: Drawing, siting: Siting, name: str) -> None:
    """The unit, its hole centres and its switch; no text of another thing may stand on it."""
    unit = siting.places[0].unit
    left, bottom = siting.places[0].left.quantity, siting.places[0].bottom.quantity
    right, top = left + unit.width / 10, bottom + siting.judged[0].question.height / 10
    with drawing.part("unit", name):
        drawing.rect(left, bottom, right - left, top - bottom, "outline", "white")
        for across, up in siting.places[0].holes:
            drawing.cross((across, up), 1.2, "medium")
    middle = ((left + right) / 2, bottom + (top - bottom) * 0.55)
    drawing.text(middle, name.upper(), anchor="middle", bold=True)
    drawing.text(middle, "(N)", anchor="middle", shift=(0, -4.2))
    drawing.keep_clear(left, bottom, right, top)
    if unit.maker is not None and not unit.maker.switch_height.missing:
        switch = bottom + unit.maker.switch_height.quantity
        text = f"middle of the switch {feet_inches(switch)} up"
        labels.note(drawing, (right, switch), text, 30, (1, 0.3))


def _free(drawing: Drawing, kept: Sequence[Space]) -> None:
    """The free space that the maker asks for, as a broken line."""
    with drawing.part("free-space", "Free space that the maker asks for"):
        for space in kept:
            if space.kind == "free space of the maker":
                ring = _ring(space.solid)
                drawing.area(ring, "phantom")
                labels.note(drawing, ring[2], "free space that the maker asks for", 34, (0.7, 0.7))


def _dimensions(drawing: Drawing, wall: Face, siting: Siting) -> None:
    """Below: holes, unit, wall. Above: left edges of things. Left: heights of the unit. Right: heights of the holes."""
    left, bottom = siting.places[0].left.quantity, siting.places[0].bottom.quantity
    right, top = left + siting.places[0].unit.width / 10, bottom + siting.judged[0].question.height / 10
    columns, rows = sorted({x for x, _ in siting.places[0].holes}), sorted({z for _, z in siting.places[0].holes})
    if columns:
        dimension.across(drawing, [0, *columns, wall.length], 0, "below", 1)
    dimension.across(drawing, [0, left, right, wall.length], 0, "below", 2)
    dimension.across(drawing, [0, wall.length], 0, "below", 3)
    edges = sorted({mm(each.solid.x.low) for each in wall.things if each.solid.x is not None} - {0.0})
    dimension.across(drawing, [0, *edges], wall.height, "above", 1)
    dimension.upward(drawing, [0, bottom, top, wall.height], 0, "left", 1)
    if rows:
        dimension.upward(drawing, [0, *rows], wall.length, "right", 1)


def _notes(drawing: Drawing, wall: Face) -> None:
    """What the wall is made of, detection, working space, and how the drawing is read, above it."""
    lines = [
        f"Seen from: {wall.room}. Behind: {wall.behind}.",
        *wall.build_up,
        wall.detection,
        wall.vehicles,
        "(E) existing, (N) new. Crosses: hole centres; their coordinates are in the hole table of the work order.",
        "Dimensions in inches (mm). Scan before drilling; find both edges of each stud.",
    ]
    at = (0.0, wall.height)
    for index, line in enumerate(each for each in lines if each):
        drawing.text(at, line, shift=(0, dimension.ROW_MM + 38 - index * 4.4))
