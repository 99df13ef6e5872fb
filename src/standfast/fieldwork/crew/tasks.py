"""Tasks and the people who do them: what a schedule is made from. Knows no house, no data sheet and no rule.

Two kinds of people: those who may do electrical work on their own, and the others. A task takes some of them from its
begin to its end, all at once. After it a wait may pass, in which nobody is held, before what follows may begin.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import BadFormula


class Task(NamedTuple):
    """One step, as far as time and people go.

    Attributes:
        id: unique.
        minutes: of work; 0 where only time passes.
        after: ids of tasks that are done, and waited for, before.
        people: how many it takes. What the crew lacks for it comes for this task alone.
        electrical: true where one of them must be allowed to do electrical work.
        wait: minutes that pass after it.
        everybody: true where each of the crew takes part: each person has a lock of their own.
    """

    id: str
    minutes: int
    after: tuple[str, ...] = ()
    people: int = 1
    electrical: bool = False
    wait: int = 0
    everybody: bool = False


class Crew(NamedTuple):
    """How many may do electrical work, and how many others there are."""

    electricians: int
    others: int = 0

    @property
    def size(self) -> int:
        """All of them."""
        return self.electricians + self.others


class Work:
    """The tasks of a job for one crew, by their places, with what lies before and behind each.

    Attributes:
        tasks: as given.
        crew: the people.
        before, behind: for each task the places of those that it waits for, and that wait for it.
        need: people of the crew that it takes.
        trained: 1 where one of them must be allowed to do electrical work, else 0.
        mixes: who can do it: how many who may do electrical work and how many others.
        line: an order in which everything that a task waits for comes first.
        rank: its place in that order.
        heads: minutes that must have passed when it begins, however many people there are.
        tails: minutes from its end to the end of the day, its own wait included.
        sparing: true where who may do electrical work is kept for it, even if another task then waits for somebody.

    Raises:
        BadFormula: where two tasks have one id, one waits for what is no task, tasks wait for each other, a time is
            negative, nobody is there, or electrical work finds nobody who may do it.
    """

    def __init__(self, tasks: Sequence[Task], crew: Crew, *, sparing: bool = False) -> None:
        self.tasks, self.crew, self.sparing = tuple(tasks), crew, sparing
        number = {task.id: place for place, task in enumerate(self.tasks)}
        self._refuse(number)
        self.before = [sorted({number[id] for id in task.after}) for task in self.tasks]
        self.behind: list[list[int]] = [[] for _ in self.tasks]
        for place, waits in enumerate(self.before):
            for each in waits:
                self.behind[each].append(place)
        self.need = [self._people(task) for task in self.tasks]
        self.trained = [int(task.electrical and task.minutes > 0) for task in self.tasks]
        self.mixes = [self._mixes(place) for place in range(len(self.tasks))]
        self.line = self._in_line()
        self.rank = [0] * len(self.tasks)
        for turn, place in enumerate(self.line):
            self.rank[place] = turn
        self.heads, self.tails = [0] * len(self.tasks), [0] * len(self.tasks)
        for place in self.line:
            ends = (self.heads[each] + self.spell(each) for each in self.before[place])
            self.heads[place] = max(ends, default=0)
        for place in reversed(self.line):
            rest = (self.tasks[each].minutes + self.tails[each] for each in self.behind[place])
            self.tails[place] = self.tasks[place].wait + max(rest, default=0)

    def __len__(self) -> int:
        return len(self.tasks)

    def spell(self, place: int) -> int:
        """Minutes of a task with its wait."""
        return self.tasks[place].minutes + self.tasks[place].wait

    def _mixes(self, place: int) -> list[tuple[int, int]]:
        """How many of each kind can do a task, the fewest who may do electrical work first."""
        need, crew = self.need[place], self.crew
        least = max(self.trained[place], need - crew.others)
        most = least if self.sparing else min(need, crew.electricians)
        return [(first, need - first) for first in range(least, most + 1)]

    def _people(self, task: Task) -> int:
        if not task.minutes:
            return 0
        return self.crew.size if task.everybody else min(task.people, self.crew.size)

    def _refuse(self, number: dict[str, int]) -> None:
        if len(number) != len(self.tasks):
            raise BadFormula("two tasks have one id")
        if self.crew.electricians < 0 or self.crew.others < 0 or self.crew.size < 1:
            raise BadFormula("nobody is there to do the work")
        for task in self.tasks:
            missing = next((id for id in task.after if id not in number), None)
            if missing is not None:
                raise BadFormula(f"task {task.id} waits for {missing}, which is no task")
            if task.minutes < 0 or task.wait < 0 or (task.minutes and task.people < 1):
                raise BadFormula(f"task {task.id} takes a negative time, or nobody does it")
            if task.minutes and task.electrical and not self.crew.electricians:
                raise BadFormula(f"task {task.id} is electrical work, and nobody of the crew may do that")

    def _in_line(self) -> list[int]:
        left = [len(waits) for waits in self.before]
        line = [place for place, count in enumerate(left) if not count]
        for place in line:
            for each in self.behind[place]:
                left[each] -= 1
                if not left[each]:
                    line.append(each)
        if len(line) < len(self.tasks):
            stuck = ", ".join(self.tasks[place].id for place, count in enumerate(left) if count)
            raise BadFormula(f"these tasks wait for each other: {stuck}")
        return line
