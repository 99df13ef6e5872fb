"""Laws of the removal: every order of it reaches the goal, and more precedence never makes it unsafe."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.aftercare.goal import Reached, reached
from standfast.aftercare.removal import Removal
from standfast.fieldwork.order.decide import unsafe
from standfast.fieldwork.order.from_steps import acts_of
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


@settings(max_examples=60)
@given(data=st.data())
def test_every_order_of_a_removal_reaches_the_goal(removals: list[Removal], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(removals))
    left, done, order = {each.id: set(each.after) for each in made.steps}, set[str](), list[str]()
    while left:
        ready = sorted(id for id, after in left.items() if after <= done)
        id = data.draw(st.sampled_from(ready))
        order.append(id)
        done.add(id)
        del left[id]
    assert reached(made, order) == Reached((), (), (), ())


@settings(max_examples=60)
@given(data=st.data())
def test_more_precedence_makes_no_removal_unsafe(removals: list[Removal], data: st.DataObject) -> None:
    made = data.draw(st.sampled_from(removals))
    steps, ids = list(made.steps), [each.id for each in made.steps]
    for _ in range(data.draw(st.integers(1, 8))):
        later = data.draw(st.integers(1, len(ids) - 1))
        first = data.draw(st.integers(0, later - 1))
        steps[later] = steps[later]._replace(after=(*steps[later].after, ids[first]))
    assert unsafe(made.decided.house.site, acts_of(steps)) == []
