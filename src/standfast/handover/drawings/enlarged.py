"""The units of a wall from above at a larger scale: board, studs, where the columns of holes are, anchors of a foot.

Units that stand close together share one picture; the pictures stand side by side at the largest scale at which all of
them have room.
"""

from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import NamedTuple

from standfast.design.siting.placed import PlacedUnit
from standfast.handover.drawings.face import Face, listed
from standfast.handover.drawings.from_above import box, known, thickness, wall_cut
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import ARCHITECT, DoesNotFit, Drawing, Scale
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.survey.house import Wall

SCALES: tuple[Scale, ...] = ARCHITECT[1:5]
BESIDE_MM = 250.0
"""How much of the wall is shown beside a unit."""
Feet = Mapping[str, Sequence[tuple[float, float]]]
"""Unit → holes in the floor under it."""
APART_MM, WIDE_MM = 44.0, 28.0
"""Paper between two pictures for dimensions and names; and left and right of all."""
ABOVE_MM, TITLE_MM, BELOW_MM = 40.0, 24.0, 20.0
"""Paper above the face of the wall, and of it kept for title and dimensions; paper kept below the units for theirs."""


class _Window(NamedTuple):
    """A piece of the wall, mm, with its units."""

    left: float
    right: float
    units: tuple[PlacedUnit, ...]


def enlarged(
    drawing: Drawing, units: Sequence[PlacedUnit], feet: Feet, seen: Face, wall: Wall, high_mm: float
) -> None:  # fmt: skip
    """Draw the units larger, in a strip above the foot of the sheet.

    Args:
        drawing: the plan.
        units: the units of the wall.
        feet: holes in the floor under each unit that has any: along the wall, and out from it, mm.
        seen: the wall for drawings.
        wall: the wall as surveyed.
        high_mm: height of the strip on paper.
    """
    windows = _windows(units, seen)
    if not windows:
        return
    widest = max(deep[3] for each in units if (deep := box(each.unit.solid)) is not None)
    scale = _scale(drawing, windows, (thickness(wall), widest), high_mm)
    widths = [(each.right - each.left) / scale.ratio for each in windows]
    start = (drawing.width - sum(widths) - APART_MM * (len(windows) - 1)) / 2
    starts = accumulate((width + APART_MM for width in widths[:-1]), initial=start)
    level = drawing.height - furniture.FOOT_MM - high_mm + ABOVE_MM
    for number, (window, at) in enumerate(zip(windows, starts, strict=True)):
        picture = drawing.detail(scale, (at - window.left / scale.ratio, level))
        _picture(picture, window, feet, seen, wall)
        if not number:
            _layers(picture, wall, seen, window)


def _windows(units: Sequence[PlacedUnit], seen: Face) -> list[_Window]:
    """The pieces of the wall round the units from the left; those that overlap are one."""
    found: list[_Window] = []
    for unit in sorted(units, key=lambda each: each.unit.solid.x or (0, 0)):
        sides = box(unit.unit.solid)
        if sides is None:
            continue
        left, right = max(0.0, sides[0] - BESIDE_MM), min(seen.length, sides[0] + sides[2] + BESIDE_MM)
        if found and left <= found[-1].right:
            last = found.pop()
            found.append(_Window(last.left, max(last.right, right), (*last.units, unit)))
        else:
            found.append(_Window(left, right, (unit,)))
    return found


def _scale(drawing: Drawing, windows: Sequence[_Window], deep: tuple[float, float], high_mm: float) -> Scale:
    """The largest scale at which the pictures fit: side by side, the wall above its face, the units below it."""
    room = drawing.width - 2 * WIDE_MM - APART_MM * (len(windows) - 1)
    wide = sum(each.right - each.left for each in windows)
    for scale in SCALES:
        behind, before = (each / scale.ratio for each in deep)
        high = behind + TITLE_MM <= ABOVE_MM and before + BELOW_MM <= high_mm - ABOVE_MM
        if high and wide / scale.ratio <= room:
            return scale
    raise DoesNotFit(f"{drawing.title}: {wide:.0f} mm of wall do not fit on {room:.0f} mm of paper as a detail")


