"""The site plan: plot, buildings, driveway, meters, gas, disconnects and the batteries, to scale.

Everything shown was surveyed in [land]; the units stand where siting put them, on their walls in plan. A mark that was
not surveyed is not drawn, and units whose wall has no place in plan are told in a note.
"""

from collections.abc import Sequence
from itertools import pairwise

from standfast.design.siting.frames import Frame, frame
from standfast.design.siting.placed import PlacedUnit, Siting
from standfast.handover.drawings.face import listed, units_on
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import ARCHITECT, ENGINEER, DoesNotFit, Drawing, Note, Scale
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point
from standfast.reading.quantities import Along
from standfast.survey.house import Land, Mark
from standfast.survey.model import Job

SCALES: tuple[Scale, ...] = tuple(sorted((*ARCHITECT[-3:], *ENGINEER), key=lambda each: each.ratio))
MARGINS = (38.0, 14.0 + furniture.FOOT_MM, 38.0, 14.0)


def site_plan(job: Job, siting: Siting) -> Drawing:
    """The site plan of a job.

    Args:
        job: the job file's model.
        siting: where the units stand.

    Raises:
        DoesNotFit: where lot, buildings or north were not surveyed, a mark is off the sheet, or there is no room.
    """
    land = job.land
    outlines = [_corners(land.lot), *(_corners(building.outline) for building in land.buildings)]
    points = [point for outline in outlines for point in outline]
    lacking = [word for word in ("lot", "buildings", "north") if getattr(land, word) in (None, ())]
    if lacking:
        raise DoesNotFit(f"the site plan needs {', '.join(lacking)}: add it in [land]")
    xs, ys = [x for x, _ in points], [y for _, y in points]
    title = "Site plan"
    names = listed([each.unit.name for each in siting.places])
    said = f"Plot and buildings from above with meters, disconnects and {names}"
    drawing = Drawing.fitted(title, said, ANSI_B.drawing, (min(xs), min(ys), max(xs), max(ys)), MARGINS, SCALES)
    _plot(drawing, land)
    for judged in siting.judged:
        _batteries(drawing, job, judged.wall, units_on(siting, judged.wall))
    named: list[tuple[Point, str]] = []
    for mark in land.marks:
        x, y = drawing.at(_point(mark.at))
        if not (0 <= x <= drawing.width and 0 <= y <= drawing.height):
            raise DoesNotFit(f'the mark "{mark.id}" lies so far off the plot that it is off the sheet: correct its at')
        with drawing.part(f"mark-{mark.id}", mark.kind):
            drawing.dot(_point(mark.at), 0.9)
        named.append((_point(mark.at), _told(mark)))
    right = [item for item in named if _rightward(item[0], land)]
    left = [item for item in named if item not in right]
    edges = [drawing.at((x, 0))[0] for x in (min(xs), max(xs))]
    labels.column(drawing, left, edges[0] - 18, rightward=False)
    labels.column(drawing, right, edges[1] + 12)
    furniture.foot(drawing)
    if land.north is not None:
        furniture.north(drawing, float(land.north.number), drawing.width - 16, 18)
    return drawing


def _plot(drawing: Drawing, land: Land) -> None:
    lot = _corners(land.lot)
    if lot:
        with drawing.part("lot", "Property line"):
            drawing.area(lot, "phantom")
            outside = -8 if _area(lot) > 0 else 8
            for a, b in _sides(lot):
                dimension.between(drawing, a, b, outside)
    if land.driveway:
        drawing.zone([_corners(land.driveway)], "dotted", "driveway")
    for building in land.buildings:
        corners = _corners(building.outline)
        with drawing.part(f"building-{building.id}", building.id):
            drawing.area(corners, "heavy", "white")
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            labels.inside(drawing, (min(xs), min(ys), max(xs), max(ys)), building.id.replace("-", " ").upper())


