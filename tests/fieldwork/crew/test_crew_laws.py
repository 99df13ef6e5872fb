"""Laws of a crew's day: never below its bound, never shorter with fewer people or with more to do."""

from day_work import flaws
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.fieldwork.crew.bound import bound
from standfast.fieldwork.crew.solve import schedule
from standfast.fieldwork.crew.tasks import Crew, Task, Work

crews = st.builds(Crew, st.integers(1, 2), st.integers(0, 2))


@st.composite
def works(draw: st.DrawFn, most: int = 8) -> list[Task]:
    """Tasks, each after some of those before it."""
    found = list[Task]()
    for number in range(draw(st.integers(1, most))):
        after = draw(st.sets(st.sampled_from([task.id for task in found]), max_size=2)) if found else set[str]()
        found.append(
            Task(
                f"t{number}", draw(st.integers(0, 9)), tuple(sorted(after)), draw(st.integers(1, 3)),
                draw(st.booleans()), draw(st.sampled_from((0, 0, 0, 5))), draw(st.sampled_from((False, False, True))),
            )
        )  # fmt: skip
    return found


@settings(max_examples=120)
@given(works(12), crews)
def test_a_schedule_keeps_every_rule_and_its_bound(tasks: list[Task], crew: Crew) -> None:
    made = schedule(tasks, crew)
    assert flaws(tasks, crew, made) == []
    assert made.minutes >= made.least >= bound(Work(tasks, crew)).minutes


@settings(max_examples=80)
@given(works(), crews, st.booleans())
def test_fewer_people_are_never_faster(tasks: list[Task], crew: Crew, helper: bool) -> None:
    more = crew._replace(others=crew.others + 1) if helper else crew._replace(electricians=crew.electricians + 1)
    few, many = schedule(tasks, crew, 100_000), schedule(tasks, more, 100_000)
    assert few.proven and many.proven
    assert many.minutes <= few.minutes


@settings(max_examples=80)
@given(works(), crews, st.data())
def test_one_more_step_never_makes_the_day_shorter(tasks: list[Task], crew: Crew, data: st.DataObject) -> None:
    less = data.draw(st.sampled_from(tasks))
    followers = {task.id for task in tasks if less.id in task.after}
    without = [
        task._replace(after=tuple(dict.fromkeys((*(id for id in task.after if id != less.id), *less.after))))
        if task.id in followers else task
        for task in tasks if task.id != less.id
    ]  # fmt: skip
    one, other = schedule(tasks, crew, 100_000), schedule(without, crew, 100_000)
    assert one.proven and other.proven
    assert other.minutes <= one.minutes
    assert bound(Work(without, crew)).minutes <= bound(Work(tasks, crew)).minutes


@settings(max_examples=60)
@given(works(), crews, st.data(), st.integers(1, 9))
def test_a_longer_wait_never_makes_the_day_shorter(
    tasks: list[Task], crew: Crew, data: st.DataObject, more: int
) -> None:  # fmt: skip
    place = data.draw(st.integers(0, len(tasks) - 1))
    longer = [task._replace(wait=task.wait + more) if at == place else task for at, task in enumerate(tasks)]
    one, other = schedule(tasks, crew, 100_000), schedule(longer, crew, 100_000)
    assert one.proven and other.proven
    assert one.minutes <= other.minutes
