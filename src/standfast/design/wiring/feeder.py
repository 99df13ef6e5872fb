"""Feeders between the unit's panel and the service: new ones are worked out, existing ones are taken as surveyed."""

import itertools
from collections.abc import Iterator, Sequence
from functools import partial
from typing import NamedTuple

from standfast.design.installation.build import feeder_of
from standfast.design.wiring import bends, circuit, conductor, drop, ends, feeder_demand, protected, runs, sets
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.conductor import Need
from standfast.design.wiring.device import checks as device_checks
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.rulebooks.nfpa70 import busbars, grounding, parallel, sizes
from standfast.sheet import Check, Value, at_least, at_most, attempt, chosen, missing, settle, total

SWITCH = "island switch"
LED = chosen("neutral", True, "", "feeders have a neutral", None)


class Feeder(NamedTuple):
    """The feeder of a panel.

    Attributes:
        panel: the panel.
        above: the panel that it comes from.
        id: of its circuit; of the panel where the job names no circuit.
        title: what people call it.
        device: at its supply end, in A.
        added: true where that device is new.
        built: the circuit, where it is new.
        ends: of it, where it is new.
        part: its conductors, for voltage along them.
        usable: ampacity in A.
    """

    panel: str
    above: str
    id: str
    title: str
    device: Value
    added: bool
    built: Circuit | None
    ends: tuple[End, ...]
    part: drop.Part
    usable: Value


def plan(task: Material, panel: str) -> list[Feeder]:
    """The feeders from a panel up to the service, nearest first."""
    way = task.way_up(panel)
    return [_feeder(task, below, above) for below, above in itertools.pairwise(way)]


def nearest(task: Material, panel: str) -> Feeder | None:
    """The feeder of a panel itself; None where no other panel is above it."""
    way = task.way_up(panel)
    return _feeder(task, *way[:2]) if len(way) > 1 else None


def checks(task: Material, found: Feeder, sources: Sequence[Value], charging: Value) -> Iterator[Check]:
    """Conductors and device of a feeder, and whether it carries what it feeds and the sources beyond it.

    Args:
        task: the job.
        found: the feeder.
        sources: rated outputs of the sources that feed back through it, in A.
        charging: current of the unit that charges beyond it, in A, as a continuous load.
    """
    if found.added:
        yield from device_checks(task, found.id, found.title, found.above, found.device)
    if found.built is not None:
        yield from circuit.checks(task, found.built, found.ends)
        yield from _bars(task, found, found.built)
        yield from bends.checks(task, found.built, found.ends)
    elif task.panel(found.panel).fed_by != protected.TAP:  # taps have a rule of their own
        title, clause = f"{found.title}: its device protects the conductor", task.nec.clause("conductor_protection")
        yield at_most(f"wiring.conductor-protection/{found.id}", title, clause, found.device, found.usable)
        yield from _ground(task, found)
    yield feeder_demand.check(task, found.panel, found.title, charging, found.device)
    clause, title = task.nec.clause("source_feeder_end"), f"{found.title}: it carries the sources at its end"
    needed = busbars.sources_125(task.nec, sources)
    yield at_least(f"wiring.source-feeder/{found.panel}", title, clause, found.usable, needed)


def protection(task: Material, panel: str, above: Feeder | None) -> Check:
    """The device that protects a busbar is not rated above it: the main of the panel, else the device of its feeder."""
    id, title = f"wiring.panel-protection/{panel}", f"Device that protects the {task.panel(panel).name or panel}"
    main, bus = protected.device(task, panel), task.job.fact(f"panels.{panel}.busbar", "I_bus", "A")
    at = above.device if main.missing and above is not None else main
    return at_most(id, title, task.nec.clause("panelboard_protection"), at, bus)


def _feeder(task: Material, panel: str, above: str) -> Feeder:
    tapped = task.panel(panel).fed_from if task.panel(panel).fed_by == protected.TAP else None
    ways = runs.between(task, tapped or above, [panel])
    named = feeder_of(task.job, task.panel(panel))
    title = f"Feeder of the {task.panel(panel).name or panel}"
    added = named is not None and named[1].state == "new"
    id, need = panel if named is None else named[1].id, f"routes: the feeder from {above} to {panel}"
    unknown, device = missing("I_use", "A", need), protected.ahead(task, panel)
    found = Feeder(panel, above, id, title, device, added, None, (), drop.unknown(need), unknown)
    if not ways:
        return found
    states = {each.id: each.state for each in task.job.content.routes}
    follows = added or named is None  # a run whose state nobody said is as new as its breaker
    if not any(run.new and (follows or states[run.id] is not None) for run in ways):
        return found._replace(part=_existing(task, ways), usable=_as_surveyed(task, found, ways))
    yes = chosen("neutral", True, "", "the panel has loads between line and neutral", None)
    carried = Need(device, device, device, circuit.own_conductors(task, yes))
    at = _ends(task, panel, above)
    built = circuit.build(task, ways[0].id, title, carried, at, ways, yes, device)
    return found._replace(built=built, ends=at, part=built.part, usable=built.conductor.carried.usable)


