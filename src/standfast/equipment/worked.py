"""Faults in the steps of a data sheet: what they change, reach and prove is there, in an order, and is shut again."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from standfast.equipment.contradicted import contradicted
from standfast.equipment.linked import linked
from standfast.equipment.model import Sheet
from standfast.equipment.put_up import put_up
from standfast.equipment.task import Step
from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.complaints import nearest

TURNED = ("open", "close", "lock", "unlock", "plug in", "unplug")
"""Changes of a switch or connector."""
ORDERED = (*TURNED, "remove cover", "fit cover", "put in", "take out")
"""Changes of one thing that need an order among themselves."""
OWN = {"battery unit": "battery breaker", "inverter": "inverter breaker"}
"""What the sheet of a device calls the breaker of its circuit, which is no part of it."""


def worked(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Faults of the steps of a battery unit or inverter."""
    content = sheet.content
    if content.kind not in OWN:
        return
    yield from _sides(sheet)
    sensors, loose = {each.name for each in content.sensors}, {each.name for each in content.temporary}
    gates = {gate.name for gate in content.gates} | {OWN[content.kind]}
    zones = {zone.name for zone in content.zones}
    for number, step in enumerate(content.steps):
        at = ("steps", number)
        for place, name in enumerate(step.touches):
            if name not in zones:
                yield _unknown(sheet, (*at, "touches", place), "terminals", name, zones, "[[zones]]")
        if step.does is None:
            continue
        change, to = step.does.change, step.does.to
        known = gates | sensors if change in ("plug in", "unplug") else gates
        if change in TURNED and to not in known:
            yield _unknown(sheet, (*at, "does"), "switch or connector", to, known, "[[gates]]")
        if change in ("put in", "take out") and to not in loose | sensors:
            yield _unknown(sheet, (*at, "does"), "temporary part", to, loose | sensors, "[[temporary]]")
        if change in ("prove dead", "wait") and to is not None and to not in zones:
            yield _unknown(sheet, (*at, "does"), "terminals", to, zones, "[[zones]]")
    yield from _unordered(sheet)
    yield from _left_off(sheet)
    yield from _guards_nothing(sheet)
    yield from contradicted(sheet)
    yield from linked(sheet)
    if content.steps:
        yield from _left_open(sheet)
        yield from _too_short(sheet)
        yield from put_up(sheet, before_each(content.steps))


def _unknown(
    sheet: Document[Sheet], path: tuple[str | int, ...], what: str, name: str | None, known: set[str], table: str
) -> Fault:  # fmt: skip
    found = f'there are no {what} "{name}"' if what == "terminals" else f'there is no {what} "{name}"'
    advice = nearest(name, sorted(known)) if known and name is not None else f"add it under {table}"
    return sheet.fault(path, found, "the order of the work is proven on what the sheet names", advice)


