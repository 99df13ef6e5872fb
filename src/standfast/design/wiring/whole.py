"""The wiring of one unit: everything that is built, and every check on it."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.design.wiring import disconnects, drop, fault, feeder, island, room, runs, service, sources, unit
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import JobFile, Material, SheetFile
from standfast.design.wiring.sources import Busbar
from standfast.design.wiring.unit import UnitCircuit
from standfast.sheet import Check, Value, cannot_tell, work
from standfast.shelf import Edition


class Wiring(NamedTuple):
    """The wiring of one unit; one-line drawing, schedules, materials and permit set read it.

    Attributes:
        panel: the panel that the unit is on; empty where the routes do not say.
        unit: its circuit; None where the routes do not say.
        feeders: from its panel to the service, nearest first.
        busbars: from its panel to the service, nearest first, with every option of 705.12(B).
        faults: fault current in kA by part of the installation.
        rise: rise of voltage from the service equipment to the unit.
        checks: every check, in order.
    """

    panel: str
    unit: UnitCircuit | None
    feeders: tuple[Feeder, ...]
    busbars: tuple[Busbar, ...]
    faults: Mapping[str, Value]
    rise: drop.Change | None
    checks: tuple[Check, ...]


def wire(
    nec: Edition, handbook: Edition, job: JobFile, sheets: Mapping[str, SheetFile], name: str = "battery-1", *,
    in_sight: Value | None = None, distance: Value | None = None,
) -> Wiring:  # fmt: skip
    """Work out the wiring of one unit.

    Args:
        nec: NFPA 70 in force.
        handbook: methods that no code owns.
        job: the job file.
        sheets: data sheets by role: ``battery``, ``breaker``, ``disconnect``, ``island_switch``; what was not chosen
            is left out.
        name: of the unit.
        in_sight: yes where its disconnect can be seen from it, where the siting has said.
        distance: from unit to disconnect in ft, where the siting has said.
    """
    task = Material(nec, handbook, job, sheets, name)
    ways = runs.between(task, runs.BATTERY, job.ids("panels"))
    if not ways:
        return Wiring("", None, (), (), {}, None, (_no_way(task),))
    panel = _panel(task, ways)
    own = unit.plan(task, panel, ways)
    feeders = tuple(feeder.plan(task, panel))
    bars = tuple(sources.busbar(task, each, own.output, panel, own.breaker) for each in task.way_up(panel))
    faults = fault.at_buses(task, panel)
    parts = [own.circuit.part, *(each.part for each in feeders)]
    rise = drop.along(task, "V_rise", parts, own.output)
    found = Wiring(panel, own, feeders, bars, faults, rise, ())
    return found._replace(checks=tuple(_checks(task, found, own, rise, in_sight, distance)))


def _checks(
    task: Material, found: Wiring, own: UnitCircuit, rise: drop.Change, in_sight: Value | None, distance: Value | None
) -> Iterator[Check]:
    nec = task.nec
    yield from told(nec, "wiring.unstated-service", "Service of the house", service.checks(task, found.panel))
    yield from unit.checks(task, found.panel, own)
    yield drop.feeding(task, f"wiring.voltage-rise/{task.unit}", rise)
    factor, clause = task.nec.number("continuous_factor"), task.nec.clause("feeder_device")
    charging = work("I_charging", "k_cont * I_charge", "A", clause, factor, I_charge=own.charge)
    for each in found.feeders:
        outputs = sources.outputs(task, each.panel, own.output, found.panel)
        asked = feeder.checks(task, each, outputs, charging)
        yield from told(nec, f"wiring.unstated-feeder/{each.id}", each.title, asked)
    yield from told(nec, "wiring.unstated-room", "Room in the panels", room.checks(task, found.panel))
    yield from told(nec, "wiring.unstated-island", "Island switch, joints of neutral and ground", _island(task, found))
    for place, bar in enumerate(found.busbars):
        above = found.feeders[place] if place < len(found.feeders) else None
        yield feeder.protection(task, bar.panel, above)
        yield bar.check
    yield from told(nec, "wiring.unstated-fault", "Fault current", fault.checks(task, found.panel, found.faults))
    asked = disconnects.checks(task, own.circuit.need.before, in_sight, distance)
    yield from told(nec, f"wiring.unstated-disconnects/{task.unit}", "Disconnecting means of the unit", asked)
    top = task.way_up(found.panel)[-1]
    if task.panel(top).fed_from != runs.UTILITY:
        yield _no_supply(task, top)
    if (task.job.content.equipment.quantity or 1) > 1:
        clause = task.nec.clause("source_busbar")
        why = "more than one unit on one job is not worked out yet"
        yield cannot_tell("wiring.several-units", "Wiring of several units", clause, why)


def _island(task: Material, found: Wiring) -> Iterator[Check]:
    """The island switch, where there is one, and the joints of neutral and ground."""
    parted = island.parted(task, found.panel)
    if parted is not None:
        above = [each.device for each in found.feeders if each.panel == parted.id]
        yield from island.checks(task, parted.id, above[0] if above else task.job.fact("supply.main", "I_main", "A"))
        yield from island.beyond(task, parted.id)
        yield from island.others(task, parted.id)
    yield from island.bonds(task, found.panel)


def _panel(task: Material, ways: list[runs.Run]) -> str:
    panels = task.job.ids("panels")
    return next(end for end in ways[-1].ends if end in panels)


def _no_supply(task: Material, panel: str) -> Check:
    fed = task.job.fact(f"panels.{panel}.fed_from", "fed_from")
    why = fed.how if fed.missing else f"panels.{panel}.fed_from: {fed.word!r} is neither a panel nor utility"
    clause = task.nec.clause("source_busbar")
    return cannot_tell(f"wiring.supply-way/{panel}", "Every busbar up to the utility is known", clause, why)


def _no_way(task: Material) -> Check:
    why = "routes: the runs between the unit (battery), its disconnect and its panel"
    clause = task.nec.clause("storage_circuit_current")
    return cannot_tell(f"wiring.route/{task.unit}", "Way of the unit's circuit to its panel", clause, why)
