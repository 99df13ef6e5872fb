"""The fixing detail: one fastener cut through wall and bracket, to scale; and the table of holes beside it.

Every size is of the survey or of a data sheet. A size that is not stated is not drawn: the drawing is refused, and the
counter list says what to add.
"""

from typing import NamedTuple

from standfast.design.anchorage.whole import Anchorage
from standfast.handover.calculations import compared
from standfast.paper import dimension, furniture, labels
from standfast.paper.document import Block, Facts, Heading, Table, Text, Words, bold, verdict
from standfast.paper.drawing import DoesNotFit, Drawing, Scale
from standfast.paper.hatching import HatchName
from standfast.paper.sheets import ANSI_B
from standfast.sheet import Value
from standfast.survey.house import Wall
from standfast.units import Quantity, feet_inches

SCALES = (Scale(1, "full size"), Scale(2, "6 in = 1 ft"), Scale(4, "3 in = 1 ft"), Scale(8, "1-1/2 in = 1 ft"))
PAPER = ((ANSI_B.drawing[0] - 8) / 2, ANSI_B.drawing[1] - 14)
MARGINS = (16.0, 42.0 + furniture.FOOT_MM, 30.0, 40.0)
_UP = 50.0
"""Half the height of the wall that is shown, mm."""


class Piece(NamedTuple):
    """A layer that is cut: its name, hatch, thickness in mm and size as written."""

    name: str
    hatch: HatchName
    thick: float


class Screw(NamedTuple):
    """What holds: its name, length under the head, diameter, head and hole, mm; how deep it holds in the base."""

    name: str
    length: float
    diameter: float
    head: float
    hole: str


def fixing_detail(anchorage: Anchorage, wall: Wall) -> Drawing:
    """One fastener in the wall, cut.

    Args:
        anchorage: how the unit is held.
        wall: the wall.

    Raises:
        DoesNotFit: where a size that the drawing needs is not stated, or no fastener holds.
    """
    screw, base, plate = _screw(anchorage), _base(anchorage, wall), _known(anchorage.plate, "thickness of the bracket")
    lining = _known(anchorage.lining, "thickness of the lining")
    shown = max(base.thick, screw.length - lining - plate + 10)
    extent = (-shown, -_UP, lining + plate + screw.diameter * 2, _UP)
    words = f"{screw.name} through bracket and board into the {base.name}, cut"
    drawing = Drawing.fitted("Fixing detail", words, PAPER, extent, MARGINS, SCALES)
    layers = [(-base.thick, base), (lining, Piece("steel bracket", "cross", plate))]
    if lining:
        layers.insert(1, (0.0, Piece("board: carries nothing", "dotted", lining)))
    for left, piece in layers:
        _layer(drawing, left, piece)
    _fastener(drawing, screw, lining + plate)
    edges = sorted({-base.thick, lining + plate - screw.length, 0.0, lining, lining + plate})
    dimension.across(drawing, edges, -_UP, "below", 1)
    dimension.across(drawing, [lining + plate - screw.length, lining + plate], -_UP, "below", 2)
    labels.note(drawing, (-(screw.length - lining - plate) / 2, 0), f"{screw.name}\n{screw.hole}", 60, (0, 1))
    furniture.foot(drawing, 88)
    return drawing


def beside(anchorage: Anchorage, wall: Wall) -> list[Block]:
    """The table of holes, and what the fixing is."""
    fixing = anchorage.fixing
    name = "none found" if fixing is None else f"{fixing.content.maker} {fixing.content.name}"
    rows: list[list[Text]] = [
        [bold(f"H{number}"), _both(hole.x), _both(hole.y), "" if hole.off is None else _both(hole.off)]
        for number, hole in enumerate(anchorage.holes, 1)
    ]
    head = ["Hole", "From the left end", "Up from the floor", "Off the middle of the stud"]
    facts: list[tuple[str, Text]] = [
        ("Fastener", f"{len(anchorage.holes)} × {name}"),
        ("Wall", f"{wall.id}: {wall.build_up.kind or 'not known'}"),
        ("Holds in", anchorage.base or "nothing that may carry the unit"),
    ]
    return [
        Heading("Fixing"),
        Facts(facts, 26, 10),
        Heading("Holes"),
        Table(head, rows, [0, 3, 3, 3], size=9),
        Words("Measured on the face of the wall, seen facing it. Scan at each mark before drilling."),
        *_judged(anchorage),
    ]


