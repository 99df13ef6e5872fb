"""The wiring of every source that a job adds: everything that is built, and every check on it."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from standfast.design.wiring import (
    alone,
    branches,
    building,
    dc,
    derived,
    disconnects,
    drop,
    fault,
    feeder,
    generators,
    island,
    listed,
    listings,
    lugs,
    protected,
    pv,
    room,
    runs,
    service,
    sources,
    sources_together,
    splices,
    supply_side,
    unbalance,
    unit,
)
from standfast.design.wiring.alone import Alone
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.dc_circuit import DcCircuit
from standfast.design.wiring.fault_levels import Level, greatest
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.feeds import Feed
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import JobFile, Material, SheetFile
from standfast.design.wiring.pv_circuit import ArrayCircuit
from standfast.design.wiring.sources import Busbar, Source
from standfast.design.wiring.unit import UnitCircuit
from standfast.sheet import Check, Value, cannot_tell, total, work
from standfast.shelf import Edition
from standfast.survey.joined import SERVICE_TAP, source_ids, unit_ids

if TYPE_CHECKING:
    from standfast.design.wiring.metric.built import MetricWiring


class Wiring(NamedTuple):
    """The wiring of a job; one-line drawing, schedules, materials and permit set read it.

    Attributes:
        units: the circuit of every source whose panel is known: each unit with an inverter inside, or the inverter.
        feeders: from their panels to the service, nearest first.
        busbars: from their panels to the service, nearest first, with every option of 705.12(B).
        faults: greatest fault current in kA by part of the installation.
        dc: the DC circuit of every battery that is joined to an inverter of its own.
        arrays: the circuit of every PV array.
        checks: every check, in order.
        alone: the house on its battery alone: joints of neutral and ground in every state, what ends a fault.
        metric: the wiring of a job under rules that count in square millimetres; all else is then empty.
        together: the states of the switches, and with them who can feed each AC conductor and busbar.
        levels: greatest and least fault currents of both loops by part of the installation.
    """

    units: tuple[UnitCircuit, ...]
    feeders: tuple[Feeder, ...]
    busbars: tuple[Busbar, ...]
    faults: Mapping[str, Value]
    checks: tuple[Check, ...]
    dc: tuple[DcCircuit, ...] = ()
    arrays: tuple[ArrayCircuit, ...] = ()
    alone: Alone = Alone()
    metric: "MetricWiring | None" = None
    levels: Mapping[str, Level] = {}
    together: sources_together.Together = sources_together.NOTHING

    @property
    def unit(self) -> UnitCircuit | None:
        """The circuit of the first source; None where nobody said how it is joined."""
        return next(iter(self.units), None)

    @property
    def panel(self) -> str:
        """The panel of the first source that is on one; empty where none is, or nobody said."""
        return next((each.panel for each in self.units if each.panel != SERVICE_TAP), "")

    @property
    def feeds(self) -> list[Feed]:
        """Who can feed each AC conductor and busbar, in every state of the switches."""
        return self.together.feeds

    @property
    def rise(self) -> drop.Change | None:
        """The greatest rise of voltage up to the service equipment; None where no source is joined."""
        found = [each.rise for each in self.units]
        unknown = next((each for each in found if each.percent.missing), None)
        return unknown or max(found, key=lambda each: each.percent.quantity, default=None)

    @property
    def circuits(self) -> list[Circuit]:
        """Every circuit that is worked out: of the sources, behind them, then new feeders, nearest first."""
        found = [*(each.circuit for each in self.units), *(each.circuit for each in self.dc)]
        found += [each.circuit for each in self.arrays]
        return found + [each.built for each in self.feeders if each.built is not None]


class Sight(NamedTuple):
    """Of one unit, from the siting: whether its disconnect is seen from it, how far away that is in ft; its wall."""

    in_sight: Value | None = None
    distance: Value | None = None
    wall: str = ""


UNSEEN = Sight()


def unworked(*checks: Check) -> Wiring:
    """Nothing but checks that say why nothing was worked out."""
    return Wiring((), (), (), {}, checks)


def wire(
    nec: Edition, handbook: Edition, job: JobFile, sheets: Mapping[str, SheetFile],
    sights: Mapping[str, Sight] | None = None,
) -> Wiring:  # fmt: skip
    """Work out the wiring of every source that the job adds.

    Args:
        nec: NFPA 70 in force.
        handbook: methods that no code owns.
        job: the job file.
        sheets: data sheets by role: ``battery``, ``inverter``, ``breaker``, ``disconnect``, ``island_switch``; what was
            not chosen is left out.
        sights: of each unit, where the siting has said.
    """
    tasks = [Material(nec, handbook, job, sheets, each) for each in source_ids(job.content)]
    units = tuple(each for task in tasks if (each := unit.plan(task)) is not None)
    added = _added(tasks, units)
    panels = _panels(tasks[0], added)
    ways = [feeder.plan(tasks[0], each) for each in panels]
    feeders = tuple({each.panel: each for way in ways for each in way}.values())
    units = tuple(unit.risen(tasks[0]._replace(unit=each.id), each, feeders, added) for each in units)
    together = sources_together.plan(tasks[0], {each.id: each.breaker for each in units})
    bars = tuple(sources.busbar(tasks[0], each, added, sources_together.beside(together, each)) for each in panels)
    levels = fault.plan(tasks[0], panels, feeders, units, added)
    found = Wiring(units, feeders, bars, greatest(levels), (), dc.plans(tasks[0]), pv.plans(tasks[0]),
                   alone.plan(tasks[0]), levels=levels, together=together)  # fmt: skip
    checks = [*_checks(tasks, found, added, sights or {}), *_of_many(tasks[0], together)]
    return found._replace(checks=tuple(checks))


def _added(tasks: Sequence[Material], units: Sequence[UnitCircuit]) -> list[Source]:
    """Every source on the busbars; of one whose panel nobody said, that it is somewhere."""
    known = {each.id: each.source for each in units}
    return [known.get(task.unit) or unit.lost(task) for task in tasks]


def _panels(task: Material, added: Sequence[Source]) -> list[str]:
    """The panels of all sources, added or not, and those above them, nearest first, the service last."""
    generating = set(task.job.ids("generators"))
    others = [
        each.id
        for each in task.job.content.panels
        if sources.other_sources(task, each.id) or any(circuit.feeds in generating for circuit in each.circuits)
    ]
    own = [each.panel for each in added if each.panel in task.job.ids("panels")]
    ways = [task.way_up(each) for each in (*own, *others)]
    found = dict.fromkeys(panel for way in ways for panel in way)
    return sorted(found, key=lambda panel: -len(task.way_up(panel)))


def _checks(
    tasks: Sequence[Material], found: Wiring, added: Sequence[Source], sights: Mapping[str, Sight]
) -> Iterator[Check]:  # fmt: skip
    units = {each.id: each for each in found.units}
    first = tasks[0]
    yield from told(first.nec, "wiring.unstated-lists", "Circuits and arrays of the survey", listed.checks(first))
    yield from told(first.nec, "wiring.unstated-splices", "Splices of moved circuits", splices.checks(first))
    if found.units:
        yield from told(
            first.nec,
            "wiring.unstated-service",
            "Service of the house",
            service.checks(first, _service_of(first, found)),
        )
    for task in tasks:
        own = units.get(task.unit)
        yield from _of_unit(task, own) if own is not None else _unjoined(task)
    ahead = supply_side.joined_there(found.units)
    if found.units:
        yield from _of_the_house(first, found, [each for each in added if each.panel != SERVICE_TAP])
    for made in ahead:
        asked = supply_side.checks(first._replace(unit=made.id), made, added, found.faults)
        yield from told(first.nec, f"wiring.unstated-supply-side/{made.id}", "Source ahead of the service", asked)
    for task in tasks:
        needed = units[task.unit].circuit.need.before if task.unit in units else unit.needed(task)
        sight = sights.get(task.unit, UNSEEN)
        asked = disconnects.checks(task, needed, sight.in_sight, sight.distance)
        yield from told(task.nec, f"wiring.unstated-disconnects/{task.unit}", "Disconnecting means of the unit", asked)
    direct = {each.unit: each for each in found.dc}
    for each in unit_ids(first.job.content):
        sight = sights.get(each, UNSEEN)
        yield from dc.checks(first, each, direct.get(each), in_sight=sight.in_sight, distance=sight.distance,
                             wall=sight.wall)  # fmt: skip
    yield from pv.checks(first, found.arrays)
    for top in dict.fromkeys(first.way_up(each.panel)[-1] for each in found.busbars):
        if first.panel(top).fed_from != runs.UTILITY and first.panel(top).fed_by != protected.TAP:
            yield _no_supply(first, top)


def _service_of(task: Material, found: Wiring) -> str:
    """The panel by which the service is found: that of the first source, else the one that the utility feeds."""
    fed = (each.id for each in task.job.content.panels if each.fed_from == runs.UTILITY)
    return found.panel or next(fed, next(iter(task.job.ids("panels")), ""))


def _of_unit(task: Material, own: UnitCircuit) -> Iterator[Check]:
    yield from unit.checks(task, own)
    yield drop.feeding(task, f"wiring.voltage-rise/{task.unit}", own.rise)
    if len(task.way_up(own.panel)) > 1:
        yield drop.charging_whole(task, f"wiring.voltage-drop-whole/{task.unit}", own.fall)


def _unjoined(task: Material) -> Iterator[Check]:
    """Of a source whose panel nobody said: what does not hang on it."""
    yield from told(task.nec, f"wiring.unstated-listings/{task.unit}", "Listings", listings.checks(task))
    why = f"routes: the runs between {task.unit}, its disconnect and its panel"
    clause = task.nec.clause("storage_circuit_current")
    yield cannot_tell(f"wiring.route/{task.unit}", "Way of the unit's circuit to its panel", clause, why)


def _of_the_house(task: Material, found: Wiring, added: Sequence[Source]) -> Iterator[Check]:
    """Feeders, panels, island switch, busbars and fault currents, with every source on them."""
    nec = task.nec
    beside = {each: sources_together.beside(found.together, each) for each in task.job.ids("panels")}
    for each in found.feeders:
        outputs, charging = sources.outputs(task, each.panel, added), _charging(task, each.panel, added)
        outputs += [sources.generating(task, generator) for generator in beside[each.panel]]
        own, lugged = feeder.checks(task, each, outputs, charging), lugs.checks(task, each, added, beside)
        asked: Iterator[Check] = chain(own, lugged)
        yield from told(nec, f"wiring.unstated-feeder/{each.id}", each.title, asked)
        yield from told(nec, f"wiring.unstated-neutral/{each.id}", each.title, [unbalance.check(task, each)])
    yield from told(nec, "wiring.unstated-room", "Room in the panels", room.checks(task, added))
    yield from told(nec, "wiring.unstated-branches", "Breakers of circuits that are there", branches.checks(task))
    asked = building.checks(task, found.feeders)
    yield from told(nec, "wiring.unstated-building", "Panels in other buildings", asked)
    asked = island.checks(task, found.feeders, added)
    yield from told(nec, "wiring.unstated-island", "Island switch", asked)
    asked = derived.checks(task, found.units)
    yield from told(nec, "wiring.unstated-derived", "Neutral of the battery", asked)
    asked = alone.checks(task, found.alone, found.units, found.feeders)
    yield from told(nec, "wiring.unstated-alone", "The house on its battery alone", asked)
    above = {each.panel: each for each in found.feeders}
    for bar in found.busbars:
        yield feeder.protection(task, bar.panel, above.get(bar.panel))
        yield bar.check
    panels = [bar.panel for bar in found.busbars]
    asked = fault.checks(task, panels, added, found.levels, found.feeders, found.units)
    yield from told(nec, "wiring.unstated-fault", "Fault current", asked)


def _of_many(task: Material, together: sources_together.Together) -> Iterator[Check]:
    """Generators, and what is not known of the sources that run together."""
    asked = chain(sources_together.checks(task, together), generators.checks(task, together))
    yield from told(task.nec, "wiring.unstated-generators", "Sources that run together", asked)


def _charging(task: Material, panel: str, added: Sequence[Source]) -> Value:
    """Current in A that the units beyond a feeder take while they charge, as a continuous load."""
    factor, clause = task.nec.number("continuous_factor"), task.nec.clause("feeder_device")
    found = [each.charge for each in sources.beyond(task, panel, added)]
    charging = found[0] if len(found) == 1 else total("I_charge", found, "A")
    return work("I_charging", "k_cont * I_charge", "A", clause, factor, charging)


def _no_supply(task: Material, panel: str) -> Check:
    fed = task.job.fact(f"panels.{panel}.fed_from", "fed_from")
    why = fed.how if fed.missing else f"panels.{panel}.fed_from: {fed.word!r} is neither a panel nor utility"
    clause = task.nec.clause("source_busbar")
    return cannot_tell(f"wiring.supply-way/{panel}", "Every busbar up to the utility is known", clause, why)
