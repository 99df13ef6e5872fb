"""The marks of a drawing as DXF, for people who draw on: the same marks as the SVG, at the same places.

Paper mm as in the SVG, with y upward from the lower edge of the sheet; lengths of the building are read from the
dimension texts and the scale, which travels in the file. Each line weight is a layer, and hatches, masks and lettering
have layers of their own. Needs the extra ``dxf``.
"""

from collections.abc import Iterable, Sequence
from io import StringIO
from math import cos, radians, sin
from typing import TYPE_CHECKING, NamedTuple

from standfast.paper.extras import NotInstalled
from standfast.paper.hatching import HATCHES, Family, HatchName
from standfast.paper.lettering import CUTS, LEAST_MM, spelled, width_mm
from standfast.paper.svg import PENS, Arc, Circle, Fill, Group, Lettering, Mark, Path, PenName, Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing as File
    from ezdxf.entities import Hatch
    from ezdxf.layouts.layout import Modelspace

VERSION = "R2010"
NOTE_MM = 6.0
"""Distance of the notes below each other."""
HATCH_LAYER, MASK_LAYER, FILL_LAYER, TEXT_LAYER = "HATCH", "MASK", "FILL", "LETTERING"
_GREY, _BYLAYER, _MM = (0xDD, 0xDD, 0xDD), 256, 4


class Zone(NamedTuple):
    """A hatched area in paper mm; `edge` is the pen of its outline, ``none`` where it has none."""

    rings: tuple[tuple[Point, ...], ...]
    name: HatchName
    edge: PenName


def layer_of(pen: PenName) -> str:
    """The layer of a line weight: ``HEAVY-070``."""
    return f"{pen.upper()}-{round(PENS[pen].width * 100):03d}"


def write(
    zones: Iterable[Zone],
    groups: Iterable[Group],
    size: tuple[float, float],
    title: str,
    facts: Sequence[tuple[str, str]],
    notes: Sequence[tuple[str, str]] = (),
) -> str:
    """The drawing as a DXF file; the same marks give the same text.

    Args:
        zones: hatched areas, behind everything.
        groups: the marks in painting order.
        size: width and height of the paper, mm.
        title: short name of the drawing.
        facts: names and texts that travel in the file: what it shows, its scale.
        notes: marks and texts of the list of notes, which stands below the paper: on a sheet it stands beside it.

    Raises:
        NotInstalled: where the library of the extra is not there.
    """
    file = _blank(size, [("Title", title), *facts])
    pencil = _Pencil(file.modelspace(), size[1])
    for zone in zones:
        pencil.zone(zone)
    for group in groups:
        for mark in group.marks:
            pencil.mark(mark)
    for row, (number, note) in enumerate(notes, 1):
        pencil.mark(Lettering((0, size[1] + NOTE_MM * row), f"{number}  {note}", LEAST_MM))
    # The library enters the kinds in use in an order of chance: they are entered here before.
    for kind in sorted(file.entitydb.dxf_types_in_use()):
        file.classes.add_class(kind)
    text = StringIO()
    file.write(text)
    return text.getvalue()


def _blank(size: tuple[float, float], facts: Sequence[tuple[str, str]]) -> "File":
    """An empty file with its layers, dashes and lettering."""
    try:
        from ezdxf._options import options
        from ezdxf.filemanagement import new
    except ImportError:
        raise NotInstalled("DXF", "ezdxf", "dxf") from None
    # The library writes the time and a chance number into every file, unless it is told that a file is compared.
    options.write_fixed_meta_data_for_testing = True
    file = new(VERSION, units=_MM)
    file.header["$LWDISPLAY"] = 1
    file.header["$LTSCALE"] = 1
    file.header["$LIMMAX"] = size
    file.header["$EXTMIN"], file.header["$EXTMAX"] = (0, 0, 0), (*size, 0)
    for name, text in facts:
        file.header.custom_vars.append(name, text)
    for pen, (width, dashes) in PENS.items():
        if pen == "none":
            continue
        if dashes:
            signs = [each if place % 2 == 0 else -each for place, each in enumerate(dashes)]
            file.linetypes.add(pen.upper(), [sum(dashes), *signs], description=f"{pen} line")
        dashed = pen.upper() if dashes else "Continuous"
        file.layers.add(layer_of(pen), lineweight=round(width * 100), linetype=dashed)
    for name, width in ((HATCH_LAYER, PENS["fine"].width), (MASK_LAYER, 0), (FILL_LAYER, 0), (TEXT_LAYER, 0)):
        file.layers.add(name, lineweight=round(width * 100))
    for cut in ("regular", "bold"):
        file.styles.add(cut.upper(), font=CUTS[cut])
    file.set_wipeout_variables(frame=0)  # type: ignore[no-untyped-call]
    file.set_modelspace_vport(size[1] * 1.05, (size[0] / 2, size[1] / 2))
    return file


