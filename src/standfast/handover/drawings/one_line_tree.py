"""The installation as a tree on paper: which part hangs under which, and which links lead across.

Branch circuits that only feed loads are drawn together, one symbol for those that stay and one for those that are new:
the panel schedule lists them. A link that is no branch of the tree ends in a leaf of its own, from which it is led to
the part that it goes into.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.faults import Refusal
from standfast.handover.drawings.one_line_span import Spanned, spanned
from standfast.paper import symbols
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped

LINE_MM = LEAST_MM * 1.65
"""Distance of the base lines of text beside a symbol."""
TEXT_MM = (66.0, 60.0, 54.0, 48.0, 42.0)
"""Widest text beside a symbol: the first that lets the diagram fit."""
HALF = symbols.HALF
GROUP = "Branch circuits"
BONDS, BOND_MM = ("neutral and ground joined", "neutral and earth joined"), 12.0
"""Lines of ratings that the symbol of a bond follows, and the room for it."""
_UNIT = r"(?:[kM]?(?:A|V|W|Wh|VA|Hz|m)|mm|mm²|AWG|kcmil|ft|in|°C|°F|%)(?![\w°])"
_BREAK = re.compile(rf"(?<!\d) +| +(?!{_UNIT})")
"""Where a line may be broken: not between a number and its unit."""
FROM_ABOVE = ("transfer equipment", "busbar")
"""Kinds of part that a further feed reaches from above; every other part is reached from below."""


class NoUtility(Refusal):
    """An installation without a utility cannot be drawn from the top."""


class Words(NamedTuple):
    """What stands beside a part: its name, and lines of its ratings."""

    name: str
    lines: tuple[str, ...]


@dataclass(eq=False)
class Node:
    """A part on paper, in mm: middle x and y, width `own` of its text; of a busbar the reach `left` and `right` of its
    enclosure. A node with `wire` is the end of a link that leads across, `into` another node or a wire of it; `feeds`
    counts the links that come into a part from above beside its branch, `turned` where from the left; `lower` is how
    much it was moved down."""

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
    wire: bool = False
    into: "Node | None" = None
    lower: float = 0.0
    feeds: int = 0
    turned: bool = False

    @property
    def earthed(self) -> bool:
        """True for an electrode that hangs on the enclosure of a panel, and not on its busbar."""
        return self.link is not None and self.link.kind == "bond"

    @property
    def inside(self) -> bool:
        """True where it shares an enclosure with the part above it."""
        return not self.wire and self.link is not None and self.link.kind in ("internal", "busbar")

    @property
    def fed(self) -> list["Node"]:
        """What hangs from it by a line; a source that only stands beside it does not."""
        return [each for each in self.children if each.link is not None]

    def walk(self) -> list["Node"]:
        """This node and everything below it, from the top."""
        return [self, *(each for child in self.children for each in child.walk())]

    def parts(self) -> list["Node"]:
        """The same without the ends of links."""
        return [each for each in self.walk() if not each.wire]

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
    groups = {bus.id: branch_circuits(installation, bus) for bus in installation.of_kind("busbar")}
    together = {each.id for group in groups.values() for parts in group.values() for each in parts}
    loads = {part.id for id in together for part, _ in installation.beside(id) if part.kind == "load"}
    found = spanned(installation, utilities[0].id, together | loads)
    root = _Growing(installation, found, groups).whole()
    first = next((number for number, node in enumerate(root.walk()) if node.part.kind == "busbar"), 0)
    for number, node in enumerate(root.walk()):
        roomy = number < first or node.part.kind == "busbar"
        if not node.wire:
            _worded(node, words(node.part), max(text_mm, TEXT_MM[0]) if roomy else text_mm)
    return root


def _worded(node: Node, words: Words, wide: float) -> None:
    node.name = wrapped(words.name, wide, LEAST_MM, True)
    node.ratings = [part for line in words.lines for part in _kept(line, wide)]
    node.own = max((width_mm(line, LEAST_MM, True) for line in (*node.name, *node.ratings)), default=0.0)
    for line in node.ratings:
        if line in BONDS:
            node.own = max(node.own, width_mm(line, LEAST_MM) + BOND_MM)


def _kept(line: str, wide: float) -> list[str]:
    """A line wrapped so that no number stands apart from its unit."""
    lines: list[str] = []
    for word in _BREAK.split(line):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, LEAST_MM) <= wide:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


Groups = Mapping[str, Mapping[bool, list[Part]]]


class _Growing:
    """Nodes for the parts of a spanned installation."""

    def __init__(self, installation: Installation, found: Spanned, groups: Groups) -> None:
        self.installation, self.found, self.groups = installation, found, groups
        self.nodes: dict[str, Node] = {}
        self.above: dict[str, str] = {}

    def whole(self) -> Node:
        first, *others = self.found.roots
        root = self._grow(first, None)
        for each in others:
            self._beside(root, each)
        for link in self.found.extra:
            self._across(link)
        return root

    def _grow(self, id: str, link: Link | None) -> Node:
        part = self.installation.parts[id]
        node = self.nodes[id] = Node(part, link)
        node.children = [_group(part, existing) for existing, parts in self.groups.get(id, {}).items() if parts]
        for there, way in self.found.below[id]:
            self.above[there] = id
            node.children.append(self._grow(there, way))
        if part.kind == "busbar":
            bonds = (each for each in self.installation.links if each.kind == "bond" and each.a == id)
            node.children += [Node(self.installation.parts[bond.b], bond) for bond in bonds]
        return node

    def _beside(self, root: Node, id: str) -> None:
        """A source that does not hang from the utility: beside the way to what it feeds, as many steps higher."""
        top = self._grow(id, None)
        chain = {each.part.id for each in top.walk()}
        link = next((each for each in self.found.extra if each.a in chain and each.b not in chain), None)
        held = link.b if link is not None and link.b in self.nodes else root.part.id
        steps = next((number for number, each in enumerate(top.walk(), 1) if link and each.part.id == link.a), 0)
        for _ in range(steps + 1):
            held = self.above.get(held, root.part.id)
        self.above[id] = held
        self.nodes[held].children.append(top)

    def _across(self, link: Link) -> None:
        """A link that is no branch: from above into what is reached so, else joined below both of its parts."""
        here, there = self.nodes[link.a], self.nodes[link.b]
        end = Node(here.part, link, wire=True)
        if there.part.kind in FROM_ABOVE and link.kind != "busbar" and not _leads(there, here):
            end.into = there
            there.feeds += 1
        else:
            end.into = Node(there.part, link._replace(id=f"{link.id}, end"), wire=True)
            there.children.append(end.into)
        here.children.append(end)


def _leads(start: Node, goal: Node) -> bool:
    """Whether a way leads down from one node to another, along branches and across."""
    seen: set[int] = set()
    waiting = [start]
    while waiting:
        here = waiting.pop()
        if here is goal:
            return True
        if id(here) not in seen:
            seen.add(id(here))
            waiting += here.children + ([here.into] if here.into is not None else [])
    return False


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


def _group(bus: Part, existing: bool) -> Node:
    """One breaker and one load that stand for many."""
    id = group_id(bus, existing)
    breakers, loads = Part(f"{id}/breakers", "breaker", GROUP, {}, existing), Part(id, "load", "Loads", {}, existing)
    tap, run = (
        Link(f"{id}, tap", bus.id, breakers.id, "busbar"),
        Link(f"{id}, run", breakers.id, id, "internal"),
    )
    return Node(breakers, tap, children=[Node(loads, run)])
