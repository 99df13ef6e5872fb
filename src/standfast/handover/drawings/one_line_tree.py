"""The installation as a tree on paper: which part hangs under which, and where each stands.

Branch circuits that only feed loads are drawn together, one symbol for those that stay and one for those that are new:
the panel schedule lists them. Every column is as wide as its texts.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.faults import Refusal
from standfast.paper import symbols
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped

LINE_MM = LEAST_MM * 1.65
"""Distance of the base lines of text beside a symbol."""
TEXT_MM = (60.0, 54.0, 48.0, 42.0)
"""Widest text beside a symbol: the first that lets the diagram fit."""
HALF = symbols.HALF
RING_MM = 3.2
"""Radius of the ring round the number of a run."""
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
    """A part on paper, in mm: middle x and y, width `own` of its text; of a busbar the reach `left` and `right` of its
    enclosure."""

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
    def earthed(self) -> bool:
        """True for an electrode that hangs on the enclosure of a panel, and not on its busbar."""
        return self.link is not None and self.link.kind == "bond"

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

    What stands before the first busbar, and over a busbar, has the room for wide texts in any case.

    Raises:
        NoUtility: where the installation has none.
    """
    utilities = installation.of_kind("utility")
    if not utilities:
        raise NoUtility("the installation has no utility: a one-line diagram begins with one")
    root = _grow(installation, utilities[0], None, {utilities[0].id})
    first = next((number for number, node in enumerate(root.walk()) if node.part.kind == "busbar"), 0)
    for number, node in enumerate(root.walk()):
        roomy = number < first or node.part.kind == "busbar"
        wide = max(text_mm, TEXT_MM[0]) if roomy else text_mm
        name, lines = words(node.part)
        node.name = wrapped(name, wide, LEAST_MM, True)
        node.ratings = [part for line in lines for part in wrapped(line, wide, LEAST_MM)]
        node.own = max((width_mm(line, LEAST_MM, True) for line in (*node.name, *node.ratings)), default=0.0)
    return root


def lower(root: Node, top: float, drop: Callable[[Node, Node], float]) -> None:
    """Give every node its height on paper.

    Args:
        root: the tree.
        top: y of the root.
        drop: how far a node stands below its parent, from both.
    """
    root.y = top
    for child in root.children:
        lower(child, top - drop(root, child), drop)


def spread(root: Node, lean: float = 0.5) -> tuple[float, float]:
    """Give every node its x, the root at 0, and say how far left and right the tree reaches.

    Subtrees stand as near to each other as what is drawn of them allows at each height, so that a wide panel lower
    down goes under the short columns beside its feeder. The heights must be there.

    Args:
        root: the tree.
        lean: where a busbar is fed from above: 0.5 over the middle of what hangs from it, 1 over the last of it.
    """
    boxes = _packed(root, lean)
    _absolute(root, 0.0)
    return min(box.left for box in boxes), max(box.right for box in boxes)


def move(root: Node, x: float) -> None:
    """Move the whole tree to the right."""
    for node in root.walk():
        node.x += x


def top_of(node: Node) -> float:
    """Upper end of a symbol with its text."""
    return node.y + max(HALF, node.block_mm / 2) + 1.5


def bottom_of(node: Node) -> float:
    """Lower end of a symbol with its text."""
    return node.y - max(HALF, node.block_mm / 2) - 1.5


class Box(NamedTuple):
    """What is drawn somewhere, in mm."""

    left: float
    right: float
    bottom: float
    top: float

    def at(self, x: float) -> "Box":
        """The same, moved to the right."""
        return self._replace(left=self.left + x, right=self.right + x)


def _packed(node: Node, lean: float) -> list[Box]:
    """Put the children of a node beside each other; boxes of all below it, the node itself at 0."""
    placed: list[Box] = []
    xs: list[float] = []
    for child in node.children:
        boxes = [*_packed(child, lean), Box(-RING_MM, RING_MM, child.y, node.y)]
        apart = [one.right - two.left + GAP_MM for one in placed for two in boxes if _beside(one, two)]
        x = max([xs[-1] + 2 * LEFT_MM, *apart]) if xs else 0.0
        xs.append(x)
        placed += [box.at(x) for box in boxes]
    middle = _middle(node, xs, lean)
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
    if node.part.kind != "busbar":
        panels = [each for each in node.children if each.part.kind == "busbar" and each.inside]
        around = [Box(each.x - each.left, each.x + each.right, each.y, top_of(node)) for each in panels]
        return [Box(-LEFT_MM, ASIDE_MM + node.own + 2, bottom_of(node), top_of(node)), *around]
    inner = [child for child in node.children if child.inside]
    node.left = max(LEFT_MM, LEFT_MM - min((child.x for child in node.children), default=-node.own))
    node.right = max([LEFT_MM, node.own + 4 - node.left, *(child.x + ASIDE_MM + child.own + 2 for child in inner)])
    low = min((bottom_of(child) for child in inner), default=node.y - 4)
    return [Box(-node.left, node.right, low, node.y + node.block_mm + 4)]


def _absolute(node: Node, x: float) -> None:
    node.x = x
    for child in node.children:
        _absolute(child, x + child.x)


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
    if part.kind == "busbar":
        bonds = (link for link in installation.links if link.kind == "bond" and link.a == part.id)
        node.children += [Node(installation.parts[bond.b], bond) for bond in bonds]
    return node


def _group(bus: Part, existing: bool) -> Node:
    """One breaker and one load that stand for many."""
    id = group_id(bus, existing)
    breakers, loads = Part(f"{id}/breakers", "breaker", GROUP, {}, existing), Part(id, "load", "Loads", {}, existing)
    tap, run = (
        Link(f"{id}, tap", bus.id, breakers.id, "busbar"),
        Link(f"{id}, run", breakers.id, id, "internal"),
    )
    return Node(breakers, tap, children=[Node(loads, run)])
