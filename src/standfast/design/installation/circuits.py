"""The circuits of panels under the names of the installation: one name on drawings, schedules and directories."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.graph import SWITCHES, Installation
from standfast.design.installation.yard import SheetFile, Sheets
from standfast.sheet.printed import amount
from standfast.survey.joined import owner
from standfast.survey.model import Job
from standfast.survey.power import Circuit


class Named(NamedTuple):
    """A circuit by its names.

    Attributes:
        breaker: id of its breaker in the graph.
        name: of the breaker, as every drawing has it.
        serves: name of what lies next behind it.
        source: true where power comes in through it, of a source or of a panel that has one.
        output: what the source next behind it gives; empty where that is none.
        device: in metric countries ``MCB``, ``RCBO`` or ``fuse``; empty where nobody said.
        curve: tripping curve of a breaker in metric countries; empty where nobody said.
        residual: type and rated current of its residual current device; empty where none is stated.
    """

    breaker: str
    name: str
    serves: str
    source: bool
    output: str = ""
    device: str = ""
    curve: str = ""
    residual: str = ""


DEVICES = {"breaker": "MCB", "breaker with residual current device": "RCBO", "fuse": "fuse"}
"""Devices by the words of the job file, as boards are marked in metric countries."""


def of_breakers(job: Job) -> dict[str, tuple[str, str]]:
    """Breaker of the graph → panel and circuit of the job that it is."""
    found: dict[str, tuple[str, str]] = {}
    for panel in job.panels:
        for circuit in panel.circuits:
            found[_breaker(job, panel.id, circuit)] = panel.id, circuit.id
    return found


def named(job: Job, installation: Installation, sheets: Sheets) -> dict[tuple[str, str], Named]:
    """Panel and circuit → its names, for every circuit that the graph holds.

    Args:
        job: the job file.
        installation: the graph.
        sheets: data sheets by role: a new breaker has the curve of its sheet where the job names none.
    """
    models = {(panel.id, circuit.id): circuit for panel in job.panels for circuit in panel.circuits}
    found: dict[tuple[str, str], Named] = {}
    for breaker, (panel, circuit) in of_breakers(job).items():
        part = installation.parts.get(breaker)
        if part is not None:
            serves, source, output = _beyond(installation, breaker, panel)
            protected = _protection(models[panel, circuit], sheets.get(part.role) if part.role else None)
            found[panel, circuit] = Named(breaker, part.name, serves or part.name, source, output, *protected)
    return found


def of(circuits: Mapping[tuple[str, str], Named], panel: str, circuit: Circuit) -> Named | None:
    """The names of a circuit as found in a panel, also of one that is moved out; None where the graph has none."""
    moved = (each for (_, id), each in circuits.items() if id == circuit.id and circuit.moved_from == panel)
    return circuits.get((panel, circuit.id)) or next(moved, None)


def serves(circuits: Mapping[tuple[str, str], Named], panel: str, circuit: Circuit) -> str:
    """What a circuit serves, as the installation names it; as the job does where the graph does not hold it."""
    known = of(circuits, panel, circuit)
    return known.serves if known is not None else circuit.name or circuit.id


def listed(circuits: Mapping[tuple[str, str], Named], panel: str, circuit: Circuit) -> str:
    """A circuit in a list of breakers: by the load that it serves, else by the name of the breaker itself."""
    known = of(circuits, panel, circuit)
    if known is None or known.name == f"{known.serves} breaker":
        return serves(circuits, panel, circuit)
    return known.name


def _breaker(job: Job, panel: str, circuit: Circuit) -> str:
    source = owner(job, circuit)
    return f"{source}/breaker" if source else f"{panel}/{circuit.id}"


def _protection(circuit: Circuit, sheet: SheetFile | None) -> tuple[str, str, str]:
    """Device, curve and residual current device of a circuit: of the job, else of the sheet of its breaker."""
    switch = None if sheet is None else sheet.content.switch
    curve = circuit.curve or (switch.curve if switch is not None else None) or ""
    known = circuit.residual
    if known is not None:
        words = (known.type or "type not known", known.rated.text if known.rated is not None else "not known")
        residual = " ".join((*words, "delayed") if known.delayed else words)
    elif switch is not None and switch.residual is not None and circuit.device not in ("breaker", "fuse"):
        rated = switch.residual_rated.text if switch.residual_rated is not None else "not known"
        residual = f"{switch.residual} {rated}"
    else:
        residual = ""
    return DEVICES.get(circuit.device or "", ""), curve, residual


def _beyond(installation: Installation, breaker: str, panel: str) -> tuple[str, bool, str]:
    """What lies next behind a breaker, a switch passed; whether power can come in from there; what a source gives."""
    seen, waiting, name = {panel, breaker}, [breaker], ""
    source, output = False, ""
    while waiting:
        for part, _ in installation.beside(waiting.pop(0)):
            if part.id not in seen:
                seen.add(part.id)
                waiting.append(part.id)
                if not name and part.kind not in SWITCHES:
                    name = part.name
                    output = amount(part.facts["output_current"]) if "output_current" in part.facts else ""
                source = source or part.kind in ("inverter", "generator")
    return name, source, output
