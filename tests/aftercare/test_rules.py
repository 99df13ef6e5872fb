"""The rules that a removal is held against: kept by the plan, and broken where the plan is turned round."""

from collections.abc import Callable, Sequence

import pytest
from demo_jobs import DEMOS, Removed

from standfast import shelf
from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.removal import Removal
from standfast.aftercare.rules import Rule, rules
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.plan import Plan

Plans = Callable[[str], Plan]
SAFETY = shelf.edition("nfpa70e", "undated")


def turned(made: Removal, then: str) -> Removal:
    """A removal in which what comes then waits for nothing."""
    steps = [each._replace(after=() if each.id == then else each.after) for each in made.steps]
    acts = acts_of(steps)
    return made._replace(steps=tuple(steps), decided=made.decided._replace(acts=acts))


def of(found: Sequence[Rule], first: str, then: str) -> list[str]:
    return [each.verdict for each in found if (each.first, each.then) == (first, then)]


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("name", DEMOS)
def test_every_removal_keeps_every_rule(
    plan_of: Plans, removed: Removed, name: str, condition: Condition
) -> None:  # fmt: skip
    made = removed(name, condition)
    found = rules(plan_of(name), made, SAFETY)
    assert not [each for each in found if each.verdict == "broken"]
    kept = [each for each in found if each.verdict == "kept"]
    assert len(kept) >= 5 and all(each.before and each.after for each in kept)
    left = {each.first for each in found if each.verdict == "left to a person"}
    assert {"block what moves", "ground where it applies"} <= left


def test_a_braced_stack_is_held_against_the_trade(plan_of: Plans, removed: Removed) -> None:
    found = rules(plan_of("stack_outdoors"), removed("stack_outdoors", "sound"), None)
    assert [each.verdict for each in found] == ["kept"] * 5
    assert all("common practice" in each.book for each in found)
    assert rules(plan_of("terrace"), removed("terrace", "sound"), None) == []


def test_each_rule_of_the_stack_is_broken_where_the_plan_is_turned_round(plan_of: Plans, removed: Removed) -> None:
    made, plan = removed("stack_outdoors", "sound"), plan_of("stack_outdoors")
    for each in rules(plan, made, None):
        other = turned(made, each.after[0])
        assert of(rules(plan, other, None), each.first, each.then) == ["broken"], each


def test_the_sequence_of_isolation_is_broken_where_a_switch_is_opened_after_it_is_seen(
    plan_of: Plans, removed: Removed
) -> None:  # fmt: skip
    made, plan = removed("one_wall", "sound"), plan_of("one_wall")
    other = turned(made, "off.seen")
    assert "broken" in of(rules(plan, other, SAFETY), "open", "see that it is open")
