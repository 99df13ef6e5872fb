"""The house in every state of its switches: its graph, who feeds what, and which generators feed beside the grid."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.design.installation.build import build
from standfast.design.installation.states import State, lacking, states
from standfast.design.wiring.arrivals import Arrivals
from standfast.design.wiring.feeds import Feed, feeds, has_loop
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Beside
from standfast.faults import BadFormula
from standfast.sheet import Check, Value, cannot_tell


class Together(NamedTuple):
    """What runs together in a house.

    Attributes:
        graph: of the job; None where its parts do not join.
        states: that it can be in.
        ratings: devices in A that the design chose, by part.
        open: what nobody said, and what the states hang on.
        refused: why there is no graph; empty where there is one.
    """

    graph: Installation | None
    states: tuple[State, ...]
    ratings: Mapping[str, Value]
    open: tuple[Value, ...]
    refused: str

    @property
    def feeds(self) -> list[Feed]:
        """Who can feed each AC conductor and busbar: worked out when it is asked for, no verdict hangs on it."""
        return [] if self.graph is None else feeds(self.graph, self.states, self.ratings)


NOTHING = Together(None, (), {}, (), "")


def plan(task: Material, breakers: Mapping[str, Value]) -> Together:
    """Everything that can run together.

    Args:
        task: the job.
        breakers: in A, of the circuits of added sources, by source.
    """
    try:
        graph = build(task.job, task.sheets)
    except BadFormula as refusal:
        return NOTHING._replace(refused=str(refusal))
    reachable = states(task.job, task.sheets, graph)
    ratings = {f"{source}/breaker": rating for source, rating in breakers.items()}
    open = tuple(lacking(task.job, task.sheets, graph, reachable))
    return Together(graph, tuple(reachable), ratings, open, "")


def beside(found: Together, panel: str) -> list[Beside]:
    """Generators on a panel or beyond it that can feed its busbar while its own feed does.

    One that may only be there, because nobody said, is named with what is not known.
    """
    if found.graph is None or not found.graph.of_kind("generator"):
        return []
    generators = dict[str, Beside]()
    for state, above, below in _sides(found, panel):
        for id in below:
            if above and found.graph.parts[id].kind == "generator":
                known = generators.get(id)
                if known is None or (known.hangs_on and not state.hangs_on):
                    generators[id] = Beside(id, state.hangs_on)
    return list(generators.values())


def alone(found: Together, panel: str) -> dict[str, tuple[Value, ...]]:
    """Inverters that run with a generator on the busbar of a panel while nothing arrives from its own feed.

    Each with the facts that this hangs on: none where it is certain.
    """
    inverters = dict[str, tuple[Value, ...]]()
    if found.graph is None:
        return inverters
    kinds = {id: part.kind for id, part in found.graph.parts.items()}
    for state, above, below in _sides(found, panel):
        if above or all(kinds[id] != "generator" for id in below):
            continue
        for id in (each for each in below if kinds[each] == "inverter"):
            if id not in inverters or not state.hangs_on:
                inverters[id] = state.hangs_on
    return inverters


def checks(task: Material, found: Together) -> Iterator[Check]:
    """What is not known of the states, and conductors that lead back to where they come from."""
    title = "It is known which sources can run together"
    lost = [each for each in found.open if each.symbol in ("generator_breaker", "generators_together")]
    for number, each in enumerate(lost, start=1):
        clause = task.nec.clause("transfer_equipment")
        yield cannot_tell(f"wiring.reachable-states/{number}", title, clause, each.how, each)
    if found.refused or (found.graph is not None and has_loop(found.graph)):
        why = found.refused or "panels and routes lead back to where they come from: correct fed_from, or the routes"
        clause, title = task.nec.clause("source_busbar"), "Who can feed each conductor is known"
        yield cannot_tell("wiring.fed-conductors", title, clause, why)


def _sides(found: Together, panel: str) -> Iterator[tuple[State, Sequence[str], Sequence[str]]]:
    """In each state what arrives at a busbar from its feed, and from everything else on it."""
    graph = found.graph
    if graph is None or panel not in graph.parts:
        return
    for state in found.states:
        arrivals, above, below = Arrivals(graph, state, found.ratings), list[str](), list[str]()
        for there, link in graph.beside(panel):
            (above if link.b == panel else below).extend(arrivals.over(link, there.id).sources)
        yield state, above, below
