"""Where each part of a one-line diagram stands on paper: heights first, then places beside each other.

Subtrees stand as near to each other as what is drawn of them allows at each height. A link that leads across runs
level just above what it goes into, or below both of its parts, at a height where it meets no text.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from standfast.handover.drawings.one_line_tree import HALF, Node

RING_MM = 3.2
"""Radius of the ring round the number of a run."""
ASIDE_MM = 9.0
"""From the line of a symbol to the text beside it."""
LEFT_MM = 8.0
"""Room to the left of a symbol's line."""
GAP_MM = 4.0
LANE_MM = 2 * RING_MM + 3.0
"""Room below a part for the end of a link that leads across: the ring of its run stands there."""
LEVEL_MM = 3.0
"""Between two level lines of such links."""
INLET_MM = 4.0
"""From the middle of transfer equipment to each of its two inlets."""


class Box(NamedTuple):
    """What is drawn somewhere, in mm."""

    left: float
    right: float
    bottom: float
    top: float

    def at(self, x: float) -> "Box":
        """The same, moved to the right."""
        return self._replace(left=self.left + x, right=self.right + x)


Drop = Callable[[Node, Node], float]


def lower(root: Node, top: float, drop: Drop) -> None:
    """Give every node its height on paper: below all that leads to it.

    Args:
        root: the tree.
        top: y of the root.
        drop: how far a node stands below its parent, from both.
    """
    nodes = root.walk()
    above = {id(child): node for node in nodes for child in node.children}
    entered: dict[int, list[Node]] = {}
    for node in nodes:
        if node.into is not None:
            entered.setdefault(id(node.into), []).append(node)
    done: set[int] = set()

    def settle(node: Node) -> None:
        if id(node) in done:
            return
        done.add(id(node))
        parent, ends = above.get(id(node)), entered.get(id(node), [])
        heights = [top]
        if parent is not None:
            settle(parent)
            heights = [bottom_of(parent) - LANE_MM if node.wire else parent.y - drop(parent, node)]
        for number, end in enumerate(ends):
            source = above[id(end)]
            settle(source)
            head = 0.0 if node.wire else head_of(node) + LEVEL_MM * (number + 1)
            heights.append(bottom_of(source) - LANE_MM - head)
        node.y = min(heights) - node.lower
        for number, end in enumerate(ends):
            end.y = level_of(node, number)
            done.add(id(end))

    for node in nodes:
        if node.into is None:
            settle(node)


def level_of(node: Node, number: int) -> float:
    """Height at which a link that leads across runs to a node: above it, or at the wire below it."""
    return node.y if node.wire else node.y + head_of(node) + LEVEL_MM * (number + 1)


def spread(root: Node, lean: float = 0.5) -> tuple[float, float]:
    """Give every node its x, the root at 0, and say how far left and right the tree reaches. The heights must be there.

    Args:
        root: the tree.
        lean: where a busbar is fed from above: 0.5 over the middle of what hangs from it, 1 over the last of it.
    """
    boxes = _packed(root, lean)
    _absolute(root, 0.0)
    for end in root.walk():
        if end.into is not None:
            end.into.turned = end.x < end.into.x
    return min(box.left for box in boxes), max(box.right for box in boxes)


def move(root: Node, x: float) -> None:
    """Move the whole tree to the right."""
    for node in root.walk():
        node.x += x


def head_of(node: Node) -> float:
    """From the middle of a part to its upper end, its text included."""
    return node.block_mm + 4 if node.part.kind == "busbar" else max(HALF, node.block_mm / 2) + 1.5


def top_of(node: Node) -> float:
    """Upper end of a symbol with its text."""
    return node.y + max(HALF, node.block_mm / 2) + 1.5


def bottom_of(node: Node) -> float:
    """Lower end of a symbol with its text; of a busbar that of its breakers is further down."""
    return node.y - max(HALF, node.block_mm / 2) - 1.5


def inlet(node: Node) -> float:
    """The x at which a link that leads across goes into a part from above: beside what else feeds it."""
    if node.part.kind == "busbar":
        return max([node.x, *(each.x for each in node.children if not each.earthed)]) + INLET_MM
    return node.x + (-INLET_MM if node.turned else INLET_MM)