def _picture(picture: Drawing, window: _Window, feet: Feet, seen: Face, wall: Wall) -> None:
    """One piece of the wall with its units, their columns of holes and the anchors of their feet."""
    thick, names = thickness(wall), listed([each.unit.name for each in window.units])
    boxes = [sides for each in window.units if (sides := box(each.unit.solid)) is not None]
    front, columns = min(sides[1] for sides in boxes), sorted({x for each in window.units for x, _ in each.holes})
    anchors = [hole for each in window.units for hole in feet.get(each.id, ())]
    with picture.part("detail", f"{names} from above, larger"):
        wall_cut(picture, wall, seen, window.left, window.right)
        for end in (window.left, window.right):
            picture.line((end, front - 40), (end, thick + 40), pen="phantom")
        for sides in boxes:
            picture.rect(*sides, "outline", "white")
        for column in columns:
            picture.line((column, 40 + front), (column, thick + 30), pen="centre")
    for unit, sides in zip(window.units, boxes, strict=True):
        _name(picture, unit.unit.name.upper(), sides)
    picture.text((window.left, thick), f"Detail: {names} from above. Scale {picture.scale}", bold=True, shift=(0, 17))
    _anchors(picture, window, anchors)
    ends = sorted({*columns, *(x for x, _ in anchors), *(x for left, _, wide, _ in boxes for x in (left, left + wide))})
    dimension.across(picture, ends, front, "below", 1)
    dimension.upward(picture, [front, 0.0, thick] if thick else [front, 0.0], window.right, "right", 1)


def _anchors(picture: Drawing, window: _Window, anchors: Sequence[tuple[float, float]]) -> None:
    """The anchors of the feet, with their distances from the wall."""
    if not anchors:
        return
    with picture.part("feet", "Anchors of the feet in the floor"):
        for x, out in anchors:
            picture.cross((x, -out), 1.6, "medium")
    dimension.upward(picture, [*sorted({-out for _, out in anchors}), 0.0], window.left, "left", 1)
    first = min(anchors)
    labels.note(picture, (first[0], -first[1]), "anchor of the foot, in the floor", 40, (-1, -0.8))


def _name(picture: Drawing, name: str, sides: tuple[float, float, float, float]) -> None:
    middle = (sides[0] + sides[2] / 2, sides[1] + sides[3] / 2)
    if width_mm(name, LEAST_MM) + 2 <= sides[2] / picture.scale.ratio:
        picture.text(middle, name, anchor="middle", bold=True, shift=(0, -1.2))
    else:
        labels.note(picture, middle, name, 40, (0, -1), arrow=False)


def _layers(picture: Drawing, wall: Wall, seen: Face, window: _Window) -> None:
    """Names of board and studs, and what of the wall was not surveyed."""
    made, at = wall.build_up, window.left + 60
    lining = known(made.lining_thickness) if made.lining != "none" else 0.0
    if lining and made.lining_thickness is not None:
        text = f"{made.lining}, {made.lining_thickness.text}"
        labels.note(picture, (at, lining / 2), text, 40, (-1, -0.6))
    shown = [each for each in seen.studs if window.left < each < window.right]
    if shown and made.stud_width is not None and made.stud_depth is not None:
        text = f"stud {made.stud_width.text} × {made.stud_depth.text}, {made.species or 'species not known'}"
        labels.note(picture, (shown[0], lining + known(made.stud_depth) / 2), text, 44, (-1, 0.6))
    if made.kind == "concrete" and thickness(wall):
        return
    thick = thickness(wall)
    text = "back of the studs; what is behind was not surveyed" if thick else "thickness of the wall not surveyed"
    labels.note(picture, (window.right - 60, thick), text, 44, (1, 0.8))
