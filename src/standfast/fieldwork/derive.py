"""From the design of a job to what the work on site needs of it."""

from collections.abc import Iterable, Iterator, Mapping

from standfast.design.anchorage.whole import Anchorage
from standfast.design.anchorage.wood_fit import DENSE
from standfast.design.installation import Installation, Part
from standfast.design.whole import Design
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.dc_arc import ArcFlash, flashes
from standfast.design.wiring.material import Material
from standfast.design.wiring.whole import Wiring
from standfast.equipment.read import DataSheet
from standfast.fieldwork import brought, runs
from standfast.fieldwork.lifting import Lifting
from standfast.fieldwork.plan import Condition, End, Held, Laid, Lift, Plan, Run, Spot, Wire
from standfast.fieldwork.ways import ways
from standfast.sheet import Check, Value, chosen, missing, work
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER, devices, source_ids
from standfast.survey.read import Survey
from standfast.words import ENGLISH

ARC_BOOKS = ("nfpa70", "handbook", "nfpa70e", "dc_arcs")
"""Books that say what an arc at a battery can do."""


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
    wiring, installation = made.wiring, made.installation
    held = [each for found in made.anchorages for each in _held(installation, found)]
    judged = tuple(checks)
    conditions = {(check.title, check.condition): check.id for check in reversed(judged) if check.condition}
    struck = any(check.id.startswith("siting.vehicle-damage/") and check.verdict == "fail" for check in judged)
    return Plan(
        survey, sheets, installation, tuple(_runs(survey, installation, wiring)), held, made.labels, _lift(lifting),
        _breakers(wiring), books.book("practice"),
        tuple(Condition(id, title, text) for (title, text), id in reversed(conditions.items())), struck, language,
        tuple(brought.extras(survey.job, made.existing.rows)), _fuses(sheets, wiring),
        tuple(_cables(survey, installation, wiring)), () if wiring.metric is None else wiring.metric.readings,
        made.settings.rows, tuple(_arcs(survey, sheets, wiring, books)), ways(survey, made.siting.places),
    )  # fmt: skip


def _arcs(survey: Survey, sheets: Mapping[str, DataSheet], wiring: Wiring, books: Adoption) -> Iterator[ArcFlash]:
    """What an arc at each battery can do, as far as the adoption holds the books."""
    if wiring.dc and all(each in books.books for each in ARC_BOOKS):
        nec, handbook, safety, papers = (books.book(each) for each in ARC_BOOKS)
        yield from flashes(Material(nec, handbook, survey, sheets, INVERTER), safety, papers, wiring.dc)


def _breakers(wiring: Wiring) -> dict[str, Value]:
    """The rating of the breaker of each source, by its id."""
    metric = () if wiring.metric is None else wiring.metric.circuits
    return {each.id: each.breaker for each in wiring.units} | {each.id: each.I_n for each in metric}


def _cables(survey: Survey, installation: Installation, wiring: Wiring) -> Iterator[Laid]:
    """The new cables of a metric job, one a route."""
    known = devices(survey.job)
    routes = {route.id: route for route in survey.job.routes}
    for circuit in () if wiring.metric is None else wiring.metric.circuits:
        for id in circuit.links:
            if routes[id].state == "existing":
                continue
            ends = [known.get(end, end) for end in (routes[id].from_, routes[id].to)]
            name = " – ".join(_name(installation, f"{end}/inverter" if f"{end}/inverter" in installation.parts else end)
                              for end in ends)  # fmt: skip
            yield Laid(id, name, circuit.cable, circuit.area, circuit.protective_area,
                       survey.fact(f"routes.{id}.length", "L", "m"),
                       any(end in source_ids(survey.job) for end in ends))  # fmt: skip


def _fuses(sheets: Mapping[str, DataSheet], wiring: Wiring) -> dict[str, Value]:
    """The rating of the DC fuses of each battery, where fuses were chosen and stand by themselves."""
    chosen_fuse = "dc_overcurrent" in sheets and sheets["dc_overcurrent"].sheet.kind == "fuse"
    return {each.unit: each.device for each in wiring.dc if not each.inside} if chosen_fuse else {}


def _lift(lifting: Lifting) -> Lift | None:
    """How the heaviest part gets up; None where for some part no way was found, or no mass is known."""
    row = lifting.heaviest
    if row is None or any(each.people is None for each in lifting.rows):
        return None
    most = max(each.people or 0 for each in lifting.rows)
    aided = tuple(f"{each.unit}/{each.part}" for each in lifting.rows if each.way == "aid")
    return Lift(most, row.aid, row.reason, aided)


