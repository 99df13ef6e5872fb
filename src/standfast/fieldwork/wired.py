"""Which conductors a step lands, run by run, and in which spaces of a panel breakers go: what the hands look for."""

from collections.abc import Iterator

from standfast.design.installation.circuits import of_breakers
from standfast.fieldwork.plan import Laid, Plan, Run
from standfast.fieldwork.rows import counted
from standfast.fieldwork.runs import named_size
from standfast.survey.power import Circuit
from standfast.survey.spaces import as_built


def every(plan: Plan) -> tuple[str, ...]:
    """Every new run or cable of the job with its conductors."""
    return (*(_run(plan, run) for run in plan.runs), *(_cable(plan, cable) for cable in plan.cables))


def at(plan: Plan, place: str) -> tuple[str, ...]:
    """The runs and cables that begin, end or pass at a panel or switch, with their conductors."""
    runs = (_run(plan, run) for run in plan.runs if place in run.parts)
    return (*runs, *(_cable(plan, cable) for cable in plan.cables if place in _ends(plan, cable)))


def new_breakers(plan: Plan, panel: str) -> tuple[str, ...]:
    """The new breakers of a panel: each with its rating and its spaces, as the directory of the panel has them."""
    by_circuit = {circuit: breaker for breaker, circuit in of_breakers(plan.survey.job).items()}
    found = []
    for held in as_built(plan.survey.job, panel):
        part = plan.installation.parts.get(by_circuit.get((panel, held.circuit.id), ""))
        if part is None or part.existing or held.circuit.state == "existing":
            continue
        found.append(plan.say("order.new_breaker", name=part.name, spaces=_spaces(plan, held.spaces)))
    return tuple(found)


def moved(plan: Plan, circuit: Circuit) -> str:
    """A circuit that goes over into another panel: its name, the spaces it leaves and those it takes."""
    words = {"old": _spaces(plan, circuit.moved_spaces), "new": _spaces(plan, circuit.spaces)}
    return plan.say("order.moved_circuit", name=circuit.name or circuit.id, **words)


def _spaces(plan: Plan, spaces: tuple[int, ...]) -> str:
    return ", ".join(str(each) for each in spaces) if spaces else plan.say("common.not_known")


def _run(plan: Plan, run: Run) -> str:
    wires = ", ".join(
        f"{wire.number} × {plan.say('common.not_known') if wire.size.missing else named_size(wire.size.word)} "
        f"{plan.say(f'materials.{wire.use}')}"
        for wire in run.wires
    )
    return f"{run.name}: {wires}"


def _cable(plan: Plan, cable: Laid) -> str:
    areas = f"{counted(cable.area, plan.language)} + {counted(cable.protective, plan.language)}"
    return f"{cable.name}: {areas}, {plan.said(cable.cable)}"


def _ends(plan: Plan, cable: Laid) -> Iterator[str]:
    """The parts at the ends of a cable and those that it is called by, and the panels of breakers among them."""
    graph = plan.installation
    yield from (part.id for part in graph.parts.values() if part.name in cable.name.split(" – "))
    for link in (each for each in graph.links if each.id == cable.id):
        for id in (link.a, link.b):
            yield id
            if graph.parts[id].kind == "breaker":
                yield from (part.id for part, _ in graph.beside(id) if part.kind == "busbar")