def _ends(task: Material, panel: str, above: str) -> tuple[End, ...]:
    found = [ends.of_panel(task, above)]
    if task.panel(panel).fed_by not in (protected.LUGS, protected.TAP):
        found.append(ends.of_sheet(task, "breaker"))
    if task.panel(panel).fed_through is not None:
        found.append(ends.of_sheet(task, "island_switch"))
    return (*found, ends.of_panel(task, panel))


def _bars(task: Material, found: Feeder, made: Circuit) -> Iterator[Check]:
    """Neutral and ground of a new feeder at the bars of the island switch; what the bars of panels take, their label
    says."""
    if task.panel(found.panel).fed_through != SWITCH:
        return
    metal = made.conductor.conditions.material
    for name, use, size in (("ground", "ground", made.ground), ("neutral", "ac neutral", made.conductor.size)):
        yield from ends.checks(task, found.id, name, size, metal, [ends.of_sheet(task, "island_switch", use)])


def _ground(task: Material, found: Feeder) -> Iterator[Check]:
    """The equipment grounding conductor of a feeder that is there, where its size was surveyed, suits its device.

    Of a feeder to another building `building` asks the same.
    """
    home = task.panel(found.panel).building in (None, task.panel(found.above).building)
    routes = [each for each in task.job.content.routes if {each.from_, each.to} == {found.panel, found.above}]
    run = next((each for each in routes if each.conductors is not None and each.conductors.ground is not None), None)
    if run is None or not home:
        return
    id, title = f"wiring.equipment-ground/{found.id}", f"{found.title}: equipment grounding conductor"
    fact, path, clause = task.job.fact, f"routes.{run.id}.conductors", task.nec.clause("equipment_ground")

    def ask() -> Check:
        have = sizes.area(task.nec, fact(f"{path}.ground", "EGC"), "A_EGC")
        least = grounding.equipment(task.nec, fact(f"{path}.material", "material"), found.device)
        least = grounding.equipment_capped(task.nec, least, fact(f"{path}.size", "size"))
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    yield settle(id, title, clause, ask)


def _existing(task: Material, ways: list[Run]) -> drop.Part:
    first = ways[0]
    need = f"routes.{first.id}.conductors: size and material of the existing feeder"
    size, metal = runs.agreed(ways, "size"), runs.agreed(ways, "material")
    size = missing("size", "", need) if size is None else size
    material = missing("material", "", need) if metal is None else metal
    number = runs.stated_sets(task, ways)
    several = None if number is None or number.quantity <= 1 else number
    return drop.Part(material, size, total("L_max", [run.longest for run in ways], "ft"), several)


def conditions_as_surveyed(task: Material, found: Feeder, ways: list[Run]) -> conductor.Conditions:
    """What decides the ampacity of an existing feeder: its metal as surveyed, its runs, terminals at both ends."""
    part = _existing(task, ways)
    at = [ends.of_panel(task, found.above), ends.of_panel(task, found.panel)]
    own = circuit.own_conductors(task, LED)
    own = own if part.sets is None else parallel.counted(task.nec, own, part.sets)
    where = conductor.conditions(task.nec, ends.column(task.nec, found.device, at), own, ways, ["cu"])
    return where._replace(material=part.material)


def _as_surveyed(task: Material, found: Feeder, ways: list[Run]) -> Value:
    """Ampacity in A of an existing feeder of the size that was surveyed."""
    part, where = _existing(task, ways), conditions_as_surveyed(task, found, ways)
    if part.size.missing or part.material.missing:
        return missing("I_use", "A", part.size.how, part.size, part.material)
    if part.sets is None:
        return conductor.carried_or_missing(task.nec, where, part.size).usable
    if any(each.missing for each in (*where, part.sets)):
        return chosen("I_use", 0.0, "A", "", None, part.sets, *where)
    return attempt("I_use", "A", partial(_together, task, where, part.size, part.sets))


def _together(task: Material, where: conductor.Conditions, size: Value, number: Value) -> Value:
    return sets.carried(task.nec, where, size, number).usable
