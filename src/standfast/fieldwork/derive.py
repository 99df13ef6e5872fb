"""From the design of a job to what the work on site needs of it."""

from collections.abc import Iterable, Iterator, Mapping

from standfast.design.anchorage.whole import Anchorage
from standfast.design.anchorage.wood_fit import DENSE
from standfast.design.installation import Installation
from standfast.design.installation.graph import Part
from standfast.design.whole import Design
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.whole import Wiring
from standfast.equipment.read import DataSheet
from standfast.fieldwork.lifting import Lifting
from standfast.fieldwork.plan import Condition, End, Held, Lift, Plan, Run, Spot, Wire
from standfast.sheet import Check, missing, work
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER, unit_ids
from standfast.survey.read import Survey
from standfast.words import ENGLISH


def plan_of(
    survey: Survey,
    sheets: Mapping[str, DataSheet],
    made: Design,
    lifting: Lifting,
    books: Adoption,
    checks: Iterable[Check] = (),
    language: str = ENGLISH,
) -> Plan:
    """What the work is derived from.

    Args:
        survey: the job file.
        sheets: data sheets by role.
        made: what was designed.
        lifting: how each part gets up.
        books: the editions in force.
        checks: all checks: what passing ones ask to be provided is seen before power.
        language: of all texts.
    """
    wiring, held = made.wiring, _held(made.installation, made.anchorage)
    judged = tuple(checks)
    conditions = {(check.title, check.condition): check.id for check in reversed(judged) if check.condition}
    struck = any(check.id.startswith("siting.vehicle-damage/") and check.verdict == "fail" for check in judged)
    breaker = wiring.unit.breaker if wiring.unit is not None else missing("I_n", "A", "routes of the battery's circuit")
    return Plan(
        survey, sheets, made.installation, tuple(_runs(survey, made.installation, wiring)),
        () if held is None else (held,), made.labels, _lift(lifting), breaker, books.book("practice"),
        tuple(Condition(id, title, text) for (title, text), id in reversed(conditions.items())), struck, language,
    )  # fmt: skip


def _lift(lifting: Lifting) -> Lift | None:
    """How the heaviest part gets up; None where no way was found, or no mass is known."""
    row = lifting.heaviest
    return None if row is None or row.people is None else Lift(row.people, row.aid, row.reason)


def _runs(survey: Survey, installation: Installation, wiring: Wiring) -> Iterator[Run]:
    for circuit in wiring.circuits:
        for tube in circuit.raceways:
            if tube.run.new:
                through = _through(installation, *tube.run.ends)
                start, end = (_name(installation, each) for each in tube.run.ends)
                first, second = (_end(survey, end) for end in tube.run.ends)
                wet = None if tube.run.wet.missing else tube.run.wet.yes
                yield Run(
                    tube.run.id, " – ".join((start, *through, end)), (first, second), tube.run.longest, wet, tube.kind,
                    tube.trade_size, tuple(_wires(circuit)), through,
                )  # fmt: skip


def _wires(circuit: Circuit) -> Iterator[Wire]:
    kind = circuit.conductor.conditions
    yield Wire("line", circuit.conductor.size, kind.material, kind.insulation, 2)
    if circuit.neutral.missing or circuit.neutral.yes:
        yield Wire("neutral", circuit.conductor.size, kind.material, kind.insulation, 1)
    yield Wire("ground", circuit.ground, kind.material, kind.insulation, 1)


def _end(survey: Survey, word: str) -> End:
    if word in (INVERTER, *unit_ids(survey.job)):
        return "unit"
    return "panel" if word in survey.ids("panels") else "disconnect"


def _part(installation: Installation, word: str) -> Part | None:
    """The device at the end of a run."""
    return installation.parts.get(word)


def _name(installation: Installation, word: str) -> str:
    """The one name that the device at the end of a run has everywhere."""
    part = _part(installation, word)
    return word if part is None else part.name


def _through(installation: Installation, start: str, end: str) -> tuple[str, ...]:
    """Switches between the ends of a run that stand by themselves: the run is led into them and out again."""
    first, second = _part(installation, start), _part(installation, end)
    if first is None or second is None:
        return ()
    between = installation.path(first.id, second.id)[1:-1]
    return tuple(part.name for part in between if part.kind in ("disconnect", "transfer equipment"))


def _held(installation: Installation, found: Anchorage) -> Held | None:
    """A unit and its holes; None where no fixing was found. Whether wood is dense is known only with its species."""
    fixing, base, gravity = found.fixing, found.base, found.gravity
    if fixing is None or base is None:
        return None
    known = gravity is not None and not gravity.missing and gravity.kind != "assumed"
    dense = gravity.quantity > DENSE if gravity is not None and known else None
    spots = tuple(Spot(hole.x, hole.y) for hole in found.holes)
    stray = None if found.stray is None else work("x_stray", "x * 25.4", "mm", None, x=found.stray)
    name = installation.parts[found.unit].name
    return Held(found.unit, name, found.wall, base, fixing, found.plate, found.lining, dense, spots, stray)
