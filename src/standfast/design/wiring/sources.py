"""What feeds a busbar: every busbar from its panel to the service has to satisfy one option of 705.12(B)."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring.listed import unlisted
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, chosen, missing
from standfast.survey.joined import owner
from standfast.survey.power import Circuit


class Source(NamedTuple):
    """A source that the job adds: its id, its panel (empty where nobody said), output, charging and breaker in A."""

    id: str
    panel: str
    output: Value
    charge: Value
    breaker: Value


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


def outputs(task: Material, panel: str, added: Sequence[Source]) -> list[Value]:
    """Rated outputs in A of every source on a panel or on panels fed from it; one of an unknown panel is missing.

    Args:
        task: the job.
        panel: the panel.
        added: every source that the job adds.
    """
    below = task.below(panel)
    found = [each.output for each in beyond(task, panel, added)]
    return found + [
        task.job.fact(f"panels.{each}.circuits.{circuit.id}.source_output", f"I_{circuit.id}".replace("-", "_"), "A")
        for each in below
        for circuit in other_sources(task, each)
    ]


def beyond(task: Material, panel: str, added: Sequence[Source]) -> list[Source]:
    """The added sources on a panel or on panels fed from it; one of an unknown panel may be, with unknown currents."""
    below, found = task.below(panel), list[Source]()
    for each in added:
        if each.panel in below:
            found.append(each)
        elif not each.panel:
            unknown = missing("I_out", "A", f"routes: the panel that {each.id} is on")
            found.append(each._replace(output=unknown, charge=unknown, breaker=unknown))
    return found


def other_sources(task: Material, panel: str) -> list[Circuit]:
    """Circuits of a panel that carry a source which was there before the work."""
    own = [each for each in task.panel(panel).circuits if owner(task.job.content, each)]
    return [each for each in task.panel(panel).circuits if each.source_output is not None and each not in own]


def busbar(task: Material, panel: str, added: Sequence[Source]) -> Busbar:
    """Ask every option for one busbar.

    Args:
        task: the job.
        panel: its panel.
        added: every source that the job adds.
    """
    nec, fact, id = task.nec, task.job.fact, f"wiring.source-busbar/{panel}"
    bus, main = fact(f"panels.{panel}.busbar", "I_bus", "A"), fact(f"panels.{panel}.main", "I_main", "A")
    found = outputs(task, panel, added)
    sources = busbars.sources_125(nec, found)
    both = busbars.with_main(nec, main, sources)
    devices = busbars.devices(nec, _devices(task, panel, added))
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
        reason = f"{unsure.reason}; {rest}"
        return Busbar(panel, sources, tuple(options), None, unsure._replace(id=id, title=title, reason=reason))
    best = max((check for _, check in options), key=lambda check: -1e9 if check.margin is None else check.margin)
    failed = best._replace(id=id, title=title, reason=rest)
    return Busbar(panel, sources, tuple(options), None, failed)


def _devices(task: Material, panel: str, added: Sequence[Source]) -> list[Value]:
    """Every device on the busbar but the one protecting it; a list that does not fill the panel is not known whole."""
    found = [
        task.job.fact(f"panels.{panel}.circuits.{each.id}.breaker", f"I_{each.id}".replace("-", "_"), "A")
        for each in task.panel(panel).circuits
        if not owner(task.job.content, each)
    ]
    found += [each.breaker for each in beyond(task, panel, added) if each.panel in (panel, "")]
    gap = unlisted(task, panel)
    return found if gap is None else [*found, missing("I_rest", "A", gap.how, gap)]


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
