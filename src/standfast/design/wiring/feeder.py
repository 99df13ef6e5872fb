"""Feeders between the unit's panel and the service: new ones are worked out, existing ones are taken as surveyed."""

import itertools
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.installation.build import feeder_of
from standfast.design.wiring import circuit, drop, ends, runs
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.conductor import Need
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, at_least, at_most, chosen, missing, total

PROTECTED = (("main", "I_main"), ("busbar", "I_bus"))


class Feeder(NamedTuple):
    """The feeder of a panel: `built` and its ends where it is new, its conductors in either case."""

    panel: str
    above: str
    device: Value
    built: Circuit | None
    ends: tuple[End, ...]
    part: drop.Part


def plan(task: Material, panel: str) -> list[Feeder]:
    """The feeders from a panel up to the service, nearest first."""
    way = task.way_up(panel)
    return [_feeder(task, below, above) for below, above in itertools.pairwise(way)]


def checks(task: Material, found: Feeder, sources: Sequence[Value]) -> Iterator[Check]:
    """Conductors of a new feeder, and its ampacity for the sources beyond it.

    Args:
        task: the job.
        found: the feeder.
        sources: rated outputs of the sources that feed back through it, in A.
    """
    if found.built is None:
        return
    yield from circuit.checks(task, found.built, found.ends)
    usable, clause = found.built.conductor.carried.usable, task.nec.clause("source_feeder_end")
    title = f"{found.built.title}: it carries the sources at its end"
    yield at_least(f"wiring.source-feeder/{found.panel}", title, clause, usable, busbars.sources_125(task.nec, sources))


def protection(task: Material, panel: str, above: Feeder | None) -> Check:
    """The device that protects a busbar is not rated above it: the main of the panel, else the device of its feeder."""
    id, title = f"wiring.panel-protection/{panel}", f"Device that protects the {task.panel(panel).name or panel}"
    main, bus = (task.job.fact(f"panels.{panel}.{word}", symbol, "A") for word, symbol in PROTECTED)
    device = above.device if main.missing and above is not None else main
    return at_most(id, title, task.nec.clause("panelboard_protection"), device, bus)


def _feeder(task: Material, panel: str, above: str) -> Feeder:
    ways = runs.between(task, above, [panel])
    device = _device(task, panel)
    if not ways:
        return Feeder(panel, above, device, None, (), drop.unknown(f"routes: the feeder from {above} to {panel}"))
    if not any(run.new for run in ways):
        return Feeder(panel, above, device, None, (), _existing(task, ways))
    need = Need(device, device, device, circuit.own_conductors(task))
    at = _ends(task, panel, above)
    name = task.panel(panel).name or panel
    yes = chosen("neutral", True, "", "the panel has loads between line and neutral", None)
    built = circuit.build(task, ways[0].id, f"Feeder of the {name}", need, at, ways, yes, device)
    return Feeder(panel, above, device, built, at, built.part)


def _device(task: Material, panel: str) -> Value:
    """The device at the supply end."""
    found = feeder_of(task.job, task.panel(panel))
    if found is not None:
        return task.job.fact(f"panels.{found[0]}.circuits.{found[1].id}.breaker", "I_feeder", "A")
    above = task.panel(panel).fed_from
    return missing("I_feeder", "A", f'panels.{above}.circuits: the circuit with feeds = "{panel}"')


def _ends(task: Material, panel: str, above: str) -> tuple[End, ...]:
    found = [ends.of_panel(task, above), ends.of_sheet(task, "breaker")]
    if task.panel(panel).fed_through is not None:
        found.append(ends.of_sheet(task, "island_switch"))
    return (*found, ends.of_panel(task, panel))


def _existing(task: Material, ways: list[Run]) -> drop.Part:
    first = ways[0]
    need = f"routes.{first.id}.conductors: size and material of the existing feeder"
    material, size = first.material or missing("material", "", need), first.size or missing("size", "", need)
    return drop.Part(material, size, total("L_max", [run.longest for run in ways], "ft"))
