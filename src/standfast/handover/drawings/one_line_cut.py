"""A one-line diagram on several sheets: cut at panels, each drawn on a further sheet with the device that feeds it."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import chain, combinations

from standfast.design.installation import Part
from standfast.handover.drawings.one_line_inside import is_main
from standfast.handover.drawings.one_line_told import CODES, CONTINUED
from standfast.handover.drawings.one_line_tree import TEXT_MM, Node
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.lettering import LEAST_MM, width_mm

MOST_CUTS = 3
"""Panels that one sheet leaves to others, at most."""

Grown = Callable[[float], Node]
"""Gives a tree for a width of texts."""


class _Piece:
    """What one sheet shows: all that hangs from a panel, or from the utility, without what others show."""

    def __init__(self, whole: Grown, top: str, before: str) -> None:
        self.whole, self.top, self.before = whole, top, before

    def grown(self, text_mm: float, cut: Sequence[str] = (), codes: Sequence[str] = ()) -> Node:
        """The tree of the sheet, with a mark in the place of each panel that is left to another sheet."""
        root = self.whole(text_mm)
        if self.top:
            root = after(root, self.top, self.before)
        for panel, code in zip(cut, codes, strict=True):
            without(root, panel, code)
        return root


def pieces(whole: Grown, sheet: Callable[[Grown, int], Drawing]) -> dict[str, Drawing]:
    """The sheets of a diagram, each as full as it can be.

    Args:
        whole: the tree of the whole diagram.
        sheet: draws a tree as the sheet of a number.

    Raises:
        DoesNotFit: where a piece that cannot be cut is too large for a sheet, or there are too many.
    """
    names = ["one-line", *CONTINUED]
    waiting = [_Piece(whole, "", "")]
    made: dict[str, Drawing] = {}
    while waiting:
        if len(made) + len(waiting) > len(names):
            raise DoesNotFit(f"the one-line diagram needs more than {len(names)} sheets")
        piece, number = waiting.pop(0), len(made)
        codes = [CODES[name] for name in names[number + 1 + len(waiting) :]]
        made[names[number]], cut = _fitting(piece, _numbered(sheet, number), codes)
        waiting += [_Piece(whole, panel, CODES[names[number]]) for panel in cut]
    return made


def _numbered(sheet: Callable[[Grown, int], Drawing], number: int) -> Callable[[Grown], Drawing]:
    return lambda grown: sheet(grown, number)


def _fitting(piece: _Piece, sheet: Callable[[Grown], Drawing], codes: Sequence[str]) -> tuple[Drawing, Sequence[str]]:
    """The sheet of a piece with the fewest cuts, and the panels that were cut away."""
    try:
        return sheet(piece.grown), ()
    except DoesNotFit as refusal:
        against = refusal
    panels = list(cuts(piece.grown(TEXT_MM[0])))[::-1]  # what is far from the service goes first: this sheet stays full
    for cut in chain.from_iterable(combinations(panels, number) for number in range(1, MOST_CUTS + 1)):
        if len(cut) > len(codes) or not _parts_cleanly(piece, cut, codes[: len(cut)]):
            continue
        try:
            return sheet(partial(piece.grown, cut=cut, codes=codes[: len(cut)])), cut
        except DoesNotFit:
            continue
    raise against


def cuts(root: Node) -> Iterator[str]:
    """Where a diagram can be cut: at each panel that another one feeds, or its main, nearest to the service first."""
    found: list[str] = []
    for node in root.walk():
        for child in node.children:
            if child.part.kind == "busbar" and not child.wire:
                found.append(node.part.id if is_main(node.part) else child.part.id)
    yield from (each for each in found[1:] if each != root.part.id)


def _parts_cleanly(piece: _Piece, cut: Sequence[str], codes: Sequence[str]) -> bool:
    """Whether every cut is in the tree of a piece, and no link that leads across is parted by one."""
    root = piece.grown(TEXT_MM[0], cut, codes)
    marked = {each.part.id for each in root.parts()}
    rest = [after(piece.whole(TEXT_MM[0]), panel, "") for panel in cut]
    return marked.issuperset(f"{each}{MARK}" for each in cut) and all(map(_closed, (root, *rest)))


def _closed(root: Node) -> bool:
    """Whether both ends of every link that leads across are in a tree."""
    nodes = {id(each) for each in root.walk()}
    goals = {id(each.into) for each in root.walk() if each.into is not None}
    ends = {id(each) for each in root.walk() if each.wire and each.into is None}
    feeds = sum(each.into is not None and not each.into.wire for each in root.walk())
    return goals <= nodes and ends <= goals and feeds == sum(each.feeds for each in root.parts())


def without(root: Node, panel: str, code: str) -> None:
    """Put a mark in the place of a panel: the sheet of that code shows it."""
    for node in root.walk():
        node.children = [
            _mark(each, code) if each.part.id == panel and not each.wire else each for each in node.children
        ]


def after(root: Node, panel: str, code: str) -> Node:
    """A panel with all that hangs from it, under the device that feeds it as the sheet of that code shows.

    Raises:
        LookupError: where the diagram has no such panel.
    """
    for node in root.walk():
        for child in node.children:
            if child.part.id == panel and not child.wire:
                return _wide(Node(node.part, None, node.name, [*node.ratings, f"fed as sheet {code} shows"], [child]))
    raise LookupError(f"no panel {panel} in the diagram")


MARK = "/continued"


def _mark(node: Node, code: str) -> Node:
    part = Part(f"{node.part.id}{MARK}", "load", node.part.name, {}, node.part.existing)
    return _wide(Node(part, node.link, node.name, [f"continued on sheet {code}"]))


def _wide(node: Node) -> Node:
    node.own = max(width_mm(line, LEAST_MM, True) for line in (*node.name, *node.ratings))
    return node
