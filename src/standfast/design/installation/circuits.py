"""The circuits of panels under the names of the installation: one name on drawings, schedules and directories."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.graph import SWITCHES, Installation
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
    """

    breaker: str
    name: str
    serves: str
    source: bool


def of_breakers(job: Job) -> dict[str, tuple[str, str]]:
    """Breaker of the graph → panel and circuit of the job that it is."""
    found: dict[str, tuple[str, str]] = {}
    for panel in job.panels:
        for circuit in panel.circuits:
            found[_breaker(job, panel.id, circuit)] = panel.id, circuit.id
    return found


def named(job: Job, installation: Installation) -> dict[tuple[str, str], Named]:
    """Panel and circuit → its names, for every circuit that the graph holds."""
    found: dict[tuple[str, str], Named] = {}
    for breaker, (panel, circuit) in of_breakers(job).items():
        part = installation.parts.get(breaker)
        if part is not None:
            serves, source = _beyond(installation, breaker, panel)
            found[panel, circuit] = Named(breaker, part.name, serves or part.name, source)
    return found


def serves(circuits: Mapping[tuple[str, str], Named], panel: str, circuit: Circuit) -> str:
    """What a circuit serves, as the installation names it; as the job does where the graph does not hold it."""
    known = circuits.get((panel, circuit.id))
    return known.serves if known is not None else circuit.name or circuit.id


def listed(circuits: Mapping[tuple[str, str], Named], panel: str, circuit: Circuit) -> str:
    """A circuit in a list of breakers: by the load that it serves, else by the name of the breaker itself."""
    known = circuits.get((panel, circuit.id))
    if known is None or known.name == f"{known.serves} breaker":
        return serves(circuits, panel, circuit)
    return known.name


def _breaker(job: Job, panel: str, circuit: Circuit) -> str:
    source = owner(job, circuit)
    return f"{source}/breaker" if source else f"{panel}/{circuit.id}"


def _beyond(installation: Installation, breaker: str, panel: str) -> tuple[str, bool]:
    """What lies next behind a breaker, a switch on the way passed, and whether power can come in from there."""
    seen, waiting, name = {panel, breaker}, [breaker], ""
    source = False
    while waiting:
        for part, _ in installation.beside(waiting.pop(0)):
            if part.id not in seen:
                seen.add(part.id)
                waiting.append(part.id)
                name = name or ("" if part.kind in SWITCHES else part.name)
                source = source or part.kind in ("inverter", "generator")
    return name, source
