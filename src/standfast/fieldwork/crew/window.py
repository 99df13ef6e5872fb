"""Keeps the house short without power: the day is not made longer for it than was agreed.

What need not wait for the first switch is done before it, what need not be done before power is back is done after it,
and the first switch is opened as late as the day allows. Each begin of it that could matter is tried: one at which
another task before it ends.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.board import Placed, backward, by_end, forward, span
from standfast.fieldwork.crew.bound import bound
from standfast.fieldwork.crew.solve import in_turn
from standfast.fieldwork.crew.tasks import Task, Work

TRIED = 24
"""Begins of the first switch that are tried."""

Cost = Callable[[Placed], tuple[int, ...]]


class Kept(NamedTuple):
    """The schedule, and the least time between the first switch and power."""

    placed: Placed
    least: int


def kept_short(work: Work, known: Placed, cost: Cost, spans: Sequence[tuple[str, str]], longest: int) -> Kept:
    """Of the schedules that end in time, one in which the house is shortest without power.

    Args:
        work: the tasks.
        known: the shortest schedule.
        cost: what a schedule costs the house; the least of what was tried is taken.
        spans: the tasks that begin and end a time without power.
        longest: minutes that the day may take.
    """
    number = {task.id: place for place, task in enumerate(work.tasks)}
    pairs = [(number[by], number[back]) for by, back in spans if back]
    best, best_cost = known, (*cost(known), span(work, known))
    if not pairs:
        return Kept(best, 0)
    opens, back = min((one for one, _ in pairs), key=lambda one: known.starts[one]), {last for _, last in pairs}
    order = _order(work, opens, back)
    for begin in _begins(work, known, order, opens, longest):
        placed = forward(work, order, {opens: begin})
        if span(work, placed) <= longest and (*cost(placed), span(work, placed)) < best_cost:
            best, best_cost = placed, (*cost(placed), span(work, placed))
    return Kept(best, max(least_between(work, one, last) for one, last in pairs))


def least_between(work: Work, opens: int, back: int) -> int:
    """Minutes below which nothing can bring the time from one task's begin to another's end: the bound of those two and
    of everything that has to be done between them."""
    after, before = _reach(work, opens, work.behind), _reach(work, back, work.before)
    between = (after & before) | {opens, back}
    inside = [_inside(work.tasks[place], {work.tasks[each].id for each in between}) for place in sorted(between)]
    last = work.tasks[back]
    return bound(Work([task._replace(wait=0) if task.id == last.id else task for task in inside], work.crew)).minutes


def _inside(task: Task, ids: set[str]) -> Task:
    return task._replace(after=tuple(id for id in task.after if id in ids))


def _order(work: Work, opens: int, back: set[int]) -> list[int]:
    """First what the first switch waits for, then what lies between it and power, then everything else."""
    first = _reach(work, opens, work.before) | {opens}
    between = set[int]().union(*(_reach(work, each, work.before) | {each} for each in back)) - first
    part = [0 if place in first else 1 if place in between else 2 for place in range(len(work))]
    late = [-(work.tails[place] + work.tasks[place].minutes) for place in range(len(work))]
    return in_turn(work, [(part[place], late[place]) for place in range(len(work))])


def _begins(work: Work, known: Placed, order: list[int], opens: int, longest: int) -> list[int]:
    """Begins of the first switch: the earliest, the latest that the day allows, and ends of other tasks between."""
    late = backward(work, by_end(work, known), longest)
    soon = forward(work, order)
    ends = {start + work.tasks[place].minutes for one in (known, soon, late) for place, start in enumerate(one.starts)}
    first, last = soon.starts[opens], max(late.starts[opens], known.starts[opens])
    found = sorted({first, last, *(each for each in ends if first <= each <= last)}, reverse=True)
    step = max(1, -(-len(found) // TRIED))
    return found[::step]


def _reach(work: Work, start: int, ways: Mapping[int, Sequence[int]] | Sequence[Sequence[int]]) -> set[int]:
    """Every task that is met from one on, itself left out."""
    found, waiting = set[int](), list(ways[start])
    while waiting:
        place = waiting.pop()
        if place not in found:
            found.add(place)
            waiting += ways[place]
    return found
