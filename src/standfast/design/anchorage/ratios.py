"""A demand over what holds it, in every combination of loads, and the check of the worst."""

from collections.abc import Callable

from standfast.design.anchorage.task import Task
from standfast.sheet import Check, Clause, Value, at_most, chosen, settle, work, worst
from standfast.sheet.printed import amount
from standfast.shelf import Edition

Ratios = Callable[[], list[Value]]
"""Makes the demand over the resistance of every combination."""
Ask = Callable[[str, str, Clause, Ratios], Check]


def ratio(name: str, demand: Value, holds: Value, clause: Clause) -> Value:
    """Part of a resistance that is used in a combination."""
    return work(f"r_{name}", "S / R", "1", clause, S=demand, R=holds)


def governing(ratios: list[Value], clause: Clause) -> Value:
    """The greatest ratio, with its working alone; the other combinations stand beside it as numbers.

    One that is not known leaves the whole unknown, unless another is over the whole already.
    """
    known = [ratio for ratio in ratios if not ratio.missing]
    most = max(known, key=lambda ratio: ratio.quantity, default=None)
    if most is None or (len(known) < len(ratios) and most.quantity <= 1):
        return worst("r", ratios, "max", clause)
    others = ", ".join(f"{ratio.symbol} {amount(ratio)}" for ratio in ratios if ratio is not most)
    return chosen("r", most.quantity, "1", f"{most.symbol} is the greatest; {others}", clause, most)


def asker(task: Task, book: Edition) -> Ask:
    """Makes the check of a mode: the worst combination must not use more than the whole of what holds."""

    def ask(rule: str, title: str, clause: Clause, ratios: Ratios) -> Check:
        def judged() -> Check:
            used = governing(ratios(), clause)
            return at_most(task.id(rule), title, clause, used, book.number("ratio_full"))

        return settle(task.id(rule), title, clause, judged)

    return ask
