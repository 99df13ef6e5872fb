"""The installation as a tree on paper: which part hangs under which, and where each stands.

Branch circuits that only feed loads are drawn together, one symbol for those that stay and one for those that are new:
the panel schedule lists them. Every column is as wide as its texts.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.faults import Refusal
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped

LINE_MM = LEAST_MM * 1.65
"""Distance of the base lines of text beside a symbol."""
TEXT_MM = (60.0, 54.0, 48.0, 42.0)
"""Widest text beside a symbol: the first that lets the diagram fit."""
ASIDE_MM = 9.0
"""From the line of a symbol to the text beside it."""
LEFT_MM = 8.0
"""Room to the left of a symbol's line."""
GAP_MM = 4.0
GROUP = "Branch circuits"


class NoUtility(Refusal):
    """An installation without a utility cannot be drawn from the top."""


class Words(NamedTuple):
    """What stands beside a part: its name, and lines of its ratings."""

    name: str
    lines: tuple[str, ...]


@dataclass
class Node:
    """A part on paper, in mm: middle x and y, width `own` of its text, reach `left` and `right` of all below it."""

    part: Part
    link: Link | None
    name: list[str] = field(default_factory=list)
    ratings: list[str] = field(default_factory=list)
    children: list["Node"] = field(default_factory=list)
    own: float = 0.0
    left: float = 0.0
    right: float = 0.0
    x: float = 0.0
    y: float = 0.0

    @property
    def inside(self) -> bool:
        """True where it shares an enclosure with the part above it."""
        return self.link is not None and self.link.kind in ("internal", "busbar")

    def walk(self) -> list["Node"]:
        """This node and everything below it, from the top."""
        return [self, *(each for child in self.children for each in child.walk())]

    @property
    def block_mm(self) -> float:
        """Height of its text."""
        return LINE_MM * (len(self.name) + len(self.ratings))


def tree(installation: Installation, words: Callable[[Part], Words], text_mm: float = TEXT_MM[0]) -> Node:
    """The tree that hangs from the utility, with texts wrapped to a width and all widths known.

    NoUtility where the installation has none.
    """
    utilities = installation.of_kind("utility")
    if not utilities:
        raise NoUtility("the installation has no utility: a one-line diagram begins with one")
    root = _grow(installation, utilities[0], None, {utilities[0].id})
    for node in root.walk():
        name, lines = words(node.part)
        node.name = wrapped(name, text_mm, LEAST_MM, True)
        node.ratings = [part for line in lines for part in wrapped(line, text_mm, LEAST_MM)]
    _measure(root)
    return root


def place(root: Node, x: float, top: float, drop: Callable[[Node, Node], float]) -> None:
    """Put every node on paper.

    Args:
        root: the tree.
        x: of the root.
        top: y of the root.
        drop: how far a node stands below its parent, from both.
    """
    root.x, root.y = x, top
    if not root.children:
        return
    spans = [child.left + child.right for child in root.children]
    start = x - (sum(spans) + GAP_MM * (len(spans) - 1)) / 2
    if root.part.kind != "busbar":
        start = x - root.children[0].left
    for child, span in zip(root.children, spans, strict=True):
        place(child, start + child.left, top - drop(root, child), drop)
        start += span + GAP_MM


def branch_circuits(installation: Installation, bus: Part) -> dict[bool, list[Part]]:
    """The breakers of a busbar that feed nothing but loads: those that stay (true) and those that are new (false)."""
    groups: dict[bool, list[Part]] = {True: [], False: []}
    for there, _ in installation.beside(bus.id):
        beyond = [part for part, _ in installation.beside(there.id) if part.id != bus.id]
        if there.kind == "breaker" and beyond and all(part.kind == "load" for part in beyond):
            groups[there.existing].append(there)
    return groups


def group_id(bus: Part, existing: bool) -> str:
    """The id under which branch circuits are drawn together: of their load; their breaker adds ``/breakers``."""
    return f"{bus.id}/{'existing' if existing else 'new'}-circuits"


def _grow(installation: Installation, part: Part, link: Link | None, seen: set[str]) -> Node:
    node = Node(part, link)
    groups = branch_circuits(installation, part) if part.kind == "busbar" else {}
    for existing, parts in groups.items():
        seen.update(each.id for each in parts)
        if parts:
            node.children.append(_group(part, existing))
    for there, way in installation.beside(part.id):
        if there.id not in seen:
            seen.add(there.id)
            node.children.append(_grow(installation, there, way, seen))
    return node


def _group(bus: Part, existing: bool) -> Node:
    """One breaker and one load that stand for many."""
    id = group_id(bus, existing)
    breakers, loads = Part(f"{id}/breakers", "breaker", GROUP, {}, existing), Part(id, "load", "Loads", {}, existing)
    tap, run = (
        Link(f"{id}, tap", bus.id, breakers.id, "busbar", {}),
        Link(f"{id}, run", breakers.id, id, "internal", {}),
    )
    return Node(breakers, tap, children=[Node(loads, run)])


def _measure(node: Node) -> None:
    for child in node.children:
        _measure(child)
    node.own = max((width_mm(line, LEAST_MM, True) for line in (*node.name, *node.ratings)), default=0.0)
    if node.part.kind == "busbar":
        spans = sum(child.left + child.right for child in node.children) + GAP_MM * max(len(node.children) - 1, 0)
        node.left, node.right = max(spans / 2, node.own + 4), max(spans / 2, LEFT_MM)
        return
    node.left, node.right = LEFT_MM, ASIDE_MM + node.own
    if node.children:
        node.left = max(node.left, node.children[0].left)
        node.right = max(node.right, max(child.right for child in node.children))
