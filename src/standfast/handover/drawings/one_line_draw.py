"""Puts a one-line diagram on paper whose parts have their places: symbols, texts, lines, enclosures, the earth."""

from collections.abc import Mapping, Sequence

from standfast.design.installation import Part
from standfast.handover.drawings import one_line_schedule as schedule
from standfast.handover.drawings.one_line_inside import is_inside
from standfast.handover.drawings.one_line_place import ASIDE_MM, RING_MM, bottom_of, inlet, top_of
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_tree import BOND_MM, BONDS, LINE_MM, Node, Words
from standfast.paper import symbols
from standfast.paper.drawing import Drawing
from standfast.paper.labels import lines_of
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped
from standfast.paper.svg import Point

PORT_MM = 3.0
ELECTRODE_MM = 33.0
"""Room for the grounding electrode, left of the service."""

SYMBOL: dict[str, str] = {
    "utility": "utility", "meter": "meter", "breaker": "breaker", "disconnect": "switch",
    "transfer equipment": "switch", "inverter": "inverter", "generator": "generator", "battery": "battery",
    "load": "load", "fuse": "fuse", "array": "array", "electrode": "ground", "shutdown switch": "switch",
}  # fmt: skip
"""Kind of part to its symbol."""
TWO_WAYS = "transfer switch"
"""Symbol of transfer equipment that two sources reach."""


def words_of(facts: OneLine, part: Part) -> Words:
    """Name and ratings of a part, the name after whether it is there or new."""
    mark = "(E)" if part.existing else "(N)"
    known = facts.words.get(part.id, Words(part.name, ()))
    return Words(f"{mark} {known.name}", known.lines)


def symbol_of(node: Node, facts: OneLine) -> str:
    """Name of the symbol of a part; empty for a busbar, which is a line."""
    if node.part.kind == "busbar":
        return ""
    if node.feeds and node.part.kind == "transfer equipment":
        return TWO_WAYS
    return facts.symbol.get(node.part.id, SYMBOL[node.part.kind])


def parts(drawing: Drawing, root: Node, facts: OneLine, numbers: Mapping[str, str]) -> None:
    """Everything but the earth.

    Args:
        drawing: that it is put on.
        root: the tree in its place.
        facts: what the diagram says.
        numbers: link to the number of its run.
    """
    _enclosures(drawing, root)
    for node in root.walk():
        if not node.wire:
            _node(drawing, node, facts)
        for child in node.fed:
            _joined(drawing, node, child, numbers)
        if node.into is not None:
            _across(drawing, node, node.into)


def earth(drawing: Drawing, facts: OneLine, root: Node, numbers: Mapping[str, str]) -> None:
    """Main bonding jumper at the service, and the conductor from there to the electrodes."""
    bonds = [link for link in facts.installation.links if link.kind == "bond"]
    nodes = {node.part.id: node for node in root.parts()}
    for bond in bonds:
        service, electrode = nodes.get(bond.a), facts.installation.parts[bond.b]
        if service is None or service.part.kind == "busbar":
            continue
        below = next((child for child in service.children if child.part.kind == "busbar"), service)
        edge = below.x - below.left
        start = service.x - symbols.HALF
        if facts.joined.get(bond.a) is not False:
            jumper = symbols.bonding_jumper(drawing, (service.x - 26, service.y))
            drawing.text(jumper.right, "N", shift=(1.6, -LEAST_MM / 2))
            known = "main bonding jumper" if facts.earth == "ground" else "neutral–earth link"
            words = known if facts.joined.get(bond.a) else "bond of neutral: not known"
            drawing.text((service.x - 26, service.y), words, anchor="middle", shift=(0, 3.2))
            start = jumper.left[0] - 0.8
        x, y = edge - ELECTRODE_MM / 2, service.y - 12
        drawing.line((start, service.y), (x, service.y), (x, y + symbols.HALF), pen="medium")
        if bond.id in numbers:
            schedule.ring(drawing, ((x + edge) / 2, service.y), numbers[bond.id])
        facts.family.drawn["ground"][0](drawing, (x, y))
        told = words_of(facts, electrode)
        lines = [line for each in (told.name, *told.lines) for line in wrapped(each, ELECTRODE_MM - 5, LEAST_MM)]
        for index, line in enumerate(lines):
            drawing.text((x, y - symbols.HALF), line, anchor="middle", shift=(0, -LINE_MM * (index + 0.6)))


