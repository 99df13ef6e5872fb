"""Voltage drop while the unit charges and voltage rise while it feeds, at the longest that the routes can be."""

from collections.abc import Sequence
from functools import partial
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.rulebooks.handbook import voltage_drop
from standfast.rulebooks.nfpa70 import parallel, resistance
from standfast.sheet import Check, Value, at_most, attempt, missing, settle, total


class Part(NamedTuple):
    """Conductors of one kind in a row: metal, size, length one way in ft, sets in parallel where there are several."""

    material: Value
    size: Value
    length: Value
    sets: Value | None = None


class Change(NamedTuple):
    """Change of voltage over some parts, in V and in per cent of the supply voltage."""

    volts: Value
    percent: Value


def along(task: Material, symbol: str, parts: Sequence[Part], current: Value) -> Change:
    """Change of voltage along parts in a row, single-phase line to line, direct-current resistance at 75 °C.

    Args:
        task: the job.
        symbol: ``V_drop`` or ``V_rise``.
        parts: the conductors.
        current: in A.
    """
    return in_row(task, symbol, [(each, current) for each in parts])


def in_row(task: Material, symbol: str, parts: Sequence[tuple[Part, Value]]) -> Change:
    """Change of voltage along parts in a row, each with its own current in A."""
    voltage = task.job.fact("supply.voltage", "V", "V")
    drops = [attempt("V_d", "V", partial(_part, task, each, current)) for each, current in parts]
    volts = total(symbol, drops, "V", task.handbook.clause("drop_resistance"))
    return Change(volts, voltage_drop.percent(task.handbook, volts, voltage))


def charging(task: Material, id: str, change: Change) -> Check:
    """Drop while charging within what the code recommends for a circuit."""
    limit = task.nec.number("drop_recommended")
    title = "Voltage drop of the circuit while charging (recommended)"
    clause = task.nec.clause("voltage_drop_note")
    return settle(id, title, clause, lambda: at_most(id, title, clause, change.percent, limit))


def charging_whole(task: Material, id: str, change: Change) -> Check:
    """Drop from the service equipment while charging, within what the code recommends for feeder and circuit."""
    title, clause = "Voltage drop from the service equipment while charging (recommended)", "voltage_drop_note"
    said, limit = task.nec.clause(clause), "drop_recommended_whole"
    return settle(id, title, said, lambda: at_most(id, title, said, change.percent, task.nec.number(limit)))


def feeding(task: Material, id: str, change: Change) -> Check:
    """Rise between unit and service equipment within common practice."""
    limit, clause = task.handbook.number("rise_limit"), task.handbook.clause("rise")
    title = "Voltage rise from the service equipment to the unit while it feeds"
    return settle(id, title, clause, lambda: at_most(id, title, clause, change.percent, limit))


def unknown(need: str) -> Part:
    """A part of which nothing is known."""
    return Part(missing("material", "", need), missing("size", "", need), missing("L", "ft", need))


def _part(task: Material, part: Part, current: Value) -> Value:
    ohms = resistance.direct(task.nec, part.material, part.size)
    if part.sets is not None:
        ohms = parallel.resistance(task.nec, ohms, part.sets)
    return voltage_drop.by_resistance(task.handbook, "single_phase", ohms, current, part.length)
