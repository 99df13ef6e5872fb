"""The unit as a source: every busbar from its panel to the service has to satisfy one option of 705.12(B)."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, chosen, missing
from standfast.survey.power import Circuit
from standfast.survey.spaces import as_found


class Busbar(NamedTuple):
    """What was found for one busbar.

    Attributes:
        panel: its panel.
        sources: 125 % of the outputs that feed it, in A.
        options: number of the option and its check, each for itself.
        option: the option that it passes by; None where it passes by none.
        check: the verdict on the busbar.
    """

    panel: str
    sources: Value
    options: tuple[tuple[int, Check], ...]
    option: int | None
    check: Check


def outputs(task: Material, panel: str, unit: Value, unit_panel: str) -> list[Value]:
    """Rated outputs in A of every source on a panel or on panels fed from it.

    Args:
        task: the job.
        panel: the panel.
        unit: rated output of the unit.
        unit_panel: the panel that the unit is on.
    """
    below = task.below(panel)
    found = [unit] if unit_panel in below else []
    return found + [
        task.job.fact(f"panels.{each}.circuits.{circuit.id}.source_output", f"I_{circuit.id}".replace("-", "_"), "A")
        for each in below
        for circuit in other_sources(task, each)
    ]


def other_sources(task: Material, panel: str) -> list[Circuit]:
    """Circuits of a panel that carry a source which is not the unit."""
    own = task.battery_circuit(panel)
    return [each for each in task.panel(panel).circuits if each.source_output is not None and each.id != own]


def busbar(task: Material, panel: str, unit: Value, unit_panel: str, breaker: Value) -> Busbar:
    """Ask every option for one busbar.

    Args:
        task: the job.
        panel: its panel.
        unit: rated output of the unit in A.
        unit_panel: the panel that the unit is on.
        breaker: rating of the unit's breaker in A.
    """
    nec, fact, id = task.nec, task.job.fact, f"wiring.source-busbar/{panel}"
    bus, main = fact(f"panels.{panel}.busbar", "I_bus", "A"), fact(f"panels.{panel}.main", "I_main", "A")
    found = outputs(task, panel, unit, unit_panel)
    sources = busbars.sources_125(nec, found)
    both = busbars.with_main(nec, main, sources)
    devices = busbars.devices(nec, _devices(task, panel, unit_panel, breaker))
    feed = task.panel(panel).feed
    options = [(1, busbars.option_1(nec, f"{id}/option-1", both, bus))]
    if feed == "centre":
        options.append((4, busbars.option_4(nec, f"{id}/option-4", both, bus, _one_end(task, panel))))
    else:
        options.append((2, busbars.option_2(nec, f"{id}/option-2", both, bus, _opposite(task, panel))))
    options.append((3, busbars.option_3(nec, f"{id}/option-3", devices, bus, main)))
    return _judged(task, panel, sources, options)


def _judged(task: Material, panel: str, sources: Value, options: Sequence[tuple[int, Check]]) -> Busbar:
    name, id = task.panel(panel).name or panel, f"wiring.source-busbar/{panel}"
    title = f"Busbar of the {name} with the sources that feed it"
    rest = "; ".join(f"option ({number}): {check.verdict}" for number, check in options)
    passing = next(((number, check) for number, check in options if check.verdict == "pass"), None)
    if passing is not None:
        number, check = passing
        return Busbar(panel, sources, tuple(options), number, check._replace(id=id, title=title, reason=rest))
    unsure = next((check for _, check in options if check.verdict == "cannot tell"), None)
    if unsure is not None:
        reason = f"{rest}; {unsure.reason}"
        return Busbar(panel, sources, tuple(options), None, unsure._replace(id=id, title=title, reason=reason))
    best = max((check for _, check in options), key=lambda check: -1e9 if check.margin is None else check.margin)
    failed = best._replace(id=id, title=title, reason=rest)
    return Busbar(panel, sources, tuple(options), None, failed)


def _devices(task: Material, panel: str, unit_panel: str, breaker: Value) -> list[Value]:
    """Every device on the busbar but the one protecting it; a list that does not fill the panel is not known whole."""
    own = task.battery_circuit(panel)
    found = [
        task.job.fact(f"panels.{panel}.circuits.{each.id}.breaker", f"I_{each.id}".replace("-", "_"), "A")
        for each in task.panel(panel).circuits
        if each.id != own
    ]
    if panel == unit_panel:
        found.append(breaker)
    gap = _gap(task, panel)
    return [*found, gap] if gap is not None else found


def _gap(task: Material, panel: str) -> Value | None:
    content = task.panel(panel)
    if content.state == "new":
        return None
    need = f"panels.{panel}.circuits: every breaker of the panel, so that the sum of all of them is known"
    poles = [held.poles for held in as_found(task.job.content, panel)]
    if content.spaces is None or content.free_spaces is None or any(each is None for each in poles):
        return missing("I_rest", "A", need)
    listed = sum(each for each in poles if each is not None)
    return missing("I_rest", "A", need) if listed < content.spaces - content.free_spaces else None


def _opposite(task: Material, panel: str) -> Value:
    place = task.job.fact(f"panels.{panel}.source_position", "place")
    if place.missing:
        return missing("opposite_ends", "", place.how, place)
    if place.word == "opposite end" and other_sources(task, panel):
        need = f"panels.{panel}: on which end of the busbar the other sources sit"
        return missing("opposite_ends", "", need, place)
    return chosen("opposite_ends", place.word == "opposite end", "", f"source at the {place.word}", None, place)


def _one_end(task: Material, panel: str) -> Value:
    place = task.job.fact(f"panels.{panel}.source_position", "place")
    if place.missing:
        return missing("one_end", "", place.how, place)
    if other_sources(task, panel):
        need = f"panels.{panel}: on which end of the busbar the other sources sit"
        return missing("one_end", "", need, place)
    return chosen("one_end", place.word != "elsewhere", "", f"source at the {place.word}", None, place)
