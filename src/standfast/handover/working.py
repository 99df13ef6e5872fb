"""The working of checks, each line once: what a later check uses again is cited by its number.

A line is numbered where it first stands. A later check repeats the result and the number, not the working behind it.
"""

from standfast.paper.document import breakable
from standfast.sheet import Check, Value
from standfast.sheet.printed import amount, ground, line
from standfast.terms import SEEN_WORDS


class Working:
    """The numbered lines of one set of paper."""

    def __init__(self) -> None:
        self._numbers: dict[int, int] = {}
        self._sorts: dict[tuple[object, ...], int] = {}
        self._known: dict[int, tuple[Value, int]] = {}

    def of(self, check: Check) -> tuple[list[tuple[str, str, str]], str]:
        """New lines of a check: number, working, ground; and the results that stood before, with their numbers."""
        lines: list[tuple[str, str, str]] = []
        cited: dict[int, str] = {}
        for side in (check.demand, check.limit):
            if side is not None:
                self._walk(side, lines, cited)
        return lines, "; ".join(f"{text} ({number})" for number, text in cited.items())

    def _walk(self, value: Value, lines: list[tuple[str, str, str]], cited: dict[int, str]) -> None:
        """Inputs before what uses them; an explicit stack, since a trail may be deep."""
        self._sort(value)
        stack: list[tuple[Value, bool]] = [(value, False)]
        fresh = {number for number, _, _ in lines}
        while stack:
            each, ready = stack.pop()
            sort = self._known[id(each)][1]
            number = self._numbers.get(sort)
            if ready and number is None:
                number = self._numbers[sort] = len(self._numbers) + 1
                lines.append((str(number), breakable(line(each)), breakable(short_ground(each))))
                fresh.add(str(number))
            elif number is not None and str(number) not in fresh:
                cited.setdefault(number, f"{each.symbol} = {amount(each)}")
            elif number is None:
                stack.append((each, True))
                stack.extend((one, False) for one in reversed(each.inputs))

    def _sort(self, value: Value) -> None:
        """Give each value of a trail one number, the same for all that print the same from the same inputs."""
        for each in value.trail():
            if id(each) not in self._known:
                inputs = tuple(self._known[id(one)][1] for one in each.inputs)
                facts = (each.symbol, str(each.number), each.unit, each.kind, each.how, each.clause, each.names, inputs)
                self._known[id(each)] = (each, self._sorts.setdefault(facts, len(self._sorts)))


def short_ground(value: Value) -> str:
    """The ground of a number with the word for where it was read; the legend of the sheet spells it out."""
    text = ground(value)
    return text if value.seen is None else text.replace(SEEN_WORDS[value.seen], f"[{value.seen}]")
