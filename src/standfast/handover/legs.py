"""The lines of a supply by name, and on which of them the spaces of a panel lie."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import Refusal


class NoSystem(Refusal):
    """Nobody said which system the utility delivers, so its conductors have no names."""


class System(NamedTuple):
    """The conductors of a supply.

    Attributes:
        lines: names of the ungrounded conductors.
        neutral: name of the neutral.
        ground: name of the equipment grounding conductor, or protective conductor.
        earth: what people call the ground: ``ground`` or ``earth``.
    """

    lines: tuple[str, ...]
    neutral: str
    ground: str
    earth: str = "ground"


SYSTEMS: dict[str, System] = {
    "120/240 V single-phase": System(("L1", "L2"), "N", "G"),
    "120/208 V single-phase": System(("L1", "L2"), "N", "G"),
    "120/208 V three-phase": System(("L1", "L2", "L3"), "N", "G"),
    "230 V single-phase": System(("L",), "N", "PE", "earth"),
    "230/400 V three-phase": System(("L1", "L2", "L3"), "N", "PE", "earth"),
}
"""Systems by the words of the job file."""


def system_of(word: str | None) -> System:
    """The conductors of a supply.

    Raises:
        NoSystem: where nobody said which it is.
    """
    if word is None or word not in SYSTEMS:
        raise NoSystem("supply.system is not stated: the conductors of the supply have no names without it")
    return SYSTEMS[word]


def earth_of(word: str | None) -> str:
    """What people call the ground where a supply is of this kind; ``ground`` where nobody said which it is."""
    return SYSTEMS[word].earth if word in SYSTEMS else "ground"


def line_of(space: int, lines: Sequence[str]) -> str:
    """The line that a space lies on: from row to row the next one, both spaces of a row alike (common practice of
    panels with two columns)."""
    return lines[(space - 1) // 2 % len(lines)]
