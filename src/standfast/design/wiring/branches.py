"""Breakers of circuits that are there or are moved: against what runs for hours, and against a source on them."""

from collections.abc import Iterator

from standfast.design.wiring import feeder_load
from standfast.design.wiring.feeder_load import Fed
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import other_sources
from standfast.rulebooks.nfpa70 import busbars, overcurrent
from standfast.sheet import Check, Value, at_least, missing, settle, work

NEUTRAL = "line to neutral"


def checks(task: Material) -> Iterator[Check]:
    """Every circuit that states what of it runs for hours, every vehicle charger, every source that was there."""
    chargers = {each.id for each in task.job.content.loads.appliances if each.kind == feeder_load.VEHICLE}
    for panel in task.job.ids("panels"):
        for each in feeder_load.of_panel(task.job, panel):
            left_out = task.job.left_out(f"panels.{panel}.circuits.{each.circuit.id}.continuous")
            if not left_out or each.circuit.id in chargers:
                yield _load(task, each)
    for panel in task.job.ids("panels"):
        for circuit in other_sources(task, panel):
            yield _source(task, panel, circuit.id, circuit.name or circuit.id)


def _load(task: Material, fed: Fed) -> Check:
    """The breaker is not below the load and a quarter more of what runs for hours."""
    name = fed.circuit.name or fed.circuit.id
    id, title = f"wiring.branch-device/{fed.circuit.id}", f"{name}: its breaker carries what runs for hours"
    path, clause = f"panels.{fed.panel}.circuits.{fed.circuit.id}", task.nec.clause("branch_circuit_device")

    def ask() -> Check:
        breaker, load = task.job.fact(f"{path}.breaker", "I_n", "A"), feeder_load.plain(task, fed)
        lasting, volts = feeder_load.continuous(task, fed), _voltage(task, path)
        rest = work("S_other", "max(0, S - S_cont)", "VA", None, lasting, S=load)
        currents = [work(symbol, "S / U", "A", None, S=each, U=volts)
                    for symbol, each in (("I_cont", lasting), ("I_other", rest))]  # fmt: skip
        return at_least(id, title, clause, breaker, overcurrent.continuous(task.nec, *currents).needed)

    return settle(id, title, clause, ask)


def _voltage(task: Material, path: str) -> Value:
    """Voltage in V that the load is joined to; loads of both kinds count between the lines."""
    phases = task.job.fact(f"{path}.phases", "phases")
    if phases.missing:
        return missing("U", "V", phases.how, phases)
    word = "voltage_to_ground" if phases.word == NEUTRAL else "voltage"
    return task.job.fact(f"supply.{word}", "U", "V")


def _source(task: Material, panel: str, circuit: str, name: str) -> Check:
    """The breaker of a source that was there is not below 125 % of its output."""
    id, title = f"wiring.source-device/{circuit}", f"{name}: its breaker carries its output"
    path, clause = f"panels.{panel}.circuits.{circuit}", task.nec.clause("source_device")
    needed = busbars.sources_125(task.nec, [task.job.fact(f"{path}.source_output", "I_out", "A")])
    return at_least(id, title, clause, task.job.fact(f"{path}.breaker", "I_n", "A"), needed)
