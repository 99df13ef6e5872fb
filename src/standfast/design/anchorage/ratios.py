"""A demand over what holds it, in every combination of loads, and the check of the worst."""

from collections.abc import Callable

from standfast.design.anchorage.task import Task
from standfast.sheet import Check, Clause, Value, at_most, chosen, settle, work, worst
from standfast.sheet.printed import amount
from standfast.shelf import Edition

Ratios = Callable[[], list[Value]]
"""Makes the demand over the resistance of every combination."""
Ask = Callable[[str, str, Clause, Ratios], Check]
IN_WORDS = {
    "r_permanent": "the weight alone",
    "r_quake_out": "an earthquake away from the wall",
    "r_quake_along": "an earthquake along the wall",
    "r_quake_light": "an earthquake along the wall that lifts at the same time",
    "r_wind_out": "the wind off the wall",
    "r_wind_along": "the wind along the wall",
}
"""What a combination of loads is to a fitter."""


def ratio(name: str, demand: Value, holds: Value, clause: Clause) -> Value:
    """Part of a resistance that is used in a combination.

    Weight that the load itself takes away holds nothing: a hundred times too little then, and never less than nothing
    of it, which would read as held.
    """
    gone = not holds.missing and holds.quantity <= 0
    return work(f"r_{name}", "S / max(R, S / 100)" if gone else "S / R", "1", clause, S=demand, R=holds)


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


def told(check: Check, why: str) -> Check:
    """A failing check with what is wrong and the way out; any other as it is."""
    return check._replace(reason=why) if check.verdict == "fail" else check


def overloaded(used: Value, way_out: str) -> str:
    """How much more is asked than there is, by which load, and the way out."""
    most = used.inputs[0] if used.kind == "chosen" and used.inputs else used
    return f"{IN_WORDS.get(most.symbol, 'the load')} asks {100 * used.quantity:.0f} % of what holds: {way_out}"


def within(id: str, title: str, used: Value, book: Edition, clause: Clause, way_out: str) -> Check:
    """The check that no more than the whole of what holds is used; a failing one says by which load, and what to do."""
    check = at_most(id, title, clause, used, book.number("ratio_full"))
    return told(check, overloaded(used, way_out)) if check.verdict == "fail" else check


def asker(task: Task, book: Edition, way_out: str) -> Ask:
    """Makes the check of a mode: the worst combination must not use more than the whole of what holds."""

    def ask(rule: str, title: str, clause: Clause, ratios: Ratios) -> Check:
        def judged() -> Check:
            return within(task.id(rule), title, governing(ratios(), clause), book, clause, way_out)

        return settle(task.id(rule), title, clause, judged)

    return ask
