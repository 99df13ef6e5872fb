"""Faults of a data sheet whose words contradict each other about terminals, switches, sensors and temporary parts."""

from collections.abc import Iterator

from standfast.equipment.inside import Sensor, Side
from standfast.equipment.model import Sheet
from standfast.faults import Fault
from standfast.reading import Document

SIDES: dict[str, Side] = {"ac line": "ac", "ac neutral": "ac", "dc": "dc", "pv": "pv"}
"""The side that a terminal of each use belongs to."""


def contradicted(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Faults between tables of the sheet of a battery unit or inverter that has steps."""
    if not sheet.content.steps:
        return
    yield from _no_zone(sheet)
    yield from _no_switch(sheet)
    for number, sensor in enumerate(sheet.content.sensors):
        yield from _sensor(sheet, number, sensor)
    yield from _left_in(sheet)


def endangers(sensor: Sensor) -> bool:
    """True where an open secondary may make a dangerous voltage: where nobody knows that it limits it, it may."""
    return sensor.output == "current" and sensor.shorted != "inside"


def _no_zone(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Terminals on a side that no zone has: nothing would ask that they are dead."""
    have = {side for zone in sheet.content.zones for side in zone.sides}
    for number, terminal in enumerate(sheet.content.terminals):
        side = SIDES.get(terminal.use or "")
        if side is not None and side not in have:
            told = f'terminal "{terminal.id}" is on the side "{side}", and no zone is'
            why = "no step would have to prove it dead"
            yield sheet.fault(("terminals", number, "use"), told, why, f'add "{side}" to the sides of a zone')


def _no_switch(sheet: Document[Sheet]) -> Iterator[Fault]:
    """A disconnect inside that is no gate."""
    made = sheet.content
    if made.electrical is not None and made.electrical.disconnect_inside and not any(
        gate.kind in ("switch", "breaker") for gate in made.gates
    ):  # fmt: skip
        told = "disconnect_inside is true, and no switch or breaker is inside"
        why = "the order of the work is proven on [[gates]]"
        yield sheet.fault(("electrical", "disconnect_inside"), told, why, "add the switch under [[gates]]")


def _sensor(sheet: Document[Sheet], number: int, sensor: Sensor) -> Iterator[Fault]:
    """A secondary that gives voltage and is shorted, or one that endangers and that the steps never join or fit."""
    at = ("sensors", number, "name")
    if sensor.output == "voltage" and sensor.shorted is not None:
        why = "its open secondary makes no dangerous voltage"
        told = f'"{sensor.name}" gives voltage, and shorted is stated'
        yield sheet.fault(("sensors", number, "shorted"), told, why, "take shorted away, or correct output")
    known = {part.name for part in sheet.content.temporary}
    if sensor.shorting is not None and sensor.shorting not in known:
        told = f'"{sensor.shorting}" shorts "{sensor.name}", and is no temporary part'
        why = "the order of the work is proven on when it is in"
        yield sheet.fault(("sensors", number, "shorting"), told, why, "add it under [[temporary]]")
    if not endangers(sensor):
        return
    changes = {
        step.does.change for step in sheet.content.steps if step.does is not None and step.does.to == sensor.name
    }
    for change, what in (("plug in", "joins the secondary of"), ("put in", "fits")):
        if change not in changes:
            told, advice = f'no step {what} "{sensor.name}"', f'add a step with change = "{change}"'
            yield sheet.fault(at, told, "its open secondary is dangerous under load", advice)


def _left_in(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Temporary parts that the steps put in, or find in place, and do not take out; or take out and were never in."""
    for number, part in enumerate(sheet.content.temporary):
        changes = [
            step.does.change for step in sheet.content.steps if step.does is not None and step.does.to == part.name
        ]
        there = (part.delivered == "in place") + changes.count("put in")
        if changes.count("take out") < there:
            told = f'"{part.name}" is never taken out'
            yield sheet.fault(("temporary", number, "name"), told, "it must not stay", 'add change = "take out"')
        if changes.count("take out") > there:
            told, why = f'"{part.name}" is taken out more often than it is in', "what it guards is open until then"
            yield sheet.fault(("temporary", number, "name"), told, why, 'see delivered, or add change = "put in"')
