"""The one-line diagram, laid out from the installation graph: one symbol and one name for each device.

The utility stands at the top; every busbar is a heavy line with what hangs from it. Runs of conductors carry a ringed
number that the schedule beside the diagram explains; (E) is there already, (N) is new.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from standfast.design.installation import Installation, Part
from standfast.handover.drawings.one_line_tree import ASIDE_MM, LINE_MM, TEXT_MM, Node, Words, place, tree
from standfast.paper import symbols
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.labels import lines_of
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point

SIDE_MM = 106.0
"""Width of the schedule beside the diagram."""
PITCH_MM, LEAST_PITCH_MM = 23.0, 18.5
"""From symbol to symbol, if there is room, and at least."""
TOP_MM = 7.0
RING_MM = 3.2
ELECTRODE_MM = 33.0
"""Room for the grounding electrode, left of the service."""

DRAWN: dict[str, Callable[[Drawing, Point], symbols.Ends]] = {
    "utility": symbols.utility,
    "meter": symbols.meter,
    "breaker": symbols.breaker,
    "disconnect": symbols.switch,
    "transfer equipment": symbols.switch,
    "inverter": symbols.inverter,
    "battery": symbols.battery,
    "load": symbols.load,
    "electrode": symbols.ground,
}
LEGEND: dict[str, str] = {
    "utility": "utility", "meter": "meter", "breaker": "breaker", "disconnect": "switch",
    "transfer equipment": "switch", "inverter": "inverter", "battery": "battery", "load": "load",
}  # fmt: skip
"""Kind of part to its entry in the legend of symbols."""


class RunWords(NamedTuple):
    """One run of conductors for the schedule: its links in the graph, what it joins, and lines that describe it."""

    ids: tuple[str, ...]
    title: str
    lines: tuple[str, ...]


class OneLine(NamedTuple):
    """Everything that the diagram says.

    Attributes:
        installation: the graph.
        words: name and ratings of every part by its id.
        runs: conductors of the graph's links, by their ids, in the order of their numbers.
        grounding: lines about grounding and bonding.
        notes: lines that hold for the whole diagram.
    """

    installation: Installation
    words: Mapping[str, Words]
    runs: Sequence[RunWords]
    grounding: Sequence[str]
    notes: Sequence[str]


def draw(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing) -> Drawing:
    """The diagram on a sheet of paper in mm.

    Raises:
        DoesNotFit: where the installation is too large for the sheet.
        NoUtility: where it has no utility.
    """
    title = "One-line diagram"
    told = "Electrical one-line diagram from the utility to every source and group of loads, with conductor schedule"
    drawing = Drawing(title, told, *paper)
    root = _fitted(facts, paper)
    numbers = {id: str(number) for number, run in enumerate(facts.runs, 1) for id in run.ids}
    with drawing.part("diagram", "One-line diagram"):
        _enclosures(drawing, root)
        for node in root.walk():
            _node(drawing, node, numbers)
        _earth(drawing, facts, root, numbers)
    with drawing.part("schedule", "Conductor schedule, grounding, notes and symbols"):
        _side(drawing, facts, root, paper[0] - SIDE_MM, paper[1] - TOP_MM)
    drawing.finish()
    return drawing


def _words(facts: OneLine, part: Part) -> Words:
    mark = "(E)" if part.existing else "(N)"
    known = facts.words.get(part.id, Words(part.name, ()))
    return Words(f"{mark} {known.name}", known.lines)


# Where things stand


def _fitted(facts: OneLine, paper: tuple[float, float]) -> Node:
    """The tree in its place, with texts as wide as the sheet allows."""
    against = ""
    for text_mm in TEXT_MM:
        root = tree(facts.installation, lambda part: _words(facts, part), text_mm)
        against = _arrange(root, paper)
        if not against:
            return root
    raise DoesNotFit(against)


def _arrange(root: Node, paper: tuple[float, float]) -> str:
    """Put the tree into the room left of the schedule; what is against it, or nothing where it fits."""
    room, wide = paper[0] - SIDE_MM - 6, root.left + root.right + ELECTRODE_MM
    if wide > room:
        return f"the one-line diagram is {wide:.0f} mm wide, the sheet has {room:.0f} mm"
    x, top = ELECTRODE_MM + root.left + (room - wide) / 2, paper[1] - TOP_MM - symbols.HALF
    for step in range(int(2 * (PITCH_MM - LEAST_PITCH_MM)) + 1):
        place(root, x, top, partial(_drop, pitch=PITCH_MM - step / 2))
        if min(_bottom(node) for node in root.walk()) > 2:
            return ""
    return "the one-line diagram is higher than the sheet: it has too many parts in a row"


def _drop(parent: Node, node: Node, pitch: float) -> float:
    """How far a part stands below the one above it; what hangs from one busbar hangs at one height."""
    if parent.part.kind == "busbar":
        return max([pitch - 4, *(each.block_mm + 4 for each in parent.children)])
    if node.part.kind == "busbar":
        return max(pitch, node.block_mm + symbols.HALF + (4 if node.inside else 12))
    if node.part.kind == "load":
        return 2 * symbols.HALF + 6
    return max(pitch - 4 if node.inside else pitch, (parent.block_mm + node.block_mm) / 2 + 3)


def _enclosures(drawing: Drawing, root: Node) -> None:
    """A dash-dot outline around every panel with its breakers, and around inverter and cells of a unit."""
    for node in root.walk():
        if node.part.kind == "busbar":
            above = _parent(root, node) if node.inside else None
            inner = [*(child for child in node.children if child.part.kind == "breaker"), *([above] if above else [])]
            left = min([node.x - node.left, *(each.x - 8 for each in inner)])
            top = _top(above) if above else node.y + node.block_mm + 4
            right = max([node.x + 8, left + node.own + 4, *(each.x + 8 for each in node.children), *map(_right, inner)])
            symbols.enclosure(drawing, left, min(map(_bottom, inner), default=node.y - 4), right, top)
        elif node.part.kind == "inverter" and node.children:
            inner = [node, *node.children]
            left, right = min(each.x - 8 for each in inner), max(map(_right, inner))
            symbols.enclosure(drawing, left, min(map(_bottom, inner)), right, max(map(_top, inner)))


def _right(node: Node) -> float:
    return node.x + ASIDE_MM + node.own + 2


def _top(node: Node) -> float:
    return node.y + max(symbols.HALF, node.block_mm / 2) + 1.5


def _bottom(node: Node) -> float:
    return node.y - max(symbols.HALF, node.block_mm / 2) - 1.5


def _parent(root: Node, child: Node) -> Node | None:
    return next((node for node in root.walk() if child in node.children), None)


# What is drawn


def _node(drawing: Drawing, node: Node, numbers: Mapping[str, str]) -> None:
    if node.part.kind == "busbar":
        _bus(drawing, node)
    else:
        DRAWN[node.part.kind](drawing, (node.x, node.y))
        _text(drawing, node, (node.x + ASIDE_MM, node.y + node.block_mm / 2))
    for child in node.children:
        _joined(drawing, node, child, numbers)


def _bus(drawing: Drawing, node: Node) -> None:
    xs = [child.x for child in node.children] or [node.x]
    symbols.busbar(drawing, min(*xs, node.x) - 6, max(*xs, node.x) + 6, node.y)
    _text(drawing, node, (node.x - node.left + 2, node.y + node.block_mm + 2.5))


def _text(drawing: Drawing, node: Node, corner: Point) -> None:
    """Name in bold, ratings below it."""
    lines_of(drawing, corner, node.name, bold=True)
    lines_of(drawing, (corner[0], corner[1] - LINE_MM * len(node.name)), node.ratings)


def _joined(drawing: Drawing, node: Node, child: Node, numbers: Mapping[str, str]) -> None:
    """The line from a part to the one below it, with the number of its run in a ring."""
    start = node.y if node.part.kind == "busbar" else node.y - symbols.HALF
    end = child.y if child.part.kind == "busbar" else child.y + symbols.HALF
    drawing.line((child.x, start), (child.x, end), pen="medium")
    if node.part.kind == "busbar":
        symbols.junction(drawing, (child.x, node.y))
    if child.link is not None and child.link.id in numbers:
        middle = (start + end) / 2 if child.part.kind != "busbar" else start - RING_MM - 0.8
        ring(drawing, (child.x, middle), numbers[child.link.id])


def ring(drawing: Drawing, at: Point, number: str) -> None:
    """The number of a run in a ring on its line."""
    drawing.circle(at, RING_MM, "thin", "white")
    drawing.text(at, number, anchor="middle", shift=(0, -LEAST_MM / 2))


def _earth(drawing: Drawing, facts: OneLine, root: Node, numbers: Mapping[str, str]) -> None:
    """Main bonding jumper at the service, and the conductor from there to the electrodes."""
    bonds = [link for link in facts.installation.links if link.kind == "bond"]
    nodes = {node.part.id: node for node in root.walk()}
    for bond in bonds:
        service, electrode = nodes.get(bond.a), facts.installation.parts[bond.b]
        if service is None:
            continue
        below = next((child for child in service.children if child.part.kind == "busbar"), service)
        edge = below.x - below.left
        jumper = symbols.bonding_jumper(drawing, (service.x - 26, service.y))
        drawing.text(jumper.right, "N", shift=(1.6, -LEAST_MM / 2))
        drawing.text((service.x - 26, service.y), "main bonding jumper", anchor="middle", shift=(0, 3.2))
        x, y = edge - ELECTRODE_MM / 2, service.y - 12
        drawing.line((jumper.left[0] - 0.8, service.y), (x, service.y), (x, y + symbols.HALF), pen="medium")
        if bond.id in numbers:
            ring(drawing, ((x + edge) / 2, service.y), numbers[bond.id])
        symbols.ground(drawing, (x, y))
        words = _words(facts, electrode)
        lines = [line for each in (words.name, *words.lines) for line in wrapped(each, ELECTRODE_MM - 5, LEAST_MM)]
        for index, line in enumerate(lines):
            drawing.text((x, y - symbols.HALF), line, anchor="middle", shift=(0, -LINE_MM * (index + 0.6)))


# Beside the diagram


def _side(drawing: Drawing, facts: OneLine, root: Node, left: float, top: float) -> None:
    drawing.line((left - 4, top + TOP_MM - 2), (left - 4, 2), pen="thin")
    y = _heading(drawing, "Conductors and raceways", left, top)
    for number, run in enumerate(facts.runs, 1):
        ring(drawing, (left + RING_MM, y - 2.4), str(number))
        y = _paragraph(drawing, run.title, left + 9, y, bold=True)
        for line in run.lines:
            y = _paragraph(drawing, line, left + 9, y)
        y -= 1.4
    for heading, lines in (("Grounding and bonding", facts.grounding), ("Notes", facts.notes)):
        if lines:
            y = _heading(drawing, heading, left, y - 2)
            for line in lines:
                y = _paragraph(drawing, line, left, y) - 0.8
    names = dict.fromkeys(LEGEND[node.part.kind] for node in root.walk() if node.part.kind in LEGEND)
    if facts.installation.of_kind("electrode"):
        names |= {"ground": None, "bonding jumper": None}
    y = _heading(drawing, "Symbols (after ANSI/IEEE 315)", left, y - 2)
    pitch, each_row = SIDE_MM / 5, 5
    rows = [list(names)[at : at + each_row] for at in range(0, len(names), each_row)]
    for row in rows:
        symbols.legend(drawing, row, left, y, pitch)
        most = max(len(wrapped(symbols.LEGEND[name][1], pitch - 2, LEAST_MM)) for name in row)
        y -= 2 * symbols.HALF + LINE_MM * most + 3
    y = _paragraph(drawing, "(E) existing, (N) new; dash-dot outline: one enclosure; not to scale", left, y - 1)
    if y < 0:
        raise DoesNotFit(f"the schedule beside the one-line diagram is {-y:.0f} mm too long for the sheet")


def _heading(drawing: Drawing, text: str, left: float, y: float) -> float:
    drawing.text((left, y), text, 3.0, bold=True, shift=(0, -3.4))
    drawing.line((left, y - 5), (left + SIDE_MM - 2, y - 5), pen="thin")
    return y - 6.5


def _paragraph(drawing: Drawing, text: str, left: float, y: float, bold: bool = False) -> float:
    """Wrapped lines; the y below them is returned."""
    width = drawing.width - left - 2
    lines = wrapped(text, width, LEAST_MM, bold)
    lines_of(drawing, (left, y), lines, bold=bold)
    return y - LINE_MM * len(lines)
