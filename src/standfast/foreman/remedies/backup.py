"""Ladders of the backup: circuits taken off it, switching over by hand, another unit."""

import json
from collections import Counter
from collections.abc import Iterator
from typing import Any

from standfast.design.wiring.backup import Carried, backed_up
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, parts
from standfast.foreman.remedies.change import Change, Entry, Ladder, New, Word, ladder, one
from standfast.foreman.remedies.fewer import units
from standfast.reading.positions import Path
from standfast.sheet import Check

BY_HAND = Word(("backup", "transfer"), "manual")


def fewer(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """One circuit off the backup, the smallest that will do; else the largest two, three, …

    Beyond an island switch that changes over by itself it is not enough to say so: the circuit stays where it was, or
    the switch is changed over by hand.
    """
    carried = _marked(plan)
    sets = [[each] for each in carried] + [carried[-n:] for n in range(2, len(carried))]
    adds_up = check.id == "backup.capacity"
    yield ladder((_off(plan, each) for each in sets), rising=adds_up)
    yield ladder((stay for each in sets if (stay := _stays(plan, each)) is not None), rising=adds_up)
    if plan.survey.job.backup.transfer == "automatic":
        yield ladder([Change("switch the backed-up circuits over by hand", (BY_HAND,))])
        changes = (_off(plan, each) for each in sets)
        yield ladder(
            (Change(f"{each.says}, and switch over by hand", (BY_HAND, *each.words)) for each in changes),
            rising=adds_up,
        )


def _stays(plan: JobPlan, off: list[Carried]) -> Change | None:
    """Circuits that were to be moved left in the panel where they are; None where one was never there."""
    own = {(each.panel, each.circuit.id) for each in off}
    going = [each for each in parts.circuits(plan) if (each[1].id, each[2].id) in own]
    words: list[tuple[Path, New]] = []
    added, left = Counter[Path](), Counter[Path]()
    for path, _, circuit in going:
        home = parts.panel(plan, circuit.moved_from or "")
        if home is None:
            return None
        at = (*home[0], "circuits")
        words.append(((*at, len(home[1].circuits) + added[at]), Entry(json.dumps(_as_found(plan, path)))))
        added[at] += 1
        left[path[:2]] += circuit.poles or len(circuit.spaces)
    for at, panel in parts.panels(plan):
        if left[at] and panel.state == "new" and panel.free_spaces is not None:
            words.append(((*at, "free_spaces"), panel.free_spaces + left[at]))
    words += [(path, None) for path, _, _ in reversed(going)]
    names = ", ".join(each.circuit.name or each.circuit.id for each in off)
    return one(f"leave off the backup, in the panel where it is now: {names}", *words)


def _as_found(plan: JobPlan, path: Path) -> dict[str, object]:
    """The entry of a circuit as it would stand if it were never moved."""
    panel, circuit = path[1], path[3]
    panels: Any = plan.survey.raw["panels"]
    entry = dict(panels[panel]["circuits"][circuit])
    entry.pop("moved_from")
    entry.pop("spaces", None)
    spaces = entry.pop("moved_spaces", None)
    return {**entry, **({} if spaces is None else {"spaces": spaces}), "backed_up": False}


def _marked(plan: JobPlan) -> list[Carried]:
    """The circuits that say backed_up, the smallest load first."""
    found = [each for each in backed_up(plan.survey) if each.circuit.backed_up and not each.load.missing]
    return sorted(found, key=lambda each: each.load.quantity)


def _off(plan: JobPlan, off: list[Carried]) -> Change:
    names = ", ".join(each.circuit.name or each.circuit.id for each in off)
    own = {(each.panel, each.circuit.id) for each in off}
    paths = [path for path, panel, circuit in parts.circuits(plan) if (panel.id, circuit.id) in own]
    return one(f"take off the backup: {names}", *(((*path, "backed_up"), False) for path in paths))


WAYS = (
    ("backup.parallel", (units, at_hand.other("battery"))),
    ("backup.", (fewer, at_hand.other("battery", "inverter"))),
)
"""The least change first."""
