"""The circuit between the unit and its panel: continuous current, breaker within the maker's limit, conductors."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring import circuit, drop, ends
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.conductor import Need
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import DISCONNECT, Run
from standfast.reading.quantities import amount
from standfast.rulebooks.nfpa70 import overcurrent, storage
from standfast.sheet import (
    Check,
    Value,
    at_least,
    at_most,
    attempt,
    chosen,
    exactly,
    is_,
    missing,
    one_of,
    settle,
    worst,
)


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
    needed = storage.circuit_ampacity(task.nec, greatest)
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
    yield from _device_checks(task, found)
    yield from _panel_checks(task, panel)
    yield from circuit.checks(task, found.circuit, found.ends)
    made = found.circuit
    metal, uses = made.conductor.conditions.material, [("ground", "ground", made.ground)]
    if not made.neutral.missing and made.neutral.yes:
        uses.append(("neutral", "ac neutral", made.conductor.size))
    for name, use, size in uses:
        for role in ("disconnect", "battery"):
            if role == "battery" or _has_disconnect(found):
                yield from ends.checks(task, task.unit, name, size, metal, [ends.of_sheet(task, role, use)])
    yield drop.charging(task, f"wiring.voltage-drop/{task.unit}", found.drop)


def _device_checks(task: Material, found: UnitCircuit) -> Iterator[Check]:
    nec, id, device = task.nec, task.unit, found.breaker
    needed = found.circuit.need.before
    title = "Breaker carries 125 % of the continuous current"
    yield at_least(f"wiring.device-rating/{id}", title, nec.clause("storage_circuit_ampacity"), device, needed)
    clause, title = nec.clause("standard_ratings"), "Breaker has a standard rating"
    standard = attempt("I_std", "A", lambda: overcurrent.next_standard(nec, device, "I_std"))
    yield exactly(f"wiring.device-standard/{id}", title, clause, device, standard)
    clause, title = nec.clause("listed_use"), "Rating that the breaker family has"
    made = _made(task, device) if "breaker" in task.sheets and not device.missing else device
    yield exactly(f"wiring.device-made/{id}", title, clause, device, made)
    most = task.of("battery", "electrical.max_overcurrent_device", "I_maker", "A")
    title, clause = "Breaker within the greatest device that the maker allows", nec.clause("listed_use")
    yield at_most(f"wiring.device-maker-maximum/{id}", title, clause, device, most)
    backfed = task.of("breaker", "switch.backfeed", "backfeed")
    clause = nec.clause("source_backfed_device")
    yes = chosen("needed", True, "", "the unit feeds it from its load side", clause)
    yield is_(f"wiring.device-backfeed/{id}", "Breaker may be fed from either side", clause, backfed, yes)
    clause, title = nec.clause("breaker_voltage_marking"), "Rated voltage of the breaker"
    rated, supply = task.of("breaker", "switch.voltage", "V_breaker", "V"), task.job.fact("supply.voltage", "V", "V")
    yield at_least(f"wiring.device-voltage/{id}", title, clause, rated, supply)
    own, clause = task.of("battery", "electrical.ac_voltage", "V_unit", "V"), nec.clause("voltage_match")
    yield exactly(f"wiring.voltage/{id}", "Voltage of the unit and of the supply", clause, own, supply)


def _panel_checks(task: Material, panel: str) -> Iterator[Check]:
    id, clause = task.unit, task.nec.clause("listed_use")
    family = task.of("breaker", "switch.family", "family")
    accepted = task.job.fact(f"panels.{panel}.accepts", "accepted")
    if not task.panel(panel).accepts:
        accepted = missing("accepted", "", f"panels.{panel}.accepts: breaker families on the label of the panel")
    title = "Breaker family that the label of the panel allows"
    yield settle(f"wiring.device-family/{id}", title, clause,
                 lambda: one_of(f"wiring.device-family/{id}", title, clause, family, accepted))  # fmt: skip
    free = task.job.fact(f"panels.{panel}.free_spaces", "n_free", "1")
    spaces = task.of("breaker", "switch.spaces", "n_spaces", "1")
    yield at_most(f"wiring.panel-spaces/{id}", "Spaces for the breaker in the panel", clause, spaces, free)


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
    return _made(task, needed)


def _made(task: Material, needed: Value) -> Value:
    """The smallest breaker of the chosen family that is not below a current."""
    family = task.sheets["breaker"].content.switch
    ratings = () if family is None else family.ratings
    if not ratings:
        return missing("I_n", "A", "switch.ratings of the breaker family", needed)
    for rating in sorted(amount(each, "A") for each in ratings):
        if rating >= needed.quantity:
            met = "smallest of the breaker family that reaches it"
            return chosen("I_n", rating, "A", met, task.nec.clause("standard_ratings"), needed)
    return missing("I_n", "A", f"equipment.breaker: no breaker of this family reaches {needed.quantity:.4g} A", needed)


def _ends(task: Material, panel: str, runs: list[Run]) -> tuple[End, ...]:
    found = [ends.of_panel(task, panel), ends.of_sheet(task, "breaker")]
    if any(DISCONNECT in run.ends for run in runs):
        found.append(ends.of_sheet(task, "disconnect"))
    return (*found, ends.of_sheet(task, "battery"))


def _has_disconnect(found: UnitCircuit) -> bool:
    return any(end.name == "disconnect" for end in found.ends)