def _batteries(drawing: Drawing, job: Job, id: str, units: Sequence[PlacedUnit]) -> None:
    """The units of a wall, named from inside the building, and how far the nearest is from the property line."""
    wall = next(each for each in job.walls if each.id == id)
    place, names = frame(wall), listed([each.unit.name for each in units])
    outlines = [] if place is None else [ring for each in units if (ring := _outline(place, each)) is not None]
    if not outlines:
        text = f"{names}: on wall {wall.id}, whose place in plan was not surveyed."
        drawing.notes.append(Note("", text))
        return
    for unit, corners in zip(units, outlines, strict=True):
        with drawing.part(unit.id, unit.unit.name):
            drawing.area(corners, "outline", "black")
    centre = _middle([corner for corners in outlines for corner in corners])
    at = min((_middle(corners) for corners in outlines), key=lambda each: _square(each, centre))
    inward = (-1.0, 0.0) if _rightward(centre, job.land) else (1.0, 0.0)
    labels.note(drawing, at, f"{names.upper()}\non wall {wall.id}", 46, inward)
    lot = _corners(job.land.lot)
    ways = [way for corners in outlines if (way := _nearest(corners, lot)) is not None]
    if ways:
        with drawing.part(f"to-property-line-{wall.id}", "Distance to the property line"):
            dimension.between(drawing, *min(ways, key=lambda way: round(_square(*way))), on_line=False)


def _outline(place: Frame, unit: PlacedUnit) -> list[Point] | None:
    """The corners of a unit in plan; None where its depth is not known."""
    x, y = unit.unit.solid.x, unit.unit.solid.y
    if x is None or y is None:
        return None
    spots = ((x.low, 0), (x.high, 0), (x.high, y.high), (x.low, y.high))
    return [_millimetres(place.plan(across, out)) for across, out in spots]


def _nearest(corners: Sequence[Point], lot: Sequence[Point]) -> tuple[Point, Point] | None:
    """The shortest way from an outline to the property line, the lowest of equal ones: from where, to where."""
    ways = [(corner, _foot(corner, a, b)) for a, b in pairwise([*lot, *lot[:1]]) for corner in corners]
    return min(ways, key=lambda way: (round(_square(*way)), way[0][1]), default=None)


def _foot(point: Point, a: Point, b: Point) -> Point:
    """The point of a straight line that is nearest to another point."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / ((dx * dx + dy * dy) or 1.0)
    share = min(1.0, max(0.0, share))
    return a[0] + dx * share, a[1] + dy * share


def _square(a: Point, b: Point) -> float:
    return (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2


def _area(ring: Sequence[Point]) -> float:
    """Twice the area of a ring, positive where it runs against the clock."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]]))


def _sides(lot: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The sides of the plot that tell its size: left and lower ones first, none that repeats a parallel one."""
    found: list[tuple[Point, Point]] = []
    seen: set[tuple[int, int]] = set()
    for a, b in sorted(pairwise([*lot, lot[0]]), key=lambda side: (side[0][0] + side[1][0], side[0][1] + side[1][1])):
        way = (round(b[0] - a[0]), round(b[1] - a[1]))
        if way not in seen:
            seen |= {way, (-way[0], -way[1])}
            found.append((a, b))
    return found


def _rightward(point: Point, land: Land) -> bool:
    """True where a point lies in the right half of its building, or of the plot: its text then stands on the right."""
    rings = [_corners(building.outline) for building in land.buildings] or [_corners(land.lot)]
    middles = [_middle(ring) for ring in rings if ring]
    nearest = min(middles, key=lambda middle: _square(point, middle), default=point)
    return point[0] >= nearest[0]


def _middle(ring: Sequence[Point]) -> Point:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _told(mark: Mark) -> str:
    text = mark.kind
    return text if mark.height is None else f"{text}, {mark.height.text} up"


def _corners(polygon: Sequence[tuple[Along, Along]]) -> list[Point]:
    return [_point(each) for each in polygon]


def _point(point: tuple[Along, Along]) -> Point:
    return float(point[0].number), float(point[1].number)


def _millimetres(point: Point) -> Point:
    return point[0] / 10, point[1] / 10
