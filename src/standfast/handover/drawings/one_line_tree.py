"""The installation as a tree on paper: which part hangs under which, and where each stands.

Branch circuits that only feed loads are drawn together, one symbol for those that stay and one for those that are new:
the panel schedule lists them. Every column is as wide as its texts.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.faults import Refusal
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped

LINE_MM = LEAST_MM * 1.65
"""Distance of the base lines of text beside a symbol."""
TEXT_MM = 46.0
"""Widest text beside a symbol."""
ASIDE_MM = 9.0
"""From the line of a symbol to the text beside it."""
LEFT_MM = 8.0
"""Room to the left of a symbol's line."""
BUS_TEXT_MM = 50.0
"""Room for the text of a busbar, left of the line that feeds it."""
GAP_MM = 4.0
GROUP = "branch circuits"


class NoUtility(Refusal):
    """An installation without a utility cannot be drawn from the top."""


class Words(NamedTuple):
    """What stands beside a part: its name, and lines of its ratings."""

    name: str
    lines: tuple[str, ...]


@dataclass
class Node:
    """A part on paper; x and y of its middle in mm, `left` and `right` how far its subtree reaches from x."""

    part: Part
    link: Link | None
    lines: list[str] = field(default_factory=list)
    children: list["Node"] = field(default_factory=list)
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
        return LINE_MM * len(self.lines)


def tree(installation: Installation, words: Callable[[Part], Words]) -> Node:
    """The tree that hangs from the utility, with texts wrapped and widths known.

    NoUtility where the installation has none.
    """
    utilities = installation.of_kind("utility")
    if not utilities:
        raise NoUtility("the installation has no utility: a one-line diagram begins with one")
    root = _grow(installation, utilities[0], None, {utilities[0].id})
    for node in root.walk():
        name, lines = words(node.part)
        room = BUS_TEXT_MM - 2 if node.part.kind == "busbar" else TEXT_MM
        node.lines = [
            *wrapped(name, room, LEAST_MM, True),
            *(part for line in lines for part in wrapped(line, room, LEAST_MM)),
        ]
    _measure(root)
    return root


def place(root: Node, x: float, top: float, drop: Callable[[Node], float]) -> None:
    """Put every node on paper.

    Args:
        root: the tree.
        x: of the root.
        top: y of the root.
        drop: how far a node stands below its parent.
    """
    root.x, root.y = x, top
    if not root.children:
        return
    spans = [child.left + child.right for child in root.children]
    start = x - (sum(spans) + GAP_MM * (len(spans) - 1)) / 2
    if root.part.kind != "busbar":
        start = x - root.children[0].left
    for child, span in zip(root.children, spans, strict=True):
        place(child, start + child.left, top - drop(child), drop)
        start += span + GAP_MM


def grouped(parts: Sequence[Part], existing: bool, bus: Part) -> list[Part]:
    """The two symbols that stand for many branch circuits: one breaker, one load."""
    id = f"{bus.id}/{'existing' if existing else 'new'}-circuits"
    many = f"{len(parts)} branch circuits" if len(parts) > 1 else parts[0].name.removesuffix(" breaker")
    facts: Mapping[str, object] = {}
    del facts
    return [
        Part(f"{id}/breakers", "breaker", many, parts[0].facts if len(parts) == 1 else {}, existing),
        Part(id, "load", GROUP, {}, existing),
    ]


def _grow(installation: Installation, part: Part, link: Link | None, seen: set[str]) -> Node:
    node = Node(part, link)
    groups: dict[bool, list[Part]] = {True: [], False: []}
    for there, way in installation.beside(part.id):
        if there.id in seen:
            continue
        seen.add(there.id)
        if part.kind == "busbar" and _feeds_loads_only(installation, there, part):
            groups[there.existing].append(there)
        else:
            node.children.append(_grow(installation, there, way, seen))
    for existing, parts in groups.items():
        if parts:
            breakers, loads = grouped(parts, existing, part)
            tap = Link(f"{breakers.id}, tap", part.id, breakers.id, "busbar", {})
            run = Link(f"{breakers.id}, run", breakers.id, loads.id, "internal", {})
            node.children.insert(0 if existing else 1, Node(breakers, tap, children=[Node(loads, run)]))
    return node


def _feeds_loads_only(installation: Installation, breaker: Part, bus: Part) -> bool:
    beyond = [there for there, _ in installation.beside(breaker.id) if there.id != bus.id]
    return breaker.kind == "breaker" and bool(beyond) and all(there.kind == "load" for there in beyond)


def _measure(node: Node) -> None:
    for child in node.children:
        _measure(child)
    own = max((width_mm(line, LEAST_MM, True) for line in node.lines), default=0.0)
    if node.part.kind == "busbar":
        spans = sum(child.left + child.right for child in node.children) + GAP_MM * max(len(node.children) - 1, 0)
        node.left, node.right = max(spans / 2, BUS_TEXT_MM), max(spans / 2, LEFT_MM)
        return
    node.left, node.right = LEFT_MM, ASIDE_MM + own
    if node.children:
        node.left = max(node.left, node.children[0].left)
        node.right = max(node.right, max(child.right for child in node.children))
