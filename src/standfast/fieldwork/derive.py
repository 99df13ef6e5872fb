"""From the design of a job to what the work on site needs of it."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.anchorage.whole import Anchorage
from standfast.design.anchorage.wood_fit import DENSE
from standfast.design.installation import Installation
from standfast.design.labels.schedule import Label
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.runs import BATTERY, DISCONNECT
from standfast.design.wiring.whole import Wiring
from standfast.equipment.read import DataSheet
from standfast.fieldwork.plan import End, Held, Lift, Plan, Run, Spot, Wire
from standfast.sheet import Check, missing
from standfast.shelf import Adoption
from standfast.survey.read import Survey
from standfast.words import ENGLISH


def plan_of(
    survey: Survey,
    sheets: Mapping[str, DataSheet],
    installation: Installation,
    wiring: Wiring,
    anchorages: Sequence[Anchorage],
    labels: Sequence[Label],
    lift: Lift | None,
    books: Adoption,
    checks: Sequence[Check] = (),
    language: str = ENGLISH,
) -> Plan:
    """What the work is derived from.

    Args:
        survey: the job file.
        sheets: data sheets by role, as the wiring has them, with ``disconnect_fastener``.
        installation: the graph.
        wiring: the circuit of the unit and the feeders above it.
        anchorages: one for each unit.
        labels: the label schedule.
        lift: how the unit gets up; None where no allowed way was found.
        books: the editions in force.
        checks: all checks: what passing ones ask to be provided is seen before power.
        language: of all texts.
    """
    conditions = tuple(dict.fromkeys(check.condition for check in checks if check.condition))
    breaker = wiring.unit.breaker if wiring.unit is not None else missing("I_n", "A", "routes of the battery's circuit")
    held = tuple(_held(installation, each) for each in anchorages if each.fixing is not None)
    return Plan(
        survey, sheets, installation, tuple(_runs(survey, installation, wiring)), held, labels, lift, breaker,
        books.book("practice"), conditions, language,
    )  # fmt: skip


def _runs(survey: Survey, installation: Installation, wiring: Wiring) -> Iterator[Run]:
    circuits = [] if wiring.unit is None else [wiring.unit.circuit]
    circuits += [feeder.built for feeder in wiring.feeders if feeder.built is not None]
    for circuit in circuits:
        for tube in circuit.raceways:
            if tube.run.new:
                names = " – ".join(_name(survey, installation, end) for end in tube.run.ends)
                first, second = (_end(survey, end) for end in tube.run.ends)
                wet = None if tube.run.wet.missing else tube.run.wet.yes
                yield Run(
                    tube.run.id, names, (first, second), tube.run.longest, wet, tube.kind, tube.trade_size,
                    tuple(_wires(circuit)),
                )  # fmt: skip


def _wires(circuit: Circuit) -> Iterator[Wire]:
    kind = circuit.conductor.conditions
    yield Wire("line", circuit.conductor.size, kind.material, kind.insulation, 2)
    if circuit.neutral.missing or circuit.neutral.yes:
        yield Wire("neutral", circuit.conductor.size, kind.material, kind.insulation, 1)
    yield Wire("ground", circuit.ground, kind.material, kind.insulation, 1)


def _end(survey: Survey, word: str) -> End:
    if word == BATTERY:
        return "unit"
    return "panel" if word in survey.ids("panels") else "disconnect"


def _name(survey: Survey, installation: Installation, word: str) -> str:
    """The one name that the device at the end of a run has everywhere."""
    if word in installation.parts:
        return installation.parts[word].name
    kinds = {BATTERY: "battery", DISCONNECT: "disconnect"}
    parts = [part for part in installation.parts.values() if part.kind == kinds.get(word) and not part.existing]
    return parts[0].name if parts else word


def _held(installation: Installation, found: Anchorage) -> Held:
    """A unit and its holes. Whether wood is dense is known only where the species is."""
    fixing, base = found.fixing, found.base
    if fixing is None or base is None:
        raise ValueError(f"{found.unit} has no fixing")
    gravity = found.gravity
    known = gravity is not None and not gravity.missing and gravity.kind != "assumed"
    dense = gravity.quantity > DENSE if gravity is not None and known else None
    spots = tuple(Spot(hole.x, hole.y) for hole in found.holes)
    name = installation.parts[found.unit].name
    return Held(found.unit, name, found.wall, base, fixing, found.plate, found.lining, dense, spots)
