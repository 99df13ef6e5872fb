"""The shortest schedule, proven, where the work is small enough: every choice that could be shorter is tried.

Tasks are placed in the order of their begins. At each step the next is any task whose predecessors are placed, by any
mix of people, as early as it goes. One is left out where another could be done completely before it begins; of two that
begin at one time, the order that comes first counts for both; and a branch ends where its tasks cannot all end sooner
than the best that is known.
"""

from typing import NamedTuple

from standfast.fieldwork.crew.board import Board, Placed, span
from standfast.fieldwork.crew.tasks import Work


class Shortest(NamedTuple):
    """The best schedule that was found, and whether none can be shorter."""

    placed: Placed
    proven: bool


class _Node(NamedTuple):
    """What is placed: board, begins, mixes, the last begin, the last task, and the minutes of work that are left."""

    board: Board
    starts: dict[int, int]
    mixes: dict[int, tuple[int, int]]
    since: int
    last: int
    left: int


def shortest(work: Work, known: Placed, least: int, nodes: int) -> Shortest:
    """Look for a schedule that is shorter than a known one.

    Args:
        work: the tasks.
        known: a schedule.
        least: minutes below which none can go: one that is as short ends the search.
        nodes: how many partial schedules are looked at before the search is given up.
    """
    best, best_span = known, span(work, known)
    room = best_span + max((work.spell(place) for place in range(len(work))), default=0) + 1
    total = sum(work.tasks[place].minutes * work.need[place] for place in range(len(work)))
    stack = [_Node(Board(work.crew, room), {}, {}, 0, -1, total)]
    while stack and best_span > least:
        if nodes == 0:
            return Shortest(best, False)
        nodes -= 1
        node = stack.pop()
        if len(node.starts) == len(work):
            whole = range(len(work))
            placed = Placed(tuple(node.starts[each] for each in whole), tuple(node.mixes[each] for each in whole))
            if span(work, placed) < best_span:
                best, best_span = placed, span(work, placed)
            continue
        stack += reversed(_next(work, node, best_span))
    return Shortest(best, True)


def _next(work: Work, node: _Node, best_span: int) -> list[_Node]:
    """The partial schedules with one more task that may still be shorter than the best, the most hopeful first."""
    found = list[tuple[int, int, tuple[int, int]]]()
    done_first = best_span
    for place in _ready(work, node):
        minutes = work.tasks[place].minutes
        ends = (node.starts[each] + work.spell(each) for each in work.before[place])
        least = max(node.since, max(ends, default=0))
        mixes = work.mixes[place] if minutes else [(0, 0)]
        begins = [(node.board.first(least, minutes, mix) if minutes else least, mix) for mix in mixes]
        first = min(start for start, _ in begins)
        if first + minutes + work.tails[place] >= best_span:
            return []  # this task has to be placed some time, and now is the earliest
        done_first = min(done_first, first + minutes)
        found += [(start, place, mix) for start, mix in begins]
    children = [
        (start, -work.tails[place] - work.tasks[place].minutes, place, mix)
        for start, place, mix in found
        if (start < done_first or start + work.tasks[place].minutes == done_first)
        and start + work.tasks[place].minutes + work.tails[place] < best_span
        and not _twin(work, node, start, place)
    ]
    made = [_child(work, node, start, place, mix) for start, _, place, mix in sorted(children)]
    return [each for each in made if _hopeful(work, each, best_span)]


def _ready(work: Work, node: _Node) -> list[int]:
    return [
        place for place in range(len(work))
        if place not in node.starts and all(each in node.starts for each in work.before[place])
    ]  # fmt: skip


def _twin(work: Work, node: _Node, start: int, place: int) -> bool:
    """True where the same schedule is found with this task placed before the last one.

    A last one that takes no time had to come first: everything else at its minute was left out in its favour.
    """
    return (
        start == node.since
        and place < node.last
        and node.last not in work.before[place]
        and work.tasks[node.last].minutes > 0
    )


def _child(work: Work, node: _Node, start: int, place: int, mix: tuple[int, int]) -> _Node:
    board, minutes = node.board.copy(), work.tasks[place].minutes
    if minutes:
        board.take(start, minutes, mix)
    starts, mixes = {**node.starts, place: start}, {**node.mixes, place: mix}
    return _Node(board, starts, mixes, start, place, node.left - minutes * work.need[place])


def _hopeful(work: Work, node: _Node, best_span: int) -> bool:
    """False where the people cannot do what is left, and what they have begun, sooner than the best that is known."""
    begun = sum(
        (start + work.tasks[place].minutes - node.since) * work.need[place]
        for place, start in node.starts.items()
        if start + work.tasks[place].minutes > node.since
    )
    tail = min((work.tails[place] for place in range(len(work)) if place not in node.starts), default=0)
    held = begun + node.left
    return node.since - (-held // work.crew.size) + (0 if begun else tail) < best_span or node.left == 0
