"""Branches never cross; links across a tree cross as little as the best of all orders, where these can be counted."""

from itertools import permutations, product
from random import Random

import pytest

from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.graph import PartKind
from standfast.handover.drawings import one_line_order
from standfast.handover.drawings.one_line_order import arrange, crossings
from standfast.handover.drawings.one_line_tree import Node, Words, tree

KINDS: tuple[PartKind, ...] = ("disconnect", "transfer equipment", "busbar")


def random_house(seed: int, parts: int, across: int) -> Installation:
    """A tree of switches under a utility, with links across it."""
    random = Random(seed)
    made = [Part("utility", "utility", "Utility", {}, True)]
    links = []
    for number in range(1, parts):
        kind = random.choice(KINDS)
        above = made[random.randrange(max(0, number - 4), number)]
        made.append(Part(f"p{number}", kind, f"Part {number}", {}, True))
        links.append(Link(f"l{number}", above.id, f"p{number}", "conductor"))
    for number in range(across):
        one, two = sorted(random.sample(range(1, parts), 2))
        links.append(Link(f"x{number}", f"p{one}", f"p{two}", "conductor"))
    return Installation(made, links)


def grown(installation: Installation) -> Node:
    return tree(installation, lambda part: Words(part.name, ()))


def fewest(root: Node) -> int:
    """The fewest crossings of all orders of all forks."""
    forks = [node for node in root.walk() if len(node.children) > 1]
    best = None
    for orders in product(*(list(permutations(each.children)) for each in forks)):
        for fork, order in zip(forks, orders, strict=True):
            fork.children = list(order)
        found = crossings(root)
        best = found if best is None else min(best, found)
    return best or 0


@pytest.mark.parametrize("seed", range(20))
def test_a_tree_has_no_crossing_in_whatever_order(seed: int) -> None:
    root = grown(random_house(seed, 14, 0))
    for node in root.walk():
        Random(seed).shuffle(node.children)
    assert crossings(root) == 0
    assert arrange(root) == 0


@pytest.mark.parametrize("seed", range(30))
def test_small_diagrams_cross_no_more_than_the_best_of_all_orders(seed: int) -> None:
    house = random_house(seed, 6, 2)
    assert arrange(grown(house)) == fewest(grown(house))


def test_sweeps_alone_find_the_best_order_nearly_always(monkeypatch: pytest.MonkeyPatch) -> None:
    best = [fewest(grown(random_house(seed, 6, 2))) for seed in range(60)]
    before = [crossings(grown(random_house(seed, 6, 2))) for seed in range(60)]
    monkeypatch.setattr(one_line_order, "TRIED", 0)
    swept = [arrange(grown(random_house(seed, 6, 2))) for seed in range(60)]
    assert all(least <= found <= first for least, found, first in zip(best, swept, before, strict=True))
    assert sum(before) > sum(best)  # there was something to find
    assert sum(least == found for least, found in zip(best, swept, strict=True)) >= 57


@pytest.mark.parametrize("seed", range(10))
def test_every_link_is_drawn_once_whatever_it_joins(seed: int) -> None:
    house = random_house(seed, 12, 4)
    root = grown(house)
    drawn = [node.link.id for node in root.walk() if node.link is not None and not node.link.id.endswith(", end")]
    assert sorted(drawn) == sorted(link.id for link in house.links)
    assert {node.part.id for node in root.parts()} == set(house.parts)