def _sides(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Sides that the device does not have."""
    content = sheet.content
    have = {"ac", "dc"}
    if content.kind == "battery unit":
        have = {"cells", "ac" if content.dc is None else "dc"}
    have |= {"pv"} if content.pv_inputs else set()
    for number, zone in enumerate(content.zones):
        for place, side in enumerate(zone.sides):
            if side not in have:
                yield _no_side(sheet, ("zones", number, "sides", place), side, have)
    for number, gate in enumerate(content.gates):
        if gate.side not in have:
            yield _no_side(sheet, ("gates", number, "side"), gate.side, have)


def _no_side(sheet: Document[Sheet], path: tuple[str | int, ...], side: str, have: set[str]) -> Fault:
    return sheet.fault(path, f'this device has no side "{side}"', "", f"use one of {', '.join(sorted(have))}")


def _unordered(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Two steps that change one switch, connector or cover, and nothing says which is first."""
    before = before_each(sheet.content.steps)
    for what, steps in _changes(sheet.content.steps).items():
        for first, second in combinations(steps, 2):
            one, other = sheet.content.steps[first].id, sheet.content.steps[second].id
            if one not in before[other] and other not in before[one]:
                told = f'steps "{one}" and "{other}" both change "{what}", and nothing says which is first'
                yield sheet.fault(("steps", second, "after"), told, "", f'add "{one}" to after, or the other way')


def _left_off(sheet: Document[Sheet]) -> Iterator[Fault]:
    """A cover that is taken off and never fitted again."""
    steps = sheet.content.steps
    for what, places in _changes(steps).items():
        kinds = [_change(steps[place]) for place in places]
        if "remove cover" in kinds and kinds.count("fit cover") < kinds.count("remove cover"):
            place = next(place for place in places if _change(steps[place]) == "remove cover")
            told = f'"{what}" is taken off and never fitted again'
            yield sheet.fault(("steps", place, "does"), told, "", 'add a step with change = "fit cover"')


def _guards_nothing(sheet: Document[Sheet]) -> Iterator[Fault]:
    """A cover that steps take off and no zone is under: hands could reach behind it in any order."""
    known = {zone.under for zone in sheet.content.zones if zone.under is not None}
    for number, step in enumerate(sheet.content.steps):
        to = "" if step.does is None else step.does.to or ""
        if _change(step) == "remove cover" and to not in known:
            told, why = f'no zone is under "{to}"', "no step would have to wait until it is off"
            yield sheet.fault(("steps", number, "does"), told, why, f'write under = "{to}" in the zone behind it')


def _left_open(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Switches and connectors that the steps never close, close while they are locked, or unlock though nobody locked
    them; the breaker of the device's own circuit too: the unit would never run."""
    content = sheet.content
    before, changes = before_each(content.steps), _changes(content.steps)
    for number, gate in enumerate(content.gates):
        closed, locked, at = gate.delivered == "closed", False, ("gates", number, "name")
        for place in sorted(changes.get(gate.name, ()), key=lambda one: len(before[content.steps[one].id])):
            change, where = _change(content.steps[place]), ("steps", place, "does")
            if change in ("close", "plug in") and locked:
                yield sheet.fault(
                    where, f'"{gate.name}" is closed while it is locked', "", "add a step that unlocks it"
                )
            if change in ("close", "plug in") and closed:
                told = f'"{gate.name}" is closed already where step "{content.steps[place].id}" closes it'
                yield sheet.fault(where, told, "", "see what delivered says, and which step opens it before")
            if change == "unlock" and not locked:
                yield sheet.fault(where, f'"{gate.name}" is unlocked, and no step locks it', "", "add a step that does")
            closed = {"close": True, "plug in": True, "open": False, "unplug": False}.get(change, closed)
            locked = {"lock": True, "unlock": False}.get(change, locked)
        if not closed:
            yield sheet.fault(at, f'no step leaves "{gate.name}" closed', "the unit would never run", "add that step")
    own = OWN[content.kind]
    fed = content.kind == "inverter" or content.dc is None
    if fed and not any(_change(content.steps[place]) == "close" for place in changes.get(own, ())):
        why, advice = "the unit would never run", f'add a step with does = {{ change = "close", to = "{own}" }}'
        yield sheet.fault(("steps",), f'no step closes the "{own}"', why, advice)


def _too_short(sheet: Document[Sheet]) -> Iterator[Fault]:
    """A wait that is shorter than the label asks."""
    port = sheet.content.dc
    least = None if port is None else port.discharge_time
    for place, step in enumerate(sheet.content.steps if least is not None else ()):
        if step.does is None or step.does.change != "wait" or least is None:
            continue
        if step.does.time is None or step.does.time.number < least.number:
            told = f'step "{step.id}" waits less than the {least.text} of dc.discharge_time'
            yield sheet.fault(("steps", place, "does"), told, "it is still charged", f'write time = "{least.text}"')


def _changes(steps: Sequence[Step]) -> dict[str, list[int]]:
    """The steps that change each switch, connector or cover, by their places."""
    found: dict[str, list[int]] = {}
    for place, step in enumerate(steps):
        if step.does is not None and step.does.to and _change(step) in ORDERED:
            found.setdefault(step.does.to, []).append(place)
    return found


def _change(step: Step) -> str:
    return "" if step.does is None else step.does.change


def before_each(steps: Sequence[Step]) -> dict[str, set[str]]:
    """Of each step every one that is before it; in a ring, which is a fault of its own, each is before each."""
    found = {step.id: set(step.after) for step in steps}
    grown = True
    while grown:
        grown = False
        for before in found.values():
            more = set[str]().union(*(found.get(each, set()) for each in before)) - before
            before |= more
            grown = grown or bool(more)
    return found
