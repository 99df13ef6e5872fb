"""The circuit between the unit and its panel: continuous current, breaker within the maker's limit, conductors."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring import bends, circuit, device, drop, ends, listings
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.conductor import Need
from standfast.design.wiring.ends import End
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import DISCONNECT, Run
from standfast.rulebooks.nfpa70 import overcurrent, storage
from standfast.sheet import Check, Value, at_least, at_most, attempt, chosen, exactly, worst


class UnitCircuit(NamedTuple):
    """The unit's circuit with its currents in A, its breaker, its ends, and the drop while it charges."""

    output: Value
    charge: Value
    continuous: Value
    breaker: Value
    circuit: Circuit
    ends: tuple[End, ...]
    drop: drop.Change


def plan(task: Material, panel: str, runs: list[Run]) -> UnitCircuit:
    """Work out the circuit of the unit on a panel.

    Args:
        task: the job.
        panel: the panel that it is on.
        runs: between them, at least one.
    """
    output = task.of("battery", "electrical.output_current", "I_out", "A")
    charge = task.of("battery", "electrical.charge_current", "I_charge", "A")
    greatest = worst("I_cont", [output, charge], "max", task.nec.clause("storage_circuit_current"))
    needed = attempt("I_req", "A", lambda: storage.circuit_ampacity(task.nec, greatest))
    breaker = _breaker(task, panel, needed)
    at = _ends(task, panel, runs)
    need = Need(needed, greatest, breaker, circuit.own_conductors(task))
    title = f"Circuit of {task.unit.replace('-', ' ')}"
    built = circuit.build(task, task.unit, title, need, at, runs, neutral(task), greatest)
    return UnitCircuit(output, charge, greatest, breaker, built, at, drop.along(task, "V_drop", [built.part], charge))


def neutral(task: Material) -> Value:
    """Whether a neutral is run: yes unless the maker uses none."""
    word = task.of("battery", "electrical.neutral", "neutral")
    if word.missing:
        return word
    met = "the unit uses none" if word.word == "not used" else "the unit connects one"
    return chosen("neutral", word.word != "not used", "", met, None, word)


def checks(task: Material, panel: str, found: UnitCircuit) -> Iterator[Check]:
    """Device, conductors and voltage of the unit's circuit."""
    parts = {
        "listings": listings.checks(task),
        "breaker": _device_checks(task, panel, found),
        "conductors": circuit.checks(task, found.circuit, found.ends),
        "bending space": bends.checks(task, found.circuit, found.ends),
    }
    for part, asked in parts.items():
        title = f"{found.circuit.title}: {part}"
        yield from told(task.nec, f"wiring.unstated-{part.replace(' ', '-')}/{task.unit}", title, asked)
    made = found.circuit
    metal, uses = made.conductor.conditions.material, [("ground", "ground", made.ground)]
    if not made.neutral.missing and made.neutral.yes:
        uses.append(("neutral", "ac neutral", made.conductor.size))
    for name, use, size in uses:
        for role in ("disconnect", "battery"):
            if role == "battery" or _has_disconnect(found):
                yield from ends.checks(task, task.unit, name, size, metal, [ends.of_sheet(task, role, use)])
    yield drop.charging(task, f"wiring.voltage-drop/{task.unit}", found.drop)


def _device_checks(task: Material, panel: str, found: UnitCircuit) -> Iterator[Check]:
    nec, id, made = task.nec, task.unit, found.circuit
    title = f"{made.title}: its breaker carries 125 % of the continuous current"
    clause, least = nec.clause("storage_circuit_ampacity"), made.need.before
    yield at_least(f"wiring.device-rating/{id}", title, clause, found.breaker, least)
    yield from device.checks(task, id, made.title, panel, found.breaker)
    yield device.held(task, id, made.title)
    most = task.of("battery", "electrical.max_overcurrent_device", "I_maker", "A")
    title, clause = "Breaker within the greatest device that the maker allows", nec.clause("listed_use")
    yield at_most(f"wiring.device-maker-maximum/{id}", title, clause, found.breaker, most)
    own, supply = task.of("battery", "electrical.ac_voltage", "V_unit", "V"), task.job.fact("supply.voltage", "V", "V")
    title, clause = "Voltage of the unit and of the supply", nec.clause("voltage_match")
    yield exactly(f"wiring.voltage/{id}", title, clause, own, supply)


def _breaker(task: Material, panel: str, needed: Value) -> Value:
    """The breaker that the job states, else the smallest of the family that reaches the current."""
    stated = task.battery_circuit(panel)
    path = f"panels.{panel}.circuits.{stated}.breaker"
    if stated is not None and task.job.has(path):
        return task.job.fact(path, "I_n", "A")
    if needed.missing:
        return chosen("I_n", 0.0, "A", "", None, needed)
    if "breaker" not in task.sheets:
        return attempt("I_n", "A", lambda: overcurrent.next_standard(task.nec, needed))
    return device.made(task, needed)


def _ends(task: Material, panel: str, runs: list[Run]) -> tuple[End, ...]:
    found = [ends.of_panel(task, panel), ends.of_sheet(task, "breaker")]
    if any(DISCONNECT in run.ends for run in runs):
        found.append(ends.of_sheet(task, "disconnect"))
    return (*found, ends.of_sheet(task, "battery"))


def _has_disconnect(found: UnitCircuit) -> bool:
    return any(end.name == "disconnect" for end in found.ends)
