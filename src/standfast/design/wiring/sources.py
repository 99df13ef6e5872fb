"""What feeds a busbar: every busbar from its panel to the service has to satisfy one option of 705.12(B)."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring import controls, protected
from standfast.design.wiring.listed import unlisted
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, chosen, missing
from standfast.survey.agreed import source_circuits
from standfast.survey.joined import owner
from standfast.survey.power import Circuit

ENGINEERED = "option (5): a study under engineering supervision, with fault currents and the load of the busbar"
CONTROL = 13
"""Number that stands for power control among the options: that of its section, 705.13."""


class Source(NamedTuple):
    """A source that the job adds: its id, its panel (empty where nobody said), output, charging and breaker in A."""

    id: str
    panel: str
    output: Value
    charge: Value
    breaker: Value


class Beside(NamedTuple):
    """A generator that can feed a busbar while something else does: its id, and the facts that this hangs on."""

    generator: str
    hangs_on: tuple[Value, ...] = ()


class Busbar(NamedTuple):
    """What was found for one busbar.

    Attributes:
        panel: its panel.
        sources: 125 % of the outputs that feed it, in A.
        options: number of the option and its check, each for itself; `CONTROL` stands for power control.
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


def named(option: int) -> str:
    """An option as people call it."""
    return "power control" if option == CONTROL else f"option ({option})"


def busbar(task: Material, panel: str, added: Sequence[Source], beside: Sequence[Beside] = ()) -> Busbar:
    """Ask every option for one busbar.

    Args:
        task: the job.
        panel: its panel.
        added: every source that the job adds.
        beside: generators that can feed it together with what feeds its main device. One of which nobody knows makes
            a *pass* a *cannot tell*; it never makes a *fail*.
    """
    sure = _busbar(task, panel, added, [each for each in beside if not each.hangs_on])
    if sure.check.verdict != "pass" or all(not each.hangs_on for each in beside):
        return sure
    return _busbar(task, panel, added, beside)


def _busbar(task: Material, panel: str, added: Sequence[Source], beside: Sequence[Beside]) -> Busbar:
    nec, id = task.nec, f"wiring.source-busbar/{panel}"
    bus, main = task.job.fact(f"panels.{panel}.busbar", "I_bus", "A"), protected.device(task, panel)
    begins = protected.joined(task, panel)  # two busbars with nothing but conductors between them carry one sum
    found = outputs(task, begins, added) + [generating(task, each) for each in beside]
    sources = busbars.sources_125(nec, found)
    both = busbars.with_main(nec, main, sources)
    devices = busbars.devices(nec, _devices(task, begins, added))
    options = [(1, busbars.option_1(nec, f"{id}/option-1", both, bus))]
    if task.panel(panel).feed == "centre":
        options.append((4, busbars.option_4(nec, f"{id}/option-4", both, bus, _one_end(task, panel, beside))))
    else:
        opposite = _opposite(task, panel, beside)
        options.append((2, busbars.option_2(nec, f"{id}/option-2", both, bus, opposite)))
    options.append((3, busbars.option_3(nec, f"{id}/option-3", devices, bus, main)))
    options += [(CONTROL, check) for check in controls.of_busbar(task, panel, by_source(task, panel, added), bus)]
    return _judged(task, panel, sources, options)


def generating(task: Material, each: Beside) -> Value:
    """Rated output in A of a generator that can feed beside the grid; missing where nobody knows whether it can."""
    symbol = f"I_{each.generator}".replace("-", "_")
    if each.hangs_on:
        return missing(symbol, "A", "; ".join(fact.how for fact in each.hangs_on), *each.hangs_on)
    return task.job.fact(f"generators.{each.generator}.output", symbol, "A")


def by_source(task: Material, panel: str, added: Sequence[Source]) -> dict[str, Value]:
    """Rated outputs in A of the sources on a panel and beyond it: an added one by its id, others by their circuits."""
    found = {each.id: each.output for each in beyond(task, panel, added)}
    others = [(each, circuit) for each in task.below(panel) for circuit in other_sources(task, each)]
    return found | {
        circuit.id: task.job.fact(f"panels.{each}.circuits.{circuit.id}.source_output", "I_out", "A")
        for each, circuit in others
    }


