"""The circuits that the battery carries, and those of them that a listed control drops before it is overloaded."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.installation.build import JobFile, feeders, is_of_battery, islanded
from standfast.design.wiring import legs
from standfast.design.wiring.standard_named import standard_named
from standfast.sheet import Value, missing
from standfast.survey.power import Circuit


class Carried(NamedTuple):
    """One backed-up circuit: its panel, the circuit, and its load in VA."""

    panel: str
    circuit: Circuit
    load: Value


def backed_up(job: JobFile) -> list[Carried]:
    """The circuits that the battery carries.

    Those that are marked, and with an automatic transfer every other one beyond the island switch: it is switched over
    whether it was meant or not. For the whole house every circuit with a load.
    """
    whole, automatic = job.content.backup.mode == "whole house", job.content.backup.transfer != "manual"
    beyond = islanded(job) if automatic and not whole else []
    fed = {(above, circuit.id) for above, circuit in feeders(job).values()}
    return [
        Carried(
            panel.id,
            circuit,
            job.fact(f"panels.{panel.id}.circuits.{circuit.id}.load", f"S_{circuit.id.replace('-', '_')}", "VA"),
        )
        for panel in job.content.panels
        for circuit in panel.circuits
        if circuit.backed_up
        or (whole and circuit.load is not None)
        or (panel.id in beyond and (panel.id, circuit.id) not in fed and _is_load(job, circuit))
    ]


def _is_load(job: JobFile, circuit: Circuit) -> bool:
    return circuit.source_output is None and not is_of_battery(job, circuit)


def shed(job: JobFile, carried: Sequence[Carried]) -> list[Carried]:
    """Those that a control drops: named by the job, and only where the job states the listing of that control."""
    dropped = set(job.content.backup.sheds) if unlisted(job) is None else set[str]()
    return [each for each in carried if each.circuit.id in dropped]


def unlisted(job: JobFile) -> Value | None:
    """What is lacking where circuits are to be dropped and nobody states the listing; None where nothing is."""
    if not job.content.backup.sheds:
        return None
    stated = standard_named(job, "backup.shedding")
    if not stated.missing:
        return None
    if job.has("backup.shedding"):
        return stated
    names = ", ".join(job.content.backup.sheds)
    return missing("shedding", "", f"backup.shedding: the listing of the control that drops {names}")


def on_line(job: JobFile, carried: Sequence[Carried], leg: int) -> list[Value]:
    """Currents in A on line conductor 1 or 2."""
    found = [legs.current(job, each.panel, each.circuit, each.load, leg) for each in carried]
    return [current for current in found if current is not None]
