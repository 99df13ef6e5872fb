"""What the steps of a data sheet say of themselves: which bring power, take covers off, drill, or need no conductor."""

from standfast.equipment.model import Sheet
from standfast.equipment.put_up import drills as drills
from standfast.equipment.task import Step


def live_steps(sheet: Sheet) -> set[str]:
    """Steps that put power on something, and every step that comes after one of them."""
    plugged = set(plugs_live(sheet))
    return _and_later(sheet, {step.id for step in sheet.steps if _switches_on(step)} | plugged)


def plugs_live(sheet: Sheet) -> list[str]:
    """Steps that plug modules together, from which on the unit's own terminals are live.

    They are not where their step asks that a switch stays open and that switch is inside the unit, before its
    terminals. Where the sheet does not say that a switch is inside, none is counted on.
    """
    sensors = {each.name for each in sheet.sensors}
    inside = sheet.electrical is not None and sheet.electrical.disconnect_inside is True
    return [
        step.id
        for step in sheet.steps
        if step.does is not None and step.does.change == "plug in" and step.does.to not in sensors
        and not (inside and any(state.endswith(" open") for state in step.states))
    ]  # fmt: skip


def bare_steps(sheet: Sheet) -> set[str]:
    """Steps from the one that makes the unit's terminals live up to the first that switches something on."""
    return _and_later(sheet, set(plugs_live(sheet))) - _and_later(
        sheet, {step.id for step in sheet.steps if _switches_on(step)}
    )


def _switches_on(step: Step) -> bool:
    """True where a step lets power on: it closes a switch, or takes off the lock that keeps it open."""
    return step.indication is not None or (step.does is not None and step.does.change in ("close", "unlock"))


def _and_later(sheet: Sheet, first: set[str]) -> set[str]:
    """Steps, and every step that comes after one of them."""
    found, grown = set(first), True
    while grown:
        more = {step.id for step in sheet.steps if step.id not in found and found & set(step.after)}
        found |= more
        grown = bool(more)
    return found


def hung_first(sheet: Sheet) -> list[str]:
    """Steps of a data sheet that wait for no conductor: they are done before a raceway can reach the device."""
    terminals = {terminal.id for terminal in sheet.terminals}
    wired = {step.id for step in sheet.steps if connects(step, terminals)}
    late = _and_later(sheet, live_steps(sheet) | wired | covers_off(sheet))
    return [step.id for step in sheet.steps if step.id not in late]


def covers_off(sheet: Sheet) -> set[str]:
    """Steps that take a cover off for the wiring: nothing is drilled, lifted or fitted behind them."""
    found = set[str]()
    for step in sheet.steps:
        if step.does is not None and step.does.change == "remove cover":
            later = _and_later(sheet, {step.id})
            placed = any(
                drills(each) or (each.parts and not _fits_cover(each)) for each in sheet.steps if each.id in later
            )
            found |= set() if placed else {step.id}
    return found


def proofs(sheet: Sheet) -> set[str]:
    """Steps that prove terminals dead."""
    return {step.id for step in sheet.steps if step.does is not None and step.does.change == "prove dead"}


def locks(sheet: Sheet) -> set[str]:
    """Steps that lock a switch inside before conductors are joined: before anything is switched on or plugged live."""
    late = _and_later(sheet, live_steps(sheet))
    changes = {step.id: step.does.change for step in sheet.steps if step.does is not None}
    return {id for id, change in changes.items() if change == "lock" and id not in late}


def _fits_cover(step: Step) -> bool:
    return step.does is not None and step.does.change == "fit cover"


def lands_shutdown(sheet: Sheet) -> set[str]:
    """Steps that land the cable of the emergency shutdown with the other signals, as the name of the terminal says."""
    return {step.id for step in sheet.steps if step.joint in shutdown_terminals(sheet)}


def shutdown_terminals(sheet: Sheet) -> set[str]:
    """The terminals of the emergency shutdown, as their name says."""
    return {each.id for each in sheet.terminals if each.use == "signal" and "shutdown" in (each.name or "").lower()}


def connects(step: Step, terminals: set[str]) -> bool:
    """True where hands reach to conductors: the step touches a zone, tightens a terminal or asks for a dead state."""
    return bool(step.touches) or step.joint in terminals or any("dead" in state for state in step.states)


def closing(steps: list[Step]) -> set[str]:
    """Steps that fit a cover which an earlier step took off."""
    by_id = {step.id: step for step in steps}
    return {
        step.id for step in steps if step.does is not None and step.does.change == "fit cover" and opening(by_id, step)
    }


def opening(by_id: dict[str, Step], step: Step) -> set[str]:
    """Steps before a step that take off the cover which it fits."""
    before, queue = set[str](), list(step.after)
    while queue:
        id = queue.pop()
        if id in by_id and id not in before:
            before.add(id)
            queue += by_id[id].after
    to = step.does.to if step.does is not None else None
    changes = {id: by_id[id].does for id in before}
    return {id for id, does in changes.items() if does is not None and (does.change, does.to) == ("remove cover", to)}


def wired_behind(sheet: Sheet) -> dict[str, list[str]]:
    """Steps that fit a cover again which was off for the wiring, each with those that took it off."""
    by_id, live = {step.id: step for step in sheet.steps}, live_steps(sheet)
    found = {id: sorted(opening(by_id, by_id[id])) for id in sorted(closing(list(sheet.steps)))}
    return {id: opened for id, opened in found.items() if live.isdisjoint(opened)}
