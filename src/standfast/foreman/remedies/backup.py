"""Ladders of the backup: circuits taken off it, switching over by hand, another unit."""

from collections.abc import Iterator

from standfast.design.wiring.backup import Carried, backed_up
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, parts
from standfast.foreman.remedies.change import Change, Ladder, Word, ladder, one
from standfast.sheet import Check

BY_HAND = Word(("backup", "transfer"), "manual")


def fewer(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """One circuit off the backup, the smallest that will do; else the largest two, three, …"""
    carried = _marked(plan)
    sets = [[each] for each in carried] + [carried[-n:] for n in range(2, len(carried))]
    adds_up = check.id == "backup.capacity"
    yield ladder((_off(plan, each) for each in sets), rising=adds_up)
    if plan.survey.job.backup.transfer == "automatic":
        yield ladder([Change("switch the backed-up circuits over by hand", (BY_HAND,))])
        changes = (_off(plan, each) for each in sets)
        yield ladder(
            (Change(f"{each.says}, and switch over by hand", (BY_HAND, *each.words)) for each in changes),
            rising=adds_up,
        )


def _marked(plan: JobPlan) -> list[Carried]:
    """The circuits that say backed_up, the smallest load first."""
    found = [each for each in backed_up(plan.survey) if each.circuit.backed_up and not each.load.missing]
    return sorted(found, key=lambda each: each.load.quantity)


def _off(plan: JobPlan, off: list[Carried]) -> Change:
    names = ", ".join(each.circuit.name or each.circuit.id for each in off)
    own = {(each.panel, each.circuit.id) for each in off}
    paths = [path for path, panel, circuit in parts.circuits(plan) if (panel.id, circuit.id) in own]
    return one(f"take off the backup: {names}", *(((*path, "backed_up"), False) for path in paths))


WAYS = (("backup.", (fewer, at_hand.other("battery"))),)
"""The least change first."""
