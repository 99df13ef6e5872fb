"""The decision for every order against the orders walked one by one, and small jobs that a fitter would know."""

import os
import random

import pytest
from walk import walk

from standfast.faults import BadFormula
from standfast.fieldwork.order.acts import Act, Acts, Change, Gate, Site
from standfast.fieldwork.order.decide import Unsafe, unsafe

SEEDS = range(10_000 if "STANDFAST_CASES" in os.environ else 1_000)
"""Random small jobs."""


def random_job(seed: int) -> tuple[Site, Acts]:
    """A few zones, gates, sources and covers, and acts on them in a random precedence."""
    draw = random.Random(seed)
    zones = [f"z{n}" for n in range(draw.randint(2, 4))]
    gates = []
    for n in range(draw.randint(1, 4)):
        a, b = draw.sample(zones, 2)
        closed, locks = draw.random() < 0.6, draw.random() < 0.5
        gates.append(Gate(f"g{n}", a, b, closed, locks, not closed and locks and draw.random() < 0.5))
    sources = {f"s{n}": draw.choice(zones) for n in range(draw.randint(1, 2))}
    charged = frozenset(zone for zone in zones if draw.random() < 0.3)
    covers = frozenset(cover for cover in ("c0", "c1") if draw.random() < 0.7)
    ends = {f"{zone}{end}": zone for zone in zones for end in "ab"}
    site = Site(tuple(gates), sources, charged, covers, ends)
    zones += [*ends] * (draw.random() < 0.5)
    chains: dict[str, str] = {}
    acts: list[Act] = []
    for n in range(draw.randint(3, 7)):
        after = {each.id for each in acts if draw.random() < 0.3}
        act = Act(f"a{n}")
        kind = draw.choice(["gate", "gate", "touch", "touch", "proof", "wait", "cover"])
        if kind == "gate":
            gate, change = draw.choice(gates).id, draw.choice(CHANGES)
            after |= {chains[gate]} if gate in chains else set()
            act, chains[gate] = act._replace(gate=gate, change=change), act.id
        elif kind == "cover":
            cover, off = draw.choice(["c0", "c1"]), draw.random() < 0.5
            after |= {chains[cover]} if cover in chains else set()
            act, chains[cover] = act._replace(uncovers=cover if off else "", covers="" if off else cover), act.id
        elif kind == "touch":
            some = tuple(draw.sample(zones, draw.randint(1, 2)))
            act = act._replace(
                touches=some,
                reaches=("c0",) if draw.random() < 0.3 else (),
                shut=("c1",) if draw.random() < 0.3 else (),
            )
        else:
            some = tuple(draw.sample(zones, draw.randint(1, len(zones))))
            act = act._replace(proves=some) if kind == "proof" else act._replace(waits=some)
        acts.append(act._replace(after=tuple(sorted(after))))
    return site, Acts(acts)


CHANGES: tuple[Change, ...] = ("open", "close", "lock", "unlock")


def said(found: list[Unsafe]) -> set[tuple[str, str]]:
    """Act and zone or cover, without what is wrong at the end."""
    return {(each.act, each.what) for each in found if each.act}


@pytest.mark.parametrize("block", range(10))
def test_the_decision_is_that_of_walking_every_order(block: int) -> None:
    for seed in SEEDS[block::10]:
        site, acts = random_job(seed)
        found = unsafe(site, acts)
        broken, _ = walk(site, acts)
        assert said(found) == {(act, what) for act, what, _ in broken}, seed
        assert {(each.act, each.what) for each in found if each.why == "live"} == {
            (act, what) for act, what, live in broken if live
        }, seed


@pytest.mark.parametrize("seed", range(0, 1000, 7))
def test_the_order_that_is_told_can_be_done_and_shows_it(seed: int) -> None:
    site, acts = random_job(seed)
    for each in unsafe(site, acts):
        done = 0
        for id in each.order[:-1]:
            place = acts.number[id]
            assert not acts.before[place] & ~done
            done |= 1 << place
        alone = Acts([act for act in acts.all if act.id in each.order])
        by_others = each.act == "" or each.why == "not proved dead"  # what can feed it may come later
        assert by_others or (each.act, each.what) in {(act, what) for act, what, _ in walk(site, alone)[0]}


def test_what_waits_in_a_ring_is_told_as_the_ring() -> None:
    with pytest.raises(BadFormula, match="a ← b ← a"):
        Acts([Act("a", ("b",)), Act("b", ("a",))])


def test_two_changes_of_one_switch_have_an_order() -> None:
    with pytest.raises(BadFormula, match="both change main"):
        Acts([Act("a", gate="main", change="open"), Act("b", gate="main", change="close")])
