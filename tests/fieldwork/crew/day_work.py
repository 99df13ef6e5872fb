"""Random work for a crew, a checker that knows nothing of how schedules are made, and a solver of another kind."""

from collections.abc import Sequence
from random import Random

from standfast.fieldwork.crew.solve import Schedule
from standfast.fieldwork.crew.tasks import Crew, Task


def random_tasks(seed: int, count: int, width: int = 3) -> list[Task]:
    """Tasks with waits, lifts for two, electrical work and steps of everybody."""
    chance = Random(seed)
    found = list[Task]()
    for number in range(count):
        earlier = [task.id for task in found[-2 * width :]]
        after = chance.sample(earlier, min(len(earlier), chance.choice((0, 1, 1, 2))))
        kind = chance.random()
        found.append(
            Task(
                f"t{number}", 0 if kind < 0.05 else chance.randint(1, 12), tuple(after),
                people=2 if kind > 0.85 else 1, electrical=chance.random() < 0.5,
                wait=chance.randint(1, 9) if chance.random() < 0.2 else 0, everybody=0.8 < kind < 0.85,
            )
        )  # fmt: skip
    return found


def flaws(tasks: Sequence[Task], crew: Crew, made: Schedule) -> list[str]:
    """What is wrong with a schedule, looked at minute by minute and person by person."""
    found, by_id = list[str](), {task.id: task for task in tasks}
    if set(made.slots) != set(by_id):
        found.append("other tasks than were asked for")
    for id, slot in made.slots.items():
        task = by_id[id]
        if slot.start < 0 or slot.end - slot.start != task.minutes or slot.free - slot.end != task.wait:
            found.append(f"{id} takes another time")
        for before in task.after:
            if made.slots[before].free > slot.start:
                found.append(f"{id} begins before {before} is done and waited for")
        whole = crew.electricians + crew.others
        due = 0 if not task.minutes else whole if task.everybody else min(task.people, whole)
        if len(set(slot.people)) != due or not all(0 <= who < whole for who in slot.people):
            found.append(f"{id} is done by {slot.people}")
        if task.minutes and task.electrical and not any(who < crew.electricians for who in slot.people):
            found.append(f"{id} is electrical work and done by nobody who may do it")
    for minute in range(made.minutes):
        busy = [who for slot in made.slots.values() if slot.start <= minute < slot.end for who in slot.people]
        if len(busy) != len(set(busy)):
            found.append(f"somebody does two things in minute {minute}")
    if made.minutes != max((slot.free for slot in made.slots.values()), default=0):
        found.append("the day ends at another time")
    return found


def least_minutes(tasks: Sequence[Task], crew: Crew, seconds: float = 20.0) -> tuple[int, bool]:
    """The shortest day by a solver of constraints, each person by themselves; and whether it is proven."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    horizon = sum(task.minutes + task.wait for task in tasks)
    whole = crew.electricians + crew.others
    starts = {task.id: model.new_int_var(0, horizon, task.id) for task in tasks}
    end = model.new_int_var(0, horizon, "end")
    of_person: list[list[cp_model.IntervalVar]] = [[] for _ in range(whole)]
    for task in tasks:
        model.add(end >= starts[task.id] + task.minutes + task.wait)
        for before in task.after:
            other = next(each for each in tasks if each.id == before)
            model.add(starts[task.id] >= starts[before] + other.minutes + other.wait)
        if not task.minutes:
            continue
        takes = [model.new_bool_var(f"{task.id} {who}") for who in range(whole)]
        model.add(sum(takes) == (whole if task.everybody else min(task.people, whole)))
        if task.electrical:
            model.add(sum(takes[: crew.electricians]) >= 1)
        for who, take in enumerate(takes):
            of_person[who].append(
                model.new_optional_fixed_size_interval_var(starts[task.id], task.minutes, take, f"{task.id} by {who}")
            )
    for intervals in of_person:
        model.add_no_overlap(intervals)
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.max_time_in_seconds = 1, seconds
    status = solver.solve(model)
    return int(solver.objective_value), status == cp_model.OPTIMAL
