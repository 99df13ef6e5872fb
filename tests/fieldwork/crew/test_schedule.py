"""Schedules of random work: looked at person by person, and compared with a solver of another kind."""

import pytest
from day_work import flaws, least_minutes, random_tasks

from standfast.faults import BadFormula
from standfast.fieldwork.crew.solve import Schedule, schedule
from standfast.fieldwork.crew.tasks import Crew, Task

CREWS = (Crew(1), Crew(1, 1), Crew(2), Crew(2, 1))


@pytest.mark.parametrize("crew", CREWS, ids=str)
def test_small_work_is_as_short_as_another_solver_finds_it(crew: Crew) -> None:
    for seed in range(25):
        tasks = random_tasks(seed, 9)
        made = schedule(tasks, crew)
        assert flaws(tasks, crew, made) == []
        assert (made.minutes, True) == least_minutes(tasks, crew), seed
        assert made.proven


def test_larger_work_keeps_every_rule_and_comes_near_the_shortest() -> None:
    for seed in range(6):
        tasks, crew = random_tasks(100 + seed, 30), CREWS[seed % 4]
        made = schedule(tasks, crew)
        assert flaws(tasks, crew, made) == []
        least, proven = least_minutes(tasks, crew, 4.0)
        assert made.least <= least
        assert made.minutes <= 1.08 * least, seed
        assert not proven or made.minutes >= least


def test_the_checker_finds_what_is_wrong() -> None:
    tasks = [Task("a", 5, electrical=True, wait=3), Task("b", 4, ("a",)), Task("c", 4, people=2)]
    crew = Crew(1, 1)
    made = schedule(tasks, crew)
    assert flaws(tasks, crew, made) == []
    a, b, c = (made.slots[id] for id in "abc")
    soon = b._replace(start=a.end, end=a.end + 4, free=a.end + 4)
    for wrong, part in (
        ({"b": soon}, "begins before"),
        ({"a": a._replace(people=(1,))}, "may do it"),
        ({"c": c._replace(people=(0,))}, "is done by"),
        ({"b": b._replace(start=b.start - 1)}, "another time"),
        ({"c": c._replace(start=a.start, end=a.start + 4, free=a.start + 4)}, "two things"),
    ):
        found = flaws(tasks, crew, made._replace(slots=made.slots | wrong))
        assert any(part in each for each in found), (part, found)


def test_nobody_is_held_by_a_wait() -> None:
    """An adhesive cures for an hour; the one person works on meanwhile."""
    tasks = [Task("set", 10, wait=60), Task("load", 10, ("set",)), Task("other", 60)]
    made = schedule(tasks, Crew(1))
    assert (made.minutes, made.least, made.proven) == (80, 80, True)
    assert made.slots["other"].start == 10


def test_a_lift_for_two_waits_until_both_are_free() -> None:
    tasks = [Task("long", 30), Task("short", 10), Task("lift", 5, people=2)]
    assert schedule(tasks, Crew(1, 1)).minutes == 35
    alone = schedule(tasks, Crew(1))
    assert (alone.minutes, alone.slots["lift"].people) == (45, (0,))


def test_electrical_work_is_left_to_those_who_may_do_it() -> None:
    tasks = [Task("a", 10, electrical=True), Task("b", 10, electrical=True), Task("c", 10)]
    assert schedule(tasks, Crew(1, 1)).minutes == 20
    assert schedule(tasks, Crew(2)).minutes == 20
    assert schedule(tasks, Crew(2, 1)).minutes == 10
    assert schedule(tasks, Crew(1, 1)).slots["c"].people == (1,)


@pytest.mark.parametrize(
    ("tasks", "crew", "told"),
    [
        ([Task("a", 1), Task("a", 1)], Crew(1), "one id"),
        ([Task("a", 1, ("b",))], Crew(1), "waits for b"),
        ([Task("a", 1, ("b",)), Task("b", 1, ("a",))], Crew(1), "wait for each other: a, b"),
        ([Task("a", 1)], Crew(0), "nobody"),
        ([Task("a", 1, electrical=True)], Crew(0, 2), "nobody of the crew may"),
        ([Task("a", -1)], Crew(1), "negative"),
        ([Task("a", 1, people=0)], Crew(1), "nobody does it"),
    ],
)
def test_what_cannot_be_planned_is_refused(tasks: list[Task], crew: Crew, told: str) -> None:
    with pytest.raises(BadFormula, match=told):
        schedule(tasks, crew)


def test_no_work_takes_no_time() -> None:
    assert schedule([], Crew(1)) == Schedule({}, 0, 0, "path")


def test_the_same_work_gives_the_same_schedule() -> None:
    tasks = random_tasks(7, 20)
    assert schedule(tasks, Crew(1, 1)) == schedule(tasks, Crew(1, 1))