def _judged(anchorage: Anchorage) -> list[Block]:
    """The checks of the anchorage with their verdicts; their working is on the calculation sheets."""
    rows: list[list[Text]] = [
        [verdict(check.verdict), check.title, compared(check), str(check.clause)]
        for check in anchorage.checks
        if check.verdict != "not applicable"
    ]
    return [Heading("Checks"), Table(["", "Check", "Demand and limit", "Clause"], rows, [0, 4, 5, 3], size=8)]


def _layer(drawing: Drawing, left: float, piece: Piece) -> None:
    ring = [(left, -_UP), (left + piece.thick, -_UP), (left + piece.thick, _UP), (left, _UP)]
    drawing.zone([ring], piece.hatch, piece.name, "outline")


def _fastener(drawing: Drawing, screw: Screw, face: float) -> None:
    """Shank white over the hatch, point at the left, head at the face of the bracket."""
    half, tip = screw.diameter / 2, face - screw.length
    with drawing.part("fastener", screw.name):
        point = min(screw.diameter, screw.length / 4)
        outline = [(face, half), (tip + point, half), (tip, 0), (tip + point, -half), (face, -half)]
        drawing.area(outline, "medium", "white")
        drawing.rect(face, -screw.head / 2, screw.diameter * 0.6, screw.head, "medium", "white")
        drawing.line((tip - 8, 0), (face + screw.diameter + 8, 0), pen="centre")


def _screw(anchorage: Anchorage) -> Screw:
    fixing = anchorage.fixing
    if fixing is None:
        raise DoesNotFit("the fixing detail needs a fastener that holds: see the open checks of the anchorage")
    sheet = fixing.content
    if sheet.fastener is not None:
        made = sheet.fastener
        length = _size(made.length, "length of the fastener")
        diameter = _size(made.diameter, "diameter of the fastener")
        head = made.washer or made.head
        dense = anchorage.gravity is not None and not anchorage.gravity.missing and anchorage.gravity.quantity > 0.5
        pilot = made.pilot_hard if dense else made.pilot_soft
        hole = f"lead hole {pilot.text}" if pilot is not None else "lead hole as its maker says"
        return Screw(sheet.name, length, diameter, diameter * 2 if head is None else _size(head, "head"), hole)
    if sheet.anchor is not None:
        anchor = sheet.anchor
        length = _size(anchor.length, "length of the anchor")
        diameter = _size(anchor.diameter, "diameter of the anchor")
        deep = f", {anchor.hole_depth.text} deep" if anchor.hole_depth is not None else ""
        hole = f"hole {anchor.hole.text}{deep}" if anchor.hole is not None else "hole as its maker says"
        return Screw(sheet.name, length, diameter, diameter * 2, hole)
    raise DoesNotFit(f"the data sheet of {sheet.name} states no sizes")


def _base(anchorage: Anchorage, wall: Wall) -> Piece:
    build = wall.build_up
    if anchorage.base == "wood":
        return Piece("wood stud", "diagonal", _size(build.stud_depth, "stud_depth of the wall"))
    name = "concrete" if build.kind == "concrete" else "masonry"
    return Piece(name, "counter", _size(build.concrete_thickness, "concrete_thickness of the wall"))


def _size(quantity: Quantity | None, what: str) -> float:
    if quantity is None:
        raise DoesNotFit(f"the fixing detail needs the {what}")
    return float(quantity.number)


def _known(value: Value, what: str) -> float:
    if value.missing:
        raise DoesNotFit(f"the fixing detail needs the {what}: {value.how}")
    return value.quantity


def _both(value: Value) -> str:
    return "not known" if value.missing else f"{feet_inches(value.quantity)} ({value.quantity:.0f} mm)"
