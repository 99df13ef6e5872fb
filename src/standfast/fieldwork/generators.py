"""Breakers of generators: opened for the work like all others, and not closed again when the grid comes back."""

from collections.abc import Iterable, Sequence

from standfast.design.installation.graph import Installation
from standfast.fieldwork.order.acts import Turn


def switches(graph: Installation) -> list[str]:
    """The breakers that join generators to the house."""
    return [part.id for each in graph.of_kind("generator") for part, _ in graph.beside(each.id)]


def back(graph: Installation, opened: Iterable[str]) -> list[Turn]:
    """What was opened is unlocked and closed, in this order; the breaker of a generator is unlocked and stays open."""
    stay = switches(graph)
    return [turn for id in opened for turn in (Turn(id, "unlock"), *(() if id in stay else (Turn(id, "close"),)))]


def parted(graph: Installation, names: Sequence[str]) -> tuple[list[str], list[str]]:
    """Names of opened switches, each once: those that are closed again, and those of generators."""
    stay = {graph.parts[id].name for id in switches(graph)}
    found = list(dict.fromkeys(names))
    return [each for each in found if each not in stay], [each for each in found if each in stay]
