"""The one-line diagram, laid out from the installation graph: one symbol and one name for each device.

The utility stands at the top; every busbar is a heavy line with what hangs from it. Runs of conductors carry a ringed
number that the schedule beside the diagram explains; (E) is there already, (N) is new.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial

from standfast.design.installation import Part
from standfast.handover.drawings import one_line_schedule as schedule
from standfast.handover.drawings.one_line_cut import after, before, cuts
from standfast.handover.drawings.one_line_inside import is_inside
from standfast.handover.drawings.one_line_told import CODES, OneLine
from standfast.handover.drawings.one_line_tree import (
    ASIDE_MM,
    LINE_MM,
    RING_MM,
    TEXT_MM,
    Node,
    Words,
    bottom_of,
    lower,
    move,
    spread,
    top_of,
    tree,
)
from standfast.paper import symbols
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.labels import lines_of
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point

TITLE = "One-line diagram"
APART = f"Ringed numbers: see the conductor schedule on sheet {CODES['one-line schedule']}."
APART_MM = 4.0
"""Height of the foot of that line above the edge."""
SIDE_MM = 106.0
"""Width of the schedule beside the diagram."""
PITCH_MM, LEAST_PITCH_MM = 23.0, 18.5
"""From symbol to symbol, if there is room, and at least."""
LEANS = (0.5, 1.0)
"""Where busbars are fed from above: over the middle, or over the last of what hangs from them."""
TOP_MM = 7.0
PORT_MM = 3.0
FORK_MM = 9.0
"""From the fork below a part that several hang from to the symbols of these: room for the ring of a run."""
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
    "fuse": symbols.fuse,
    "array": symbols.array,
    "load": symbols.load,
    "electrode": symbols.ground,
}
LEGEND: dict[str, str] = {
    "utility": "utility", "meter": "meter", "breaker": "breaker", "disconnect": "switch",
    "transfer equipment": "switch", "inverter": "inverter", "battery": "battery", "load": "load",
    "fuse": "fuse", "array": "array",
}  # fmt: skip
"""Kind of part to its entry in the legend of symbols."""


def drawings(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing) -> dict[str, Drawing]:
    """The diagram with its schedule beside it, or each on a sheet of its own where they do not fit together.

    A diagram that is too large for one sheet is cut at a panel and continued on another.

    Raises:
        DoesNotFit: where the diagram is too large for two sheets, or the schedule for one.
        NoUtility: where the installation has no utility.
    """
    try:
        return {"one-line": draw(facts, paper)}
    except DoesNotFit:
        made = draw_schedule(facts, paper)
    try:
        return {"one-line": draw(facts, paper, beside=False), "one-line schedule": made}
    except DoesNotFit as against:
        return {**_on_two(facts, paper, against), "one-line schedule": made}


def _on_two(facts: OneLine, paper: tuple[float, float], against: DoesNotFit) -> dict[str, Drawing]:
    """The diagram cut at the first panel that leaves two parts which fit."""
    for panel in cuts(tree(facts.installation, lambda part: _words(facts, part))):
        try:
            return {
                "one-line": draw(facts, paper, beside=False, take=partial(before, panel=panel)),
                "one-line continued": draw(facts, paper, beside=False, take=partial(after, panel=panel)),
            }
        except DoesNotFit:
            continue
    raise against


def _all(root: Node) -> Node:
    return root


def draw(
    facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing, *, beside: bool = True,
    take: Callable[[Node], Node] = _all,
) -> Drawing:  # fmt: skip
    """The diagram on a sheet of paper in mm, with its schedule beside it or without.

    Args:
        facts: what it says.
        paper: width and height in mm.
        beside: whether the schedule stands beside it.
        take: what of the whole diagram is drawn.

    Raises:
        DoesNotFit: where the installation is too large for the sheet.
        NoUtility: where it has no utility.
    """
    told = "Electrical one-line diagram from the utility to every source and group of loads"
    drawing = Drawing(TITLE, f"{told}, with conductor schedule" if beside else told, *paper)
    edge = 2.0 if beside else APART_MM + LINE_MM
    root = _fitted(facts, (paper[0] - (SIDE_MM + 6 if beside else 4), paper[1]), edge, take)
    numbers = {id: str(number) for number, run in enumerate(facts.runs, 1) for id in run.ids}
    with drawing.part("diagram", TITLE):
        _enclosures(drawing, root)
        for node in root.walk():
            _node(drawing, node, numbers)
        _earth(drawing, facts, root, numbers)
    if beside:
        with drawing.part("schedule", "Conductor schedule, grounding, notes and symbols"):
            left = paper[0] - SIDE_MM
            drawing.line((left - 4, paper[1] - 2), (left - 4, 2), pen="thin")
            schedule.one_column(drawing, facts, _kinds(root), schedule.Column(left, SIDE_MM, paper[1] - TOP_MM))
    else:
        drawing.text((4.0, APART_MM), APART)
    drawing.finish()
    return drawing


def draw_schedule(facts: OneLine, paper: tuple[float, float] = ANSI_B.drawing) -> Drawing:
    """Conductors, grounding, notes and symbols on a sheet of their own.

    Raises:
        DoesNotFit: where they are too long for the sheet.
        NoUtility: where the installation has none.
    """
    drawing = Drawing("Schedule of the one-line diagram", "Conductors, grounding, notes and symbols", *paper)
    with drawing.part("schedule", "Conductor schedule, grounding, notes and symbols"):
        kinds = _kinds(tree(facts.installation, lambda part: _words(facts, part)))
        columns = [schedule.Column(left, SIDE_MM + 40, paper[1] - TOP_MM) for left in (4.0, paper[0] / 2 + 4)]
        schedule.two_columns(drawing, facts, kinds, *columns)
    drawing.finish()
    return drawing


def _kinds(root: Node) -> list[str]:
    """Names of the symbols that are drawn, in the order of the diagram, for the legend."""
    return list(dict.fromkeys(LEGEND[node.part.kind] for node in root.walk() if node.part.kind in LEGEND))


def _words(facts: OneLine, part: Part) -> Words:
    mark = "(E)" if part.existing else "(N)"
    known = facts.words.get(part.id, Words(part.name, ()))
    return Words(f"{mark} {known.name}", known.lines)


# Where things stand


def _fitted(facts: OneLine, room: tuple[float, float], edge: float, take: Callable[[Node], Node]) -> Node:
    """The tree in its place, above an edge at the foot, with texts as wide as the room allows."""
    against = ""
    for text_mm, lean in ((text_mm, lean) for text_mm in TEXT_MM for lean in LEANS):
        root = take(tree(facts.installation, lambda part: _words(facts, part), text_mm))
        against = _arrange(root, room, edge, lean)
        if not against:
            return root
    raise DoesNotFit(against)


def _arrange(root: Node, space: tuple[float, float], edge: float, lean: float) -> str:
    """Put the tree into a width and a height; what is against it, or nothing where it fits."""
    room, height = space
    top = height - TOP_MM - symbols.HALF
    for step in range(int(2 * (PITCH_MM - LEAST_PITCH_MM)) + 1):
        lower(root, top, partial(_drop, pitch=PITCH_MM - step / 2))
        if min(bottom_of(node) for node in root.walk()) > edge:
            break
    else:
        return "the one-line diagram is higher than the sheet: it has too many parts in a row"
    left, right = spread(root, lean)
    bus = next((node for node in root.walk() if node.part.kind == "busbar"), root)
    left = min(left, bus.x - bus.left - ELECTRODE_MM)
    if right - left > room:
        return f"the one-line diagram is {right - left:.0f} mm wide, the sheet has {room:.0f} mm"
    move(root, (room - (right - left)) / 2 - left)
    return ""


def _drop(parent: Node, node: Node, pitch: float) -> float:
    """How far a part stands below the one above it; what hangs from one busbar hangs at one height."""
    if node.earthed:
        return max([pitch, *(each.block_mm + 4 for each in parent.children)]) + 4 * symbols.HALF
    if parent.part.kind == "busbar":
        return max([pitch - 4, *(each.block_mm + 4 for each in parent.children)])
    if node.part.kind == "busbar":
        return max(pitch, node.block_mm + symbols.HALF + (4 if node.inside else 12))
    if node.part.kind == "load":
        return 2 * symbols.HALF + 6
    least = 2 * symbols.HALF if is_inside(parent.part) and not node.inside else 0.0  # below the outline of a device
    apart = max(pitch - 4 if node.inside else pitch, (max(parent.block_mm, least) + node.block_mm) / 2 + 3)
    return max(apart, parent.y - bottom_of(parent) + FORK_MM + symbols.HALF) if len(parent.children) > 1 else apart


def _enclosures(drawing: Drawing, root: Node) -> None:
    """A dash-dot outline around every panel with its breakers, and around inverter and cells of a unit."""
    for node in root.walk():
        if node.part.kind == "busbar":
            above = _parent(root, node) if node.inside else None
            inner = [*(child for child in node.children if child.part.kind == "breaker"), *([above] if above else [])]
            left = min([node.x - node.left, *(each.x - 8 for each in inner)])
            top = top_of(above) if above else node.y + node.block_mm + 4
            right = max([node.x + 8, left + node.own + 4, *(each.x + 8 for each in node.children), *map(_right, inner)])
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
    xs = [child.x for child in node.children if not child.earthed] or [node.x]
    symbols.busbar(drawing, min(*xs, node.x) - 6, max(*xs, node.x) + 6, node.y)
    _text(drawing, node, (node.x - node.left + 2, node.y + node.block_mm + 2.5))


def _text(drawing: Drawing, node: Node, corner: Point) -> None:
    """Name in bold, ratings below it."""
    lines_of(drawing, corner, node.name, bold=True)
    lines_of(drawing, (corner[0], corner[1] - LINE_MM * len(node.name)), node.ratings)


def _joined(drawing: Drawing, node: Node, child: Node, numbers: Mapping[str, str]) -> None:
    """The line from a part to the one below it, with the number of its run in a ring."""
    start = node.y if node.part.kind == "busbar" else node.y - symbols.HALF
    if child.earthed:
        start = _low(node, [each for each in node.children if each.part.kind == "breaker"])
    end = child.y if child.part.kind == "busbar" else child.y + symbols.HALF
    if node.part.kind != "busbar" and len(node.children) > 1:
        fork, port = bottom_of(node), node.x + PORT_MM * node.children.index(child)  # each has a port of its own
        drawing.line((port, start), (port, fork), (child.x, fork), pen="medium")
        start = fork
    drawing.line((child.x, start), (child.x, end), pen="medium")
    if node.part.kind == "busbar" and not child.earthed:
        symbols.junction(drawing, (child.x, node.y))
    if child.link is not None and child.link.id in numbers:
        middle = (start + end) / 2 if child.part.kind != "busbar" else start - RING_MM - 0.8
        schedule.ring(drawing, (child.x, middle), numbers[child.link.id])


def _earth(drawing: Drawing, facts: OneLine, root: Node, numbers: Mapping[str, str]) -> None:
    """Main bonding jumper at the service, and the conductor from there to the electrodes."""
    bonds = [link for link in facts.installation.links if link.kind == "bond"]
    nodes = {node.part.id: node for node in root.walk()}
    for bond in bonds:
        service, electrode = nodes.get(bond.a), facts.installation.parts[bond.b]
        if service is None or service.part.kind == "busbar":
            continue
        below = next((child for child in service.children if child.part.kind == "busbar"), service)
        edge = below.x - below.left
        jumper = symbols.bonding_jumper(drawing, (service.x - 26, service.y))
        drawing.text(jumper.right, "N", shift=(1.6, -LEAST_MM / 2))
        drawing.text((service.x - 26, service.y), "main bonding jumper", anchor="middle", shift=(0, 3.2))
        x, y = edge - ELECTRODE_MM / 2, service.y - 12
        drawing.line((jumper.left[0] - 0.8, service.y), (x, service.y), (x, y + symbols.HALF), pen="medium")
        if bond.id in numbers:
            schedule.ring(drawing, ((x + edge) / 2, service.y), numbers[bond.id])
        symbols.ground(drawing, (x, y))
        words = _words(facts, electrode)
        lines = [line for each in (words.name, *words.lines) for line in wrapped(each, ELECTRODE_MM - 5, LEAST_MM)]
        for index, line in enumerate(lines):
            drawing.text((x, y - symbols.HALF), line, anchor="middle", shift=(0, -LINE_MM * (index + 0.6)))