class _Pencil:
    """Puts marks into the model space of a file, turning y upward."""

    def __init__(self, space: "Modelspace", height: float) -> None:
        self.space, self.height = space, height

    def at(self, point: Point) -> Point:
        return round(point[0], 6), round(self.height - point[1], 6)

    def mark(self, mark: Mark) -> None:
        if isinstance(mark, Path):
            self._path(mark)
        elif isinstance(mark, Circle):
            self._circle(mark)
        elif isinstance(mark, Arc):
            where = {"layer": layer_of(mark.pen)}
            self.space.add_arc(self.at(mark.centre), mark.radius, mark.start, mark.end, dxfattribs=where)
        else:
            self._lettering(mark)

    def zone(self, zone: Zone) -> None:
        hatch = self.space.add_hatch(_BYLAYER, dxfattribs={"layer": HATCH_LAYER})
        hatch.set_pattern_fill(f"SF-{zone.name.upper()}", _BYLAYER, definition=pattern(zone.name, self.height))
        self._edges(hatch, zone.rings)
        if zone.edge != "none":
            for ring in zone.rings:
                self._path(Path(ring, zone.edge, True))

    def _path(self, mark: Path) -> None:
        points = [self.at(point) for point in mark.points]
        self._fill(mark.points, mark.fill)
        if mark.pen == "none":
            return
        self.space.add_lwpolyline(points, close=mark.closed, dxfattribs={"layer": layer_of(mark.pen)})

    def _circle(self, mark: Circle) -> None:
        if mark.fill == "white":
            self._fill(_around(mark), "white")
        elif mark.fill != "none":
            hatch = self._solid(mark.fill)
            hatch.paths.add_edge_path().add_arc(self.at(mark.centre), mark.radius, 0, 360)
        if mark.pen != "none":
            self.space.add_circle(self.at(mark.centre), mark.radius, dxfattribs={"layer": layer_of(mark.pen)})

    def _fill(self, points: Sequence[Point], fill: Fill) -> None:
        """White hides what is behind it, on any ground; black and grey are filled. What has no width hides nothing."""
        if min(len({round(place, 6) for place in side}) for side in zip(*points, strict=True)) < 2:
            return
        if fill == "white":
            placed = [self.at(point) for point in points]
            if all(len(set(side)) > 1 for side in zip(*placed, strict=True)):  # a line hides nothing
                self.space.add_wipeout(placed, dxfattribs={"layer": MASK_LAYER})
        elif fill != "none":
            self._edges(self._solid(fill), [points])

    def _solid(self, fill: Fill) -> "Hatch":
        hatch = self.space.add_hatch(_BYLAYER, dxfattribs={"layer": FILL_LAYER})
        if fill == "grey":
            hatch.rgb = _GREY
        return hatch

    def _edges(self, hatch: "Hatch", rings: Iterable[Sequence[Point]]) -> None:
        for ring in rings:
            hatch.paths.add_polyline_path([self.at(point) for point in ring], is_closed=True)

    def _lettering(self, mark: Lettering) -> None:
        """Text between the two ends of its base line: another font is made as wide, so that nothing can overlap."""
        from ezdxf.enums import TextEntityAlignment

        text = _spelt(spelled(mark.text))
        wide = width_mm(mark.text, mark.height, mark.bold)
        x, y = self.at(mark.at)
        before = {"start": 0.0, "middle": wide / 2, "end": wide}[mark.anchor]
        along = (0.0, 1.0) if mark.turn else (1.0, 0.0)
        first, last = ((x + along[0] * way, y + along[1] * way) for way in (-before, wide - before))
        where = {"layer": TEXT_LAYER, "style": "BOLD" if mark.bold else "REGULAR", "rotation": mark.turn}
        written = self.space.add_text(text, height=mark.height, dxfattribs=where)
        written.set_placement(first, last, TextEntityAlignment.FIT)


def _spelt(text: str) -> str:
    """The text with the signs that DXF reads as orders spelt so that they are shown."""
    return text.replace("^", "^ ").replace("%%", "%%%%%%")


def pattern(name: HatchName, height: float) -> list[tuple[float, Point, Point, list[float]]]:
    """A hatch as the pattern of DXF: angle, base point, offset to the next line and dashes of each family of lines.

    The lines fall where the SVG draws them: both count from the upper left corner of the paper.

    Args:
        name: entry of HATCHES.
        height: of the paper, mm.
    """
    return [_family(family, height) for family in HATCHES[name]]


def _family(family: Family, height: float) -> tuple[float, Point, Point, list[float]]:
    c, s = cos(radians(family.angle)), sin(radians(family.angle))
    half = (family.stroke + family.gap) / 2
    offset = (s * family.spacing + c * half, s * half - c * family.spacing)
    return family.angle, (0.0, height), offset, [family.stroke, -family.gap] if family.stroke else []


def _around(circle: Circle) -> list[Point]:
    """A circle as corners, for a mask."""
    x, y = circle.centre
    turns = [radians(15 * step) for step in range(24)]
    return [(x + circle.radius * cos(turn), y + circle.radius * sin(turn)) for turn in turns]
