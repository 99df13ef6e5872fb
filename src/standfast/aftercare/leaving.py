"""What leaves the house with the battery, and what stays and must be fed again.

What leaves is what the job put up for the battery: its units, an inverter of its own, the switches and fuses of their
circuits, the island switch and the emergency shutdown. A panel that the job added stays: it feeds circuits of the
house. An array stays where it is, its strings apart. Where an island switch leaves, its feeder is joined through.
"""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.installation.graph import Installation, Link, Part, PartKind
from standfast.fieldwork.plan import Plan

CIRCUIT: frozenset[PartKind] = frozenset({"breaker", "disconnect", "fuse", "inverter", "battery"})
"""Kinds of part that stand in the circuit of a source."""


class Leaving(NamedTuple):
    """What leaves and what stays.

    Attributes:
        parts: what leaves, in the order of the installation.
        bypassed: those of them that a feeder is joined through in their place.
        graph: the installation that stays.
        panels: the panels that hands reach into: something that leaves is joined to them.
    """

    parts: tuple[Part, ...]
    bypassed: tuple[Part, ...]
    graph: Installation
    panels: tuple[Part, ...]


def leaving(plan: Plan) -> Leaving:
    """What leaves when everything that the job added for the battery is taken away."""
    graph, units = plan.installation, {each.id for each in plan.devices}
    gone = {part.id: part for part in graph.parts.values() if _leaves(part, units)}
    bypassed = tuple(part for part in gone.values() if part.kind == "transfer equipment")
    links = [each for each in graph.links if not {each.a, each.b} & set(gone)]
    links += [link for part in bypassed for link in _through(graph, part)]
    kept = (part._replace(existing=True) for part in graph.parts.values() if part.id not in gone)
    stays = Installation(kept, links)
    panels = tuple(
        part for part in graph.of_kind("busbar") if any(beside.id in gone for beside, _ in graph.beside(part.id))
    )
    return Leaving(tuple(gone.values()), bypassed, stays, panels)


def _leaves(part: Part, units: set[str]) -> bool:
    if part.role == "island_switch" or part.kind == "shutdown switch":
        return not part.existing
    return part.kind in CIRCUIT and part.id.partition("/")[0] in units


def _through(graph: Installation, part: Part) -> Iterator[Link]:
    """The feeder of an island switch, joined through: from what feeds it to what it feeds."""
    before = [there.id for there, link in graph.beside(part.id) if link.b == part.id]
    after = [there.id for there, link in graph.beside(part.id) if link.a == part.id]
    for a in before[:1]:
        for b in after:
            yield Link(f"{part.id}, joined through", a, b, "conductor")
