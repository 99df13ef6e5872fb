"""The order of what hangs from one part, so that few lines cross.

Branches of a tree never cross each other. A link that is no branch ends in a leaf of its own, from which it is led to
where it goes: that leaf and its goal are put near each other. Each layer holds what is the same number of links away
from the top, and every line that passes a layer.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import permutations, product
from math import factorial, prod

from standfast.handover.drawings.one_line_tree import Node

TRIED = 720
"""Orders that are all tried; where there are more, the mean of the far ends decides, then exchanges of neighbours."""
SWEEPS = 6


def crossings(root: Node) -> int:
    """How many lines cross where everything stands in the order that the tree has now."""
    place = {id(node): number for number, node in enumerate(root.walk())}
    layers = _layers(root)
    rungs: dict[int, list[tuple[int, int]]] = {}
    for node in root.walk():
        for child in node.children:
            rungs.setdefault(layers[id(node)], []).append((place[id(node)], place[id(child)]))
            _straight(rungs, place[id(child)], layers[id(node)] + 1, layers[id(child)])
        if node.into is not None:
            _straight(rungs, place[id(node)], layers[id(node)], layers[id(node.into)] - 1)
            rungs.setdefault(layers[id(node.into)] - 1, []).append((place[id(node)], place[id(node.into)]))
    return sum(_crossed(each) for each in rungs.values())


def arrange(root: Node) -> int:
    """Put the branches into the order with the fewest crossings that was found; how many are left.

    All orders are tried where there are few; else the best of some sweeps, each branch beside what its links lead to.
    """
    best = crossings(root)
    forks = [node for node in root.walk() if len(node.children) > 1] if best else []
    if best and prod(factorial(len(each.children)) for each in forks) <= TRIED:
        return _all(root, forks)
    return _swept(root, forks, best) if best else 0


def _straight(rungs: dict[int, list[tuple[int, int]]], place: int, start: int, end: int) -> None:
    for layer in range(start, end):
        rungs.setdefault(layer, []).append((place, place))


def _layers(root: Node) -> dict[int, int]:
    """Layer of every node: one below the lowest of what leads to it."""
    above: dict[int, list[Node]] = {}
    for node in root.walk():
        for child in node.children:
            above.setdefault(id(child), []).append(node)
        if node.into is not None:
            above.setdefault(id(node.into), []).append(node)
    found: dict[int, int] = {}

    def layer(node: Node) -> int:
        if id(node) not in found:
            found[id(node)] = 1 + max((layer(each) for each in above.get(id(node), ())), default=-1)
        return found[id(node)]

    for node in root.walk():
        layer(node)
    return found


def _crossed(rungs: Sequence[tuple[int, int]]) -> int:
    """Pairs of lines between two layers that change sides."""
    return sum(
        (one[0] - two[0]) * (one[1] - two[1]) < 0 for number, one in enumerate(rungs) for two in rungs[number + 1 :]
    )


def _all(root: Node, forks: Sequence[Node]) -> int:
    kept: tuple[int, tuple[tuple[Node, ...], ...]] | None = None
    for orders in product(*(permutations(each.children) for each in forks)):
        _take(forks, orders)
        found = crossings(root)
        if kept is None or found < kept[0]:
            kept = found, orders
        if not found:
            break
    if kept is None:
        return 0
    _take(forks, kept[1])
    return kept[0]


def _take(forks: Sequence[Node], orders: Sequence[Sequence[Node]]) -> None:
    for fork, order in zip(forks, orders, strict=True):
        fork.children = list(order)


def _swept(root: Node, forks: Sequence[Node], best: int) -> int:
    kept = best, [tuple(each.children) for each in forks]
    for _ in range(SWEEPS):
        for fork in forks:
            _by_means(root, fork)
        _exchanged(root, forks)
        found = crossings(root)
        if found >= kept[0]:
            break
        kept = found, [tuple(each.children) for each in forks]
    _take(forks, kept[1])
    return kept[0]


def _by_means(root: Node, fork: Node) -> None:
    """Children by the mean place of what their links lead to; one without such links stays where it is."""
    place = {id(node): float(number) for number, node in enumerate(root.walk())}
    far: dict[int, list[float]] = {}
    for node in root.walk():
        if node.into is not None:
            far.setdefault(id(node), []).append(place[id(node.into)])
            far.setdefault(id(node.into), []).append(place[id(node)])
    fork.children.sort(key=lambda child: _mean(child, place, far))


def _mean(child: Node, place: Mapping[int, float], far: Mapping[int, list[float]]) -> float:
    own = {place[id(node)] for node in child.walk()}
    ends = [end for node in child.walk() for end in far.get(id(node), ()) if end not in own]
    return sum(ends) / len(ends) if ends else place[id(child)]


def _exchanged(root: Node, forks: Sequence[Node]) -> None:
    """Exchange neighbours as long as that takes a crossing away."""
    best = crossings(root)
    better = True
    while better and best:
        better = False
        for fork, number in _neighbours(forks):
            row = fork.children
            row[number], row[number + 1] = row[number + 1], row[number]
            found = crossings(root)
            if found < best:
                best, better = found, True
            else:
                row[number], row[number + 1] = row[number + 1], row[number]


def _neighbours(forks: Sequence[Node]) -> Iterator[tuple[Node, int]]:
    for fork in forks:
        for number in range(len(fork.children) - 1):
            yield fork, number