def _runs(survey: Survey, installation: Installation, wiring: Wiring) -> Iterator[Run]:
    """The new runs of every circuit, each once however many circuits are in it."""
    direct = {each.circuit.id for each in wiring.dc} | {each.circuit.id for each in wiring.arrays}
    seen = set[str]()
    for circuit in wiring.circuits:
        wires = tuple(_poles(circuit) if circuit.id in direct else _wires(circuit))
        for tube in circuit.raceways:
            if tube.run.new and tube.run.id not in seen:
                seen.add(tube.run.id)
                between = _through(installation, *tube.run.ends)
                through = tuple(part.name for part in between)
                parts = (tube.run.ends[0], *(part.id for part in between), tube.run.ends[1])
                start, end = (_name(installation, each) for each in tube.run.ends)
                first, second = (_end(survey, installation, end) for end in tube.run.ends)
                wet = None if tube.run.wet.missing else tube.run.wet.yes
                yield Run(
                    tube.run.id, " – ".join((start, *through, end)), (first, second), tube.run.longest, wet, tube.kind,
                    tube.trade_size, wires, through, parts,
                    tuple((each.longest, each.kind, each.trade_size) for each in tube.changes),
                )  # fmt: skip


def _wires(circuit: Circuit) -> Iterator[Wire]:
    """Two lines, a neutral where there is one, and ground; of parallel conductors as many of each pole."""
    kind, (sets, size) = circuit.conductor.conditions, _sets(circuit)
    yield Wire("line", size, kind.material, kind.insulation, 2 * sets)
    if circuit.neutral.missing or circuit.neutral.yes:
        yield Wire("neutral", size, kind.material, kind.insulation, sets)
    yield Wire("ground", circuit.ground, kind.material, kind.insulation, 1)


def _poles(circuit: Circuit) -> Iterator[Wire]:
    """Plus, minus and ground of a DC circuit; of parallel conductors as many of each pole."""
    kind, (sets, size) = circuit.conductor.conditions, _sets(circuit)
    yield Wire("positive", size, kind.material, kind.insulation, sets)
    yield Wire("negative", size, kind.material, kind.insulation, sets)
    yield Wire("ground", circuit.ground, kind.material, kind.insulation, 1)


def _sets(circuit: Circuit) -> tuple[int, Value]:
    """Conductors in parallel to each pole, and their size; not known where nobody knows how many there are."""
    size, sets = circuit.conductor.size, circuit.sets
    if sets is None:
        return 1, size
    return (1, missing("size", "", sets.how, sets)) if sets.missing else (round(sets.quantity), size)


def _end(survey: Survey, installation: Installation, word: str) -> End:
    if word in survey.ids("panels"):
        return "panel"
    part = installation.parts.get(word)
    return "disconnect" if part is None else runs.end_of(part.kind)


def _name(installation: Installation, word: str) -> str:
    """The one name that the device at the end of a run has everywhere."""
    part = installation.parts.get(word)
    return word if part is None else part.name


def _through(installation: Installation, start: str, end: str) -> tuple[Part, ...]:
    """Switches between the ends of a run that stand by themselves: the run is led into them and out again."""
    first, second = installation.parts.get(start), installation.parts.get(end)
    if first is None or second is None:
        return ()
    between = installation.path(first.id, second.id)[1:-1]
    return tuple(part for part in between if part.kind in ("disconnect", "transfer equipment"))


def _held(installation: Installation, found: Anchorage) -> Iterator[Held]:
    """A device and its holes in the wall, then those of its foot; nothing where no fixing was found.

    Whether wood is dense is known only with its species.
    """
    fixing, base, gravity, name = found.fixing, found.base, found.gravity, installation.parts[found.unit].name
    if fixing is not None and base is not None:
        known = gravity is not None and not gravity.missing and gravity.kind != "assumed"
        dense = gravity.quantity > DENSE if gravity is not None and known else None
        spots = tuple(Spot(hole.x, hole.y) for hole in found.holes)
        stray = None if found.stray is None else work("x_stray", "x * 25.4", "mm", None, x=found.stray)
        yield Held(found.unit, name, found.wall, base, fixing, found.plate, found.lining, dense, spots, stray)
    foot = found.foot
    if foot is not None and foot.anchor is not None and foot.holes:
        spots = tuple(Spot(hole.x, hole.out) for hole in foot.holes)
        bare = chosen("t_lining", 0.0, "mm", "the foot stands on the concrete itself", None)
        id, called = f"{found.unit}/foot", f"Foot of {name}"
        yield Held(id, called, found.wall, "concrete", foot.anchor, foot.plate, bare, None, spots, floor=True)
