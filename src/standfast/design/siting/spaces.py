"""The spaces that a drawing shows: working and dedicated space, free space of the maker, zones, and what stays free.

Rectangles are whole tenths, as the rules use them. Areas with round corners are polygons in mm, for drawing alone: no
verdict is taken from them, since a round corner drawn with straight lines is a little too small.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Literal, NamedTuple

from standfast.design.siting.asking import Ask
from standfast.design.siting.ground import in_force
from standfast.design.siting.keepouts import Keepout
from standfast.design.siting.layout import Layout, Thing, Unit
from standfast.design.siting.placed import JudgedWall
from standfast.design.siting.solid import TENTHS, Solid, Span, tenths
from standfast.design.siting.working_space import (
    blockers,
    dedicated,
    depth_needed,
    serviced,
    tall,
    width_needed,
)
from standfast.sheet import Clause
from standfast.shelf import Adoption

if TYPE_CHECKING:
    from shapely import Geometry

Ring = list[tuple[float, float]]
Kind = Literal["working space", "dedicated space", "free space of the maker"]


class Space(NamedTuple):
    """One space of the wall: what it is, what for, the clause that asks for it, and where it is.

    `solid` has the depth of a working space that nobody can tell as None.
    """

    kind: Kind
    thing: str
    clause: Clause
    solid: Solid


class Zone(NamedTuple):
    """Where the outline of a unit may not come, by one rule: outer rings and holes, mm, cut off at the wall."""

    rule: str
    clause: Clause
    rings: tuple[Ring, ...]


def spaces(adoption: Adoption, judged: JudgedWall) -> list[Space]:
    """The spaces on a wall and round its units."""
    asks, layout = in_force(adoption, judged.layout), judged.layout
    found = []
    if "working-width" in asks:
        for thing in serviced(layout):
            if thing.on_wall and thing.solid.x is not None and thing.solid.y is not None:
                found.append(_working(asks["working-width"], layout, thing))
    if "unit-working-width" in asks:
        found += [_working(asks["unit-working-width"], layout, unit) for unit in layout.units]
    if "dedicated-space" in asks:
        found += list(_dedicated(asks["dedicated-space"], layout))
    if "maker-clearance" in asks:
        found += [space for unit in layout.units for space in _maker(asks["maker-clearance"], unit)]
    return found


def _working(ask: Ask, layout: Layout, thing: Thing | Unit) -> Space:
    """Working space as wide as asked, moved aside from what stands before it, else over the middle of the equipment."""
    span, front = thing.solid.x or Span(0, 0), thing.solid.y or Span(0, 0)
    wide = tenths(width_needed(ask, span, layout).quantity)
    bodies = blockers(ask, layout, thing)
    lefts = [each.high for each in bodies if each.high <= span.low]
    rights = [each.low for each in bodies if each.low >= span.high]
    low = max([*lefts, *([] if layout.facts.wall_from is None else [layout.facts.wall_from])], default=span.low - wide)
    high = min([*rights, *([] if layout.facts.wall_to is None else [layout.facts.wall_to])], default=span.high + wide)
    left = min(max((span.low + span.high - wide) // 2, low), high - wide)
    volts = layout.facts.volts_to_ground if isinstance(thing, Unit) else thing.volts
    depth = depth_needed(ask, layout, volts)
    out = None if depth.missing else Span(front.high, front.high + tenths(depth.quantity))
    clause = ask.clause if isinstance(thing, Unit) else ask.book.clause("working_space")
    return Space("working space", thing.id, clause, Solid(Span(left, left + wide), out, Span(0, tall(ask, thing))))


def _dedicated(ask: Ask, layout: Layout) -> Iterator[Space]:
    for panel in layout.kind("panel"):
        if panel.on_wall:
            room = dedicated(ask, panel)
            if room.z is not None:
                top = room.z.high if layout.facts.ceiling is None else min(room.z.high, layout.facts.ceiling)
                yield Space("dedicated space", panel.id, ask.clause, Solid(room.x, panel.solid.y, Span(0, top)))


def _maker(ask: Ask, unit: Unit) -> Iterator[Space]:
    if unit.maker is None or unit.solid.x is None or unit.solid.y is None or unit.solid.z is None:
        return
    free = {side: 0 if each.missing else tenths(each.quantity) for side, each in unit.maker.clearances.items()}
    yield Space(
        "free space of the maker",
        unit.id,
        ask.clause,
        Solid(
            unit.solid.x.grown(free["left"], free["right"]),
            Span(unit.solid.y.low, unit.solid.y.high + free["front"]),
            unit.solid.z.grown(free["below"], free["above"]),
        ),
    )


def zones(adoption: Adoption, judged: JudgedWall, *rules: str) -> list[Zone]:
    """The zones of some rules on the wall, each as the union of its keep-outs, larger by the placing tolerance."""
    asks = in_force(adoption, judged.layout)
    found = []
    for rule in rules:
        shapes = [_shape(each) for each in judged.question.keepouts if each.rule == rule]
        rings = _rings(judged, shapes) if shapes else ()
        if rings:
            found.append(Zone(rule, asks[rule].clause, rings))
    return found


def free_places(judged: JudgedWall) -> tuple[Ring, ...]:
    """Where the lower left corner of the unit may be, mm on the wall; exact fits, which have no area, are missing."""
    from shapely import box, union_all

    wall, asked = judged.layout.facts, judged.question
    if wall.wall_from is None or wall.wall_to is None or wall.ceiling is None:
        return ()
    frame = box(wall.wall_from, 0, wall.wall_to - asked.width, wall.ceiling - asked.height)
    taken = [_shape(each, asked.width, asked.height) for each in asked.keepouts]
    return _told(frame.difference(union_all(taken)))


def room_for(judged: JudgedWall) -> tuple[Ring, ...]:
    """What the outline of the unit that is asked about covers, over all its free places, mm on the wall."""
    from shapely import MultiPoint, Polygon, symmetric_difference, union_all

    rings = [[(x * TENTHS, z * TENTHS) for x, z in ring] for ring in free_places(judged)]
    wide, high = judged.question.width, judged.question.height
    corners = ((0, 0), (wide, 0), (0, high), (wide, high))
    free: Geometry = Polygon()
    for ring in rings:  # a ring inside another is a hole
        free = symmetric_difference(free, Polygon(ring))
    edges = [edge for ring in rings for edge in pairwise([*ring, ring[0]])]
    swept = [MultiPoint([(x + a, z + b) for x, z in edge for a, b in corners]).convex_hull for edge in edges]
    return _told(union_all([free, *swept]))


def _shape(each: Keepout, width: int = 0, height: int = 0) -> "Geometry":
    """A keep-out as a shape in tenths; with the size of a unit, for its lower left corner."""
    from shapely import box

    plain = box(each.x.low - width, each.z.low - height, each.x.high, each.z.high)
    return plain.buffer(each.reach, quad_segs=32) if each.reach2 else plain


def _rings(judged: JudgedWall, shapes: "list[Geometry]") -> tuple[Ring, ...]:
    from shapely import box, union_all

    wall = judged.layout.facts
    if wall.wall_from is None or wall.wall_to is None or wall.ceiling is None:
        return ()
    return _told(union_all(shapes).intersection(box(wall.wall_from, 0, wall.wall_to, wall.ceiling)))


def _told(shape: "Geometry") -> tuple[Ring, ...]:
    """The rings of a shape in mm, in the order from the left and from below."""
    from shapely import Polygon, get_parts

    rings: list[Ring] = []
    for part in get_parts(shape):
        if isinstance(part, Polygon) and not part.is_empty:
            for ring in (part.exterior, *part.interiors):
                rings.append([(x / TENTHS, z / TENTHS) for x, z in ring.coords[:-1]])
    return tuple(sorted(rings, key=min))


def outline(solids: Sequence[Solid], view: Literal["elevation", "plan"]) -> tuple[Ring, ...]:
    """The outline of boxes as one area, mm: seen facing the wall, or from above with y out of the wall."""
    from shapely import box, union_all

    shapes = []
    for solid in solids:
        across, up = solid.x, solid.z if view == "elevation" else solid.y
        if across is not None and up is not None:
            shapes.append(box(across.low, up.low, across.high, up.high))
    return _told(union_all(shapes))
