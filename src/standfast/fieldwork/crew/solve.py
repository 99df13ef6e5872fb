"""The schedule of a crew: as short as it is found, with the least that it could be.

Several rules of which task goes first give a schedule each; each is pushed to the end of the day and back to its begin
as long as that makes it shorter, and single tasks are moved; all that once with everybody at hand, and once with those
who may do electrical work kept for it. Where the shortest is longer than the bound and the tasks
are few, the exact search goes on from it for a while. No chance and no clock: the same work gives the same schedule.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.board import Placed, backward, by_end, by_start, forward, span
from standfast.fieldwork.crew.bound import Bound, bound
from standfast.fieldwork.crew.exact import shortest
from standfast.fieldwork.crew.tasks import Crew, Task, Work

NODES = 2_000
"""Partial schedules that the exact search looks at."""
SMALL = 25
"""Tasks up to which it has a chance."""
MOVES = 60
"""Moves of one task to another turn that are tried."""


class Slot(NamedTuple):
    """When a task is done, minutes from arrival, when its wait is over, and by whom: numbers of people, those first who
    may do electrical work; 0 is the first."""

    start: int
    end: int
    free: int
    people: tuple[int, ...]


class Schedule(NamedTuple):
    """A schedule.

    Attributes:
        slots: by id of the task.
        minutes: from arrival to the end of the last task and its wait.
        least: minutes below which none can go.
        why: what asks for the least: ``path``, ``people``, ``electricians``, ``apart``, or ``search`` where every
            other schedule was looked at.
    """

    slots: dict[str, Slot]
    minutes: int
    least: int
    why: str

    @property
    def proven(self) -> bool:
        """True where no schedule is shorter."""
        return self.minutes == self.least


def schedule(tasks: Sequence[Task], crew: Crew, nodes: int = NODES) -> Schedule:
    """A short schedule of tasks for a crew.

    Args:
        tasks: the tasks.
        crew: the people.
        nodes: how many partial schedules the exact search looks at.

    Raises:
        BadFormula: as `Work`.
    """
    work = Work(tasks, crew)
    placed, least = short(work, nodes)
    return told(work, placed, least)


def short(work: Work, nodes: int = NODES) -> tuple[Placed, Bound]:
    """The shortest schedule that was found, and the bound."""
    least = bound(work)
    ways = [work, Work(work.tasks, work.crew, sparing=True)] if work.crew.others else [work]
    known = min((_improved(way, least.minutes) for way in ways), key=lambda one: span(work, one))
    if span(work, known) == least.minutes:
        return known, least
    found = shortest(work, known, least.minutes, nodes if len(work) <= SMALL else 0)
    minutes = span(work, found.placed)
    return found.placed, Bound(minutes, "search") if found.proven and minutes > least.minutes else least


def _improved(work: Work, least: int) -> Placed:
    """The best of what the rules give, pushed and moved."""
    best: Placed | None = None
    for order in _orders(work):
        for placed in _pushed(work, order):
            if best is None or span(work, placed) < span(work, best):
                best = placed
        if best is not None and span(work, best) == least:
            return best
    return _moved(work, forward(work, work.line) if best is None else best, least)


def told(work: Work, placed: Placed, least: Bound) -> Schedule:
    """A schedule with its people by number: whoever is free first, in the order of the begins."""
    hands = {0: range(work.crew.electricians), 1: range(work.crew.electricians, work.crew.size)}
    free_at = [0] * work.crew.size
    slots = dict[str, Slot]()
    for place in by_start(work, placed):
        task, start = work.tasks[place], placed.starts[place]
        chosen = list[int]()
        for kind, count in enumerate(placed.mixes[place]):
            chosen += [who for who in hands[kind] if free_at[who] <= start][:count]
        for who in chosen:
            free_at[who] = start + task.minutes
        slots[task.id] = Slot(start, start + task.minutes, start + work.spell(place), tuple(chosen))
    return Schedule(slots, span(work, placed), least.minutes, least.why)


def _orders(work: Work) -> Iterator[list[int]]:
    """Orders that respect precedence, each by another rule of what goes first among what is ready."""
    followers = _followers(work)
    last = [-(work.tails[place] + work.tasks[place].minutes) for place in range(len(work))]
    yield in_turn(work, [(each, 0) for each in last])
    yield in_turn(work, [(-work.need[place], last[place]) for place in range(len(work))])
    yield in_turn(work, [(-followers[place], last[place]) for place in range(len(work))])
    yield in_turn(work, [(-work.trained[place], last[place]) for place in range(len(work))])
    yield in_turn(work, [(work.heads[place], work.rank[place]) for place in range(len(work))])


def in_turn(work: Work, rule: Sequence[tuple[int, int]]) -> list[int]:
    """The tasks in an order that respects precedence: of those that are ready, the one with the least rule first."""
    left, order = [len(waits) for waits in work.before], list[int]()
    ready = [place for place in range(len(work)) if not left[place]]
    while ready:
        place = min(ready, key=lambda one: (rule[one], one))
        ready.remove(place)
        order.append(place)
        for each in work.behind[place]:
            left[each] -= 1
            if not left[each]:
                ready.append(each)
    return order


def _pushed(work: Work, order: list[int]) -> Iterator[Placed]:
    """A schedule, and what it becomes pushed to the end of the day and back, as long as that makes it shorter."""
    placed = forward(work, order)
    while True:
        yield placed
        late = backward(work, by_end(work, placed), span(work, placed))
        better = forward(work, by_start(work, late))
        if span(work, better) >= span(work, placed):
            return
        placed = better


def _moved(work: Work, known: Placed, least: int) -> Placed:
    """What a schedule becomes where single tasks get their turn as early as precedence lets them, one move after the
    other, each kept where it makes the day shorter or leaves it as long."""
    best, order, tried = known, by_start(work, known), 0
    for place in sorted(range(len(work)), key=lambda one: -(work.tails[one] + work.tasks[one].minutes)):
        turn = order.index(place)
        first = max((order.index(each) for each in work.before[place]), default=-1) + 1
        for new in sorted({first, (first + turn) // 2} - {turn}):
            if tried == MOVES or span(work, best) == least:
                return best
            tried += 1
            moved = [*order[:new], place, *order[new:turn], *order[turn + 1 :]]
            placed = forward(work, moved)
            late = backward(work, by_end(work, placed), span(work, placed))
            placed = min(placed, forward(work, by_start(work, late)), key=lambda each: span(work, each))
            if span(work, placed) <= span(work, best):
                best, order = placed, by_start(work, placed)
                break
    return best


def _followers(work: Work) -> list[int]:
    """How many tasks wait for each, directly or through others."""
    sets = [0] * len(work)
    for place in reversed(work.line):
        for each in work.behind[place]:
            sets[place] |= sets[each] | 1 << each
    return [each.bit_count() for each in sets]
