"""Laws of removal and service: every order reaches the goal, and more precedence never makes it unsafe."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.aftercare.goal import Reached, reached
from standfast.aftercare.removal import Removal
from standfast.aftercare.service import Service, possible, service
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.steps import WorkStep
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.foreman.removals import planned

NAMES = ("one_wall", "stack_outdoors", "cabinet")


@pytest.fixture(scope="module")
def removals(tmp_path_factory: pytest.TempPathFactory) -> list[Removal]:
    found = []
    for name in NAMES:
        folder: Path = tmp_path_factory.mktemp("job") / name
        job = make_plan(write_demo(name, folder), runner_up=False)
        made = planned(job, sitework(job))
        found += [made["sound"], made["damaged"]]
    return found


@pytest.fixture(scope="module")
def services(tmp_path_factory: pytest.TempPathFactory) -> list[Service]:
    found = []
    for name in (*NAMES, "detached_pair"):
        folder: Path = tmp_path_factory.mktemp("job") / name
        plan = sitework(make_plan(write_demo(name, folder), runner_up=False))
        found += [service(plan, what, unit) for what, unit in possible(plan)]
    return found


def drawn(steps: Sequence[WorkStep], data: st.DataObject) -> list[str]:
    """Some order that the steps allow."""
    left, done, order = {each.id: set(each.after) for each in steps}, set[str](), list[str]()
    while left:
        id = data.draw(st.sampled_from(sorted(id for id, after in left.items() if after <= done)))
        order.append(id)
        done.add(id)
        del left[id]
    return order


@settings(max_examples=60)
@given(data=st.data())
def test_every_order_of_a_service_leaves_all_as_before(services: list[Service], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(services))
    steps, site = {each.id: each for each in made.steps}, made.decided.house.site
    state, off = {gate.id: (gate.closed, gate.locked) for gate in site.gates}, set[str]()
    for id in drawn(made.steps, data):
        for turn in steps[id].turns:
            closed, locked = state[turn.gate]
            closed = {"open": False, "close": True}.get(turn.change, closed)
            state[turn.gate] = (closed, {"lock": True, "unlock": False}.get(turn.change, locked))
        off = (off | {steps[id].takes_off}) - {steps[id].puts_on, ""}
    assert set(state.values()) == {(True, False)} and not off - site.temporary


@settings(max_examples=60)
@given(data=st.data())
def test_more_precedence_makes_no_service_unsafe(services: list[Service], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(services))
    assert proven(made.decided.house.site, acts_of(tightened(made.steps, data))) == []


def tightened(steps: Sequence[WorkStep], data: st.DataObject) -> list[WorkStep]:
    """The steps with some more waits."""
    found, ids = list(steps), [each.id for each in steps]
    for _ in range(data.draw(st.integers(1, 8))):
        later = data.draw(st.integers(1, len(ids) - 1))
        first = data.draw(st.integers(0, later - 1))
        found[later] = found[later]._replace(after=(*found[later].after, ids[first]))
    return found


@settings(max_examples=60)
@given(data=st.data())
def test_every_order_of_a_removal_reaches_the_goal(removals: list[Removal], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(removals))
    assert reached(made, drawn(made.steps, data)) == Reached((), (), (), ())


@settings(max_examples=60)
@given(data=st.data())
def test_more_precedence_makes_no_removal_unsafe(removals: list[Removal], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(removals))
    assert proven(made.decided.house.site, acts_of(tightened(made.steps, data))) == []
