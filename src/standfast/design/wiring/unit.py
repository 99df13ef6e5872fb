"""The circuit between a source and its panel: continuous current, breaker within the maker's limit, conductors."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.wiring import bends, circuit, device, drop, ends, listings, runs
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.conductor import Need
from standfast.design.wiring.ends import End
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.design.wiring.sources import Source, beyond, outputs
from standfast.rulebooks.nfpa70 import overcurrent, storage
from standfast.sheet import Check, Value, at_least, at_most, attempt, chosen, exactly, missing, total, worst
from standfast.survey.joined import SERVICE_TAP, owner


class UnitCircuit(NamedTuple):
    """The circuit of a source.

    Attributes:
        id: of the source, ``battery-1`` or ``inverter-1``.
        panel: the panel that it is on; ``service-tap`` where it is joined ahead of the service disconnect.
        output: rated continuous output in A.
        charge: greatest continuous input in A while it charges.
        continuous: the greater of both.
        breaker: in A.
        circuit: its conductors.
        ends: where they end.
        drop: along its own circuit while it charges.
        rise: from the service equipment to it while every source beyond each feeder feeds.
        fall: from the service equipment to it while every source beyond each feeder charges.
    """

    id: str
    panel: str
    output: Value
    charge: Value
    continuous: Value
    breaker: Value
    circuit: Circuit
    ends: tuple[End, ...]
    drop: drop.Change
    rise: drop.Change
    fall: drop.Change

    @property
    def source(self) -> Source:
        """What it is on the busbars."""
        return Source(self.id, self.panel, self.output, self.charge, self.breaker)


def needed(task: Material) -> Value:
    """Current in A that the circuit of a source is sized for: 125 % of its greatest continuous current."""
    return attempt("I_req", "A", lambda: storage.circuit_ampacity(task.nec, _greatest(task)))


def lost(task: Material) -> Source:
    """A source of which nobody said what panel it is on."""
    return Source(task.unit, "", _output(task), _charge(task), needed(task))


def plan(task: Material) -> UnitCircuit | None:
    """Work out the circuit of a source; None where neither routes nor circuits say which panel it is on."""
    panels = [*task.job.ids("panels"), SERVICE_TAP]
    ways = runs.between(task, task.unit, panels)
    panel = next((end for run in ways for end in run.ends if end in panels), _listed_in(task))
    if not panel:
        return None
    ways = ways or [runs.unsaid(panel, task.unit)]
    output, charge, greatest, least = _output(task), _charge(task), _greatest(task), needed(task)
    breaker = _breaker(task, panel, least)
    at = _ends(task, panel, ways)
    led = neutral(task)
    need = Need(least, greatest, breaker, circuit.own_conductors(task, led))
    built = circuit.build(task, task.unit, f"Circuit of {task.named}", need, at, ways, led, greatest)
    change = drop.along(task, "V_drop", [built.part], charge)
    return UnitCircuit(task.unit, panel, output, charge, greatest, breaker, built, at, change, change, change)


def risen(task: Material, found: UnitCircuit, feeders: Sequence[Feeder], added: Sequence[Source]) -> UnitCircuit:
    """The same with the change of voltage up to the service: each feeder carries every source beyond it.

    Args:
        task: the job.
        found: the circuit.
        feeders: of all panels on the way of any source.
        added: every source that the job adds.
    """
    way = task.way_up(found.panel)
    up, down = [(found.circuit.part, found.output)], [(found.circuit.part, found.charge)]
    for each in (each for each in feeders if each.panel in way):
        up.append((each.part, _together("I_out_all", outputs(task, each.panel, added))))
        charging = [source.charge for source in beyond(task, each.panel, added)]
        down.append((each.part, _together("I_charge_all", charging)))
    return found._replace(rise=drop.in_row(task, "V_rise", up), fall=drop.in_row(task, "V_fall", down))


def _together(symbol: str, values: Sequence[Value]) -> Value:
    """The sum of currents in A; one alone stays itself."""
    return values[0] if len(values) == 1 else total(symbol, values, "A")


def neutral(task: Material) -> Value:
    """Whether a neutral is run: yes unless the maker uses none."""
    word = task.own("neutral", "neutral")
    if word.missing:
        return word
    met = "the unit uses none" if word.word == "not used" else "the unit connects one"
    return chosen("neutral", word.word != "not used", "", met, None, word)


def checks(task: Material, found: UnitCircuit) -> Iterator[Check]:
    """Device, conductors and voltage of a source's circuit."""
    parts = {
        "listings": listings.checks(task),
        "breaker": _device_checks(task, found),
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
        for role in ("disconnect", task.role):
            if role == task.role or _has_disconnect(found):
                yield from ends.checks(task, task.unit, name, size, metal, [ends.of_sheet(task, role, use)])
    yield drop.charging(task, f"wiring.voltage-drop/{task.unit}", found.drop)


def _device_checks(task: Material, found: UnitCircuit) -> Iterator[Check]:
    nec, id, made = task.nec, task.unit, found.circuit
    title = f"{made.title}: its breaker carries 125 % of the continuous current"
    clause, least = nec.clause("storage_circuit_ampacity"), made.need.before
    yield at_least(f"wiring.device-rating/{id}", title, clause, found.breaker, least)
    if found.panel != SERVICE_TAP:  # a device of its own enclosure is asked as service equipment
        yield from device.checks(task, id, made.title, found.panel, found.breaker)
        yield device.held(task, id, made.title)
    most = task.own("max_overcurrent_device", "I_maker", "A")
    title, clause = "Breaker within the greatest device that the maker allows", nec.clause("listed_use")
    yield at_most(f"wiring.device-maker-maximum/{id}", title, clause, found.breaker, most)
    own, supply = task.own("ac_voltage", "V_unit", "V"), task.job.fact("supply.voltage", "V", "V")
    title, clause = "Voltage of the unit and of the supply", nec.clause("voltage_match")
    yield exactly(f"wiring.voltage/{id}", title, clause, own, supply)


def _output(task: Material) -> Value:
    return task.own("output_current", "I_out", "A")


def _charge(task: Material) -> Value:
    return task.own("charge_current", "I_charge", "A")


def _greatest(task: Material) -> Value:
    return worst("I_cont", [_output(task), _charge(task)], "max", task.nec.clause("storage_circuit_current"))


def _listed_in(task: Material) -> str:
    """The panel that lists the circuit of the source; empty where none does."""
    job = task.job.content
    listed = (panel.id for panel in job.panels for each in panel.circuits if owner(job, each) == task.unit)
    return next(listed, "")


def _breaker(task: Material, panel: str, needed: Value) -> Value:
    """The breaker that the job states, else the smallest of the family that reaches the current."""
    stated = None if panel == SERVICE_TAP else task.own_circuit(panel)
    path = f"panels.{panel}.circuits.{stated}.breaker"
    if stated is not None and task.job.has(path):
        return task.job.fact(path, "I_n", "A")
    if needed.missing:
        return chosen("I_n", 0.0, "A", "", None, needed)
    if "breaker" not in task.sheets:
        return attempt("I_n", "A", lambda: overcurrent.next_standard(task.nec, needed))
    return device.made(task, needed)


def _ends(task: Material, panel: str, ways: list[Run]) -> tuple[End, ...]:
    tap = End(SERVICE_TAP, missing("T_mark", "°C", "the mark of the connectors on the service conductors"))
    first = tap if panel == SERVICE_TAP else ends.of_panel(task, panel)
    found = [first, ends.of_sheet(task, "breaker")]
    if any(f"{task.unit}/disconnect" in run.ends for run in ways):
        found.append(ends.of_sheet(task, "disconnect"))
    return (*found, ends.of_sheet(task, task.role))


def _has_disconnect(found: UnitCircuit) -> bool:
    return any(end.name == "disconnect" for end in found.ends)
