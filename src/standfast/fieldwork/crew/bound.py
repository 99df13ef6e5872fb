"""Minutes below which no schedule of the work can go."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.tasks import Work


class Bound(NamedTuple):
    """The least minutes, and what asks for them: ``path``, ``people``, ``electricians`` or ``apart``."""

    minutes: int
    why: str


class _Shared(NamedTuple):
    """Minutes of work that each task asks of one group, and how many are in the group."""

    why: str
    load: Sequence[int]
    among: int


def bound(work: Work) -> Bound:
    """The greatest of what asks for time.

    The longest path of tasks and waits takes its time whoever works. Tasks that all begin after one time and all have
    at least another time behind them share the people between. The same holds for those that may do electrical work,
    and for tasks so large that no two of them fit beside each other. When a task can begin at the earliest is asked in
    the same way: what it waits for shares the people too; and so is what comes behind it.
    """
    places = range(len(work))
    minutes = [task.minutes for task in work.tasks]
    groups = _groups(work, minutes)
    heads = _ends(work, groups, work.line, work.before, lambda before, _: work.tasks[before].wait)
    tails = _ends(work, groups, work.line[::-1], work.behind, lambda _, here: work.tasks[here].wait)
    for place in places:
        if not work.behind[place]:
            tails[place] = max(tails[place], work.tasks[place].wait)
    path = max((work.heads[each] + minutes[each] + work.tails[each] for each in places), default=0)
    found = [Bound(path, "path")]
    found += [Bound(_most(group, heads, tails), group.why) for group in groups]
    found += [Bound(max((heads[each] + minutes[each] + tails[each] for each in places), default=0), groups[0].why)]
    return max(found, key=lambda each: each.minutes)


def _groups(work: Work, minutes: Sequence[int]) -> list[_Shared]:
    size, places = work.crew.size, range(len(work))
    trained = [max(work.trained[each], work.need[each] - work.crew.others) for each in places]
    found = [
        _Shared("people", [minutes[each] * work.need[each] for each in places], size),
        _Shared("electricians", [minutes[each] * trained[each] for each in places], work.crew.electricians),
        _Shared("apart", [minutes[each] if 2 * work.need[each] > size else 0 for each in places], 1),
    ]
    return [each for each in found if each.among]


def _ends(
    work: Work,
    groups: Sequence[_Shared],
    line: Sequence[int],
    near: Sequence[Sequence[int]],
    wait: Callable[[int, int], int],
) -> list[int]:
    """Least minutes on one side of each task: by the longest path, and by how all that lies there shares the people.

    Args:
        work: the tasks.
        groups: what is shared.
        line: the tasks, those on that side first.
        near: the next ones on that side of each.
        wait: minutes between a next one and a task.
    """
    found, far = [0] * len(work), [set[int]() for _ in work.tasks]
    for place in line:
        for each in near[place]:
            far[place] |= far[each] | {each}
            found[place] = max(found[place], found[each] + work.tasks[each].minutes + wait(each, place))
        by_end = sorted(far[place], key=lambda one: -found[one])
        for group in groups:
            total = 0
            for each in by_end:
                total += group.load[each]
                found[place] = max(found[place], found[each] - (-total // group.among))
    return found


def _most(group: _Shared, heads: Sequence[int], tails: Sequence[int]) -> int:
    """The least time of tasks that share a group: over all pairs of a head and a tail, those that have both."""
    busy = [each for each in range(len(heads)) if group.load[each]]
    by_tail = sorted(busy, key=lambda one: -tails[one])
    best = 0
    for head in {heads[each] for each in busy}:
        total = 0
        for place in by_tail:
            if heads[place] >= head:
                total += group.load[place]
                best = max(best, head - (-total // group.among) + tails[place])
    return best
