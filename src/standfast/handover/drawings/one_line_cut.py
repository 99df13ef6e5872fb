"""A one-line diagram on two sheets: cut at a panel, which is drawn on the second with the device that feeds it."""

from collections.abc import Iterator

from standfast.design.installation import Part
from standfast.handover.drawings.one_line_inside import is_main
from standfast.handover.drawings.one_line_told import CODES
from standfast.handover.drawings.one_line_tree import Node
from standfast.paper.lettering import LEAST_MM, width_mm

CONTINUED = f"continued on sheet {CODES['one-line continued']}"
BEFORE = f"fed as sheet {CODES['one-line']} shows"


def cuts(root: Node) -> Iterator[str]:
    """Where a diagram can be cut: at each panel that another one feeds, or its main, nearest to the service first."""
    found: list[str] = []
    for node in root.walk():
        for child in node.children:
            if child.part.kind == "busbar":
                found.append(node.part.id if is_main(node.part) else child.part.id)
    yield from found[1:]


def before(root: Node, panel: str) -> Node:
    """The diagram without what hangs from a panel: a mark in its place."""
    for node in root.walk():
        node.children = [_mark(each) if each.part.id == panel else each for each in node.children]
    return root


def after(root: Node, panel: str) -> Node:
    """A panel with all that hangs from it, under the device that feeds it.

    Raises:
        LookupError: where the diagram has no such panel.
    """
    for node in root.walk():
        for child in node.children:
            if child.part.id == panel:
                top = Node(node.part, None, node.name, [*node.ratings, BEFORE], [child])
                return _wide(top)
    raise LookupError(f"no panel {panel} in the diagram")


def _mark(node: Node) -> Node:
    part = Part(f"{node.part.id}/continued", "load", node.part.name, {}, node.part.existing)
    return _wide(Node(part, node.link, node.name, [CONTINUED]))


def _wide(node: Node) -> Node:
    node.own = max(width_mm(line, LEAST_MM, True) for line in (*node.name, *node.ratings))
    return node