def level_lines(root: Node) -> Iterator[tuple[Node, float, float, float]]:
    """Every level line of a link that leads across: its end, its height, its left and right x."""
    for end in root.walk():
        if end.into is not None:
            x = end.into.x if end.into.wire else inlet(end.into)
            yield end, end.y, min(end.x, x), max(end.x, x)


def hidden(root: Node) -> Node | None:
    """A part whose text or symbol a level line would run through, by what that line goes into; None where none does."""
    parts = root.parts()
    for end, y, left, right in level_lines(root):
        goal = end.into
        for node in parts:
            around = own_box(node).at(node.x)
            if node is not goal and around.left < right and left < around.right and around.bottom < y < around.top:
                return goal
    return None


def own_box(node: Node) -> Box:
    """Box of a part with its text, the part at x = 0; of a busbar that of its text and its line."""
    if node.part.kind == "busbar":
        return Box(-node.left, node.right, node.y - 2, node.y + node.block_mm + 4)
    return Box(-LEFT_MM, ASIDE_MM + node.own + 2, bottom_of(node), top_of(node))


def _packed(node: Node, lean: float) -> list[Box]:
    """Put the children of a node beside each other; boxes of all below it, the node itself at 0."""
    placed: list[Box] = []
    xs: list[float] = []
    for child in node.children:
        boxes = [*_packed(child, lean), Box(-RING_MM, RING_MM, child.y, node.y)]
        if child.inside and "busbar" not in (node.part.kind, child.part.kind):  # one outline, as wide as the wider
            boxes.append(Box(-LEFT_MM, ASIDE_MM + max(node.own, child.own) + 2, bottom_of(child), node.y))
        apart = [one.right - two.left + GAP_MM for one in placed for two in boxes if _beside(one, two)]
        if child.link is None:  # only stands beside: clear of the text of what holds it
            apart.append(ASIDE_MM + node.own + 2 + LEFT_MM)
        x = max([xs[-1] + 2 * LEFT_MM, *apart]) if xs else max([0.0, *apart])
        xs.append(x)
        placed += [box.at(x) for box in boxes]
    middle = _middle(node, [x for x, each in zip(xs, node.children, strict=True) if each.link is not None], lean)
    for child, x in zip(node.children, xs, strict=True):
        child.x = x - middle
    return [box.at(-middle) for box in placed] + _own(node)


def _beside(one: Box, two: Box) -> bool:
    return one.bottom < two.top and two.bottom < one.top


def _middle(node: Node, xs: list[float], lean: float) -> float:
    """Where a node stands over its children; the text of a busbar is left of the line to it."""
    if node.part.kind != "busbar" or not xs:
        return xs[0] if xs else 0.0
    return max(xs[0] + lean * (xs[-1] - xs[0]), xs[0] - LEFT_MM + node.own + 4)


def _own(node: Node) -> list[Box]:
    """Boxes of a node itself: of a busbar its text and the enclosure round it and its breakers; it reaches up to its
    main."""
    if node.wire:
        return [Box(-RING_MM, RING_MM, node.y - 1, node.y + 1)]
    if node.part.kind != "busbar":
        panels = [each for each in node.children if each.part.kind == "busbar" and each.inside]
        around = [Box(each.x - each.left, each.x + each.right, each.y, top_of(node)) for each in panels]
        return [own_box(node), *around]
    inner = [child for child in node.children if child.inside]
    ends = [each for each in node.children if not each.earthed]
    node.left = max(LEFT_MM, LEFT_MM - min((child.x for child in node.children), default=-node.own))
    reach = max([0.0, *(each.x for each in ends)]) + INLET_MM if node.feeds else 0.0  # a further feed comes down there
    node.right = max(
        [
            LEFT_MM + max([reach, *(each.x for each in ends)]),
            node.own + 4 - node.left,
            *(child.x + ASIDE_MM + child.own + 2 for child in inner),
        ]
    )
    low = min((bottom_of(child) for child in inner), default=node.y - 4)
    return [Box(-node.left, node.right, low, node.y + node.block_mm + 4)]


def _absolute(node: Node, x: float) -> None:
    node.x = x
    for child in node.children:
        _absolute(child, x + child.x)
