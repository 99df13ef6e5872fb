"""A one-line diagram on two sheets: cut at a panel, which is drawn on the second with the device that feeds it."""

from collections.abc import Iterator

from standfast.design.installation import Part
from standfast.handover.drawings.one_line_tree import Node
from standfast.paper.lettering import LEAST_MM, width_mm

CONTINUED = "continued on a sheet of its own"
BEFORE = "fed as the first sheet of the diagram shows"


def cuts(root: Node) -> Iterator[str]:
    """The panels at which a diagram can be cut: each that another one feeds, the nearest to the service first."""
    panels = [node.part.id for node in root.walk() if node.part.kind == "busbar"]
    yield from panels[1:]


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