def _judged(task: Material, panel: str, sources: Value, options: Sequence[tuple[int, Check]]) -> Busbar:
    name, id = task.panel(panel).name or panel, f"wiring.source-busbar/{panel}"
    title = f"Busbar of the {name} with the sources that feed it"
    rest = "; ".join(f"{named(number)}: {check.verdict}" for number, check in options)
    passing = next(((number, check) for number, check in options if check.verdict == "pass"), None)
    if passing is not None:
        number, check = passing
        return Busbar(panel, sources, tuple(options), number, check._replace(id=id, title=title, reason=rest))
    unsure = next((check for _, check in options if check.verdict == "cannot tell"), None)
    if unsure is not None:
        reason = f"{unsure.reason}; {rest}"
        return Busbar(panel, sources, tuple(options), None, unsure._replace(id=id, title=title, reason=reason))
    best = max((check for _, check in options), key=lambda check: -1e9 if check.margin is None else check.margin)
    failed = best._replace(id=id, title=title, reason=f"{rest}; {ENGINEERED}")
    return Busbar(panel, sources, tuple(options), None, failed)


def _devices(task: Material, panel: str, added: Sequence[Source]) -> list[Value]:
    """Every device on the busbar but the one protecting it; a list that does not fill the panel is not known whole.

    Feed-through lugs bring the device at the far end of their conductors on it, and where there is none all beyond.
    """
    found = [
        task.job.fact(f"panels.{panel}.circuits.{each.id}.breaker", f"I_{each.id}".replace("-", "_"), "A")
        for each in task.panel(panel).circuits
        if not owner(task.job.content, each)
    ]
    found += [each.breaker for each in beyond(task, panel, added) if each.panel in (panel, "")]
    for each in task.job.content.panels:
        if each.fed_from == panel and each.fed_by == protected.LUGS and each.id in task.below(panel):
            main = task.job.fact(f"panels.{each.id}.main", f"I_{each.id}".replace("-", "_"), "A")
            found += _devices(task, each.id, added) if each.main_lugs else [main]
    gap = unlisted(task, panel)
    return found if gap is None else [*found, missing("I_rest", "A", gap.how, gap)]


def _elsewhere(task: Material, panel: str, beside: Sequence[Beside]) -> bool:
    """Whether it is not known where other sources sit: those that state their spaces were compared by the reader."""
    content = task.panel(panel)
    if not other_sources(task, panel) and not beside:
        return False
    placed = [content.circuits[number] for number in source_circuits(task.job.content, content)]
    placed += [each for each in content.circuits if each.feeds in {one.generator for one in beside}]
    return content.spaces is None or bool(beside) or not all(each.spaces for each in placed)


def _opposite(task: Material, panel: str, beside: Sequence[Beside]) -> Value:
    place = task.job.fact(f"panels.{panel}.source_position", "place")
    if place.missing:
        return missing("opposite_ends", "", place.how, place)
    if protected.joined(task, panel) != panel:
        need = f"panels.{panel}.main: a device at one end of the feed-through conductors (705.12(B)(6))"
        return missing("opposite_ends", "", need, place)
    if place.word == "opposite end" and _elsewhere(task, panel, beside):
        need = f"panels.{panel}: on which end of the busbar the other sources sit, by the spaces of their circuits"
        return missing("opposite_ends", "", need, place)
    return chosen("opposite_ends", place.word == "opposite end", "", f"source at the {place.word}", None, place)


def _one_end(task: Material, panel: str, beside: Sequence[Beside]) -> Value:
    place = task.job.fact(f"panels.{panel}.source_position", "place")
    if place.missing:
        return missing("one_end", "", place.how, place)
    if _elsewhere(task, panel, beside):
        need = f"panels.{panel}: on which end of the busbar the other sources sit, by the spaces of their circuits"
        return missing("one_end", "", need, place)
    return chosen("one_end", place.word != "elsewhere", "", f"source at the {place.word}", None, place)