def _enclosures(drawing: Drawing, root: Node) -> None:
    """A dash-dot outline around every panel with its breakers, and around inverter and cells of a unit."""
    above = {id(child): node for node in root.walk() for child in node.children}
    for node in root.parts():
        if node.part.kind == "busbar":
            main = above.get(id(node)) if node.inside else None
            inner = [*(child for child in node.children if child.inside), *([main] if main else [])]
            left = min([node.x - node.left, *(each.x - 8 for each in inner)])
            top = top_of(main) if main else node.y + node.block_mm + 4
            held = [each for each in node.children if not each.wire]  # the busbar reaches over all of them
            reach = [each.x + 8 for each in held] + [node.x + 8, left + node.own + 4]
            right = max([*reach, *map(_right, inner), *([inlet(node) + 4] if node.feeds else [])])
            symbols.enclosure(drawing, left, _low(node, inner), right, top)
        elif _heads(node):
            inner = _together(node)
            left, right = min(each.x - 8 for each in inner), max(map(_right, inner))
            symbols.enclosure(drawing, left, min(map(bottom_of, inner)), right, max(map(top_of, inner)))


def _heads(node: Node) -> bool:
    """True for the uppermost device in the enclosure of an inverter or a battery unit."""
    first = node.part.kind == "inverter" or (is_inside(node.part) and not node.inside)
    return first and any(child.inside for child in node.children)


def _together(node: Node) -> list[Node]:
    """A device and all below it in the same enclosure."""
    return [node, *(each for child in node.children if child.inside for each in _together(child))]


def _low(node: Node, inner: Sequence[Node]) -> float:
    """Lower edge of the enclosure of a panel."""
    return min(map(bottom_of, inner), default=node.y - 4)


def _right(node: Node) -> float:
    return node.x + ASIDE_MM + node.own + 2


def _node(drawing: Drawing, node: Node, facts: OneLine) -> None:
    symbol = symbol_of(node, facts)
    if not symbol:
        _bus(drawing, node)
        return
    facts.family.drawn[symbol][0](drawing, (node.x, node.y))
    _text(drawing, node, (node.x + ASIDE_MM, node.y + node.block_mm / 2))


def _bus(drawing: Drawing, node: Node) -> None:
    xs = [child.x for child in node.children if not child.earthed and not child.wire] or [node.x]
    right = max([*xs, node.x, *([inlet(node) - 4] if node.feeds else [])])
    symbols.busbar(drawing, min(*xs, node.x) - 6, right + 6, node.y)
    _text(drawing, node, (node.x - node.left + 2, node.y + node.block_mm + 2.5))


def _text(drawing: Drawing, node: Node, corner: Point) -> None:
    """Name in bold, ratings below it."""
    lines_of(drawing, corner, node.name, bold=True)
    lines_of(drawing, (corner[0], corner[1] - LINE_MM * len(node.name)), node.ratings)
    for number, line in enumerate(node.ratings):
        if line in BONDS:
            at = corner[0] + width_mm(line, LEAST_MM) + BOND_MM / 2
            symbols.bonding_jumper(drawing, (at, corner[1] - LINE_MM * (len(node.name) + number + 0.55)))


def _joined(drawing: Drawing, node: Node, child: Node, numbers: Mapping[str, str]) -> None:
    """The line from a part to the one below it, with the number of its run in a ring."""
    start = node.y if node.part.kind == "busbar" else node.y - symbols.HALF
    if child.earthed:
        start = _low(node, [each for each in node.children if each.inside])
    end = child.y if child.wire or child.part.kind == "busbar" else child.y + symbols.HALF
    if node.part.kind != "busbar" and len(node.fed) > 1:
        fork, port = bottom_of(node), node.x + PORT_MM * node.fed.index(child)  # each has a port of its own
        drawing.line((port, start), (port, fork), (child.x, fork), pen="medium")
        start = fork
    if child.feeds and child.part.kind == "transfer equipment":  # beside the inlet of a further source
        into = 2 * child.x - inlet(child)
        drawing.line((child.x, start), (child.x, end + 2), (into, end + 2), (into, end), pen="medium")
    else:
        drawing.line((child.x, start), (child.x, end), pen="medium")
    if node.part.kind == "busbar" and not child.earthed:
        symbols.junction(drawing, (child.x, node.y))
    if child.link is not None and child.link.id in numbers:
        middle = (start + end) / 2 if child.part.kind != "busbar" or child.wire else start - RING_MM - 0.8
        if node.part.kind == "busbar" and not child.inside and not child.earthed:  # below the enclosure
            middle = _low(node, [each for each in node.children if each.inside]) - RING_MM - 0.8
        schedule.ring(drawing, (child.x, middle), numbers[child.link.id])


def _across(drawing: Drawing, end: Node, goal: Node) -> None:
    """The level line at the end of a link that is no branch, and from there into its goal."""
    if goal.wire:
        drawing.line((end.x, end.y), (goal.x, goal.y), pen="medium")
        return
    x = inlet(goal)
    bottom = goal.y if goal.part.kind == "busbar" else goal.y + symbols.HALF
    drawing.line((end.x, end.y), (x, end.y), (x, bottom), pen="medium")
    if goal.part.kind == "busbar":
        symbols.junction(drawing, (x, goal.y))
