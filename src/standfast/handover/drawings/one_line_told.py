"""Everything that the one-line diagram says, before it is laid out."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.handover.drawings.one_line_tree import Words
from standfast.paper.symbols import ANSI, Family

MOST_SHEETS = 8
"""Sheets that one diagram may take."""
CONTINUED = ["one-line continued", *(f"one-line continued {number}" for number in range(2, MOST_SHEETS))]
CODES = {
    "one-line": "E1",
    "one-line schedule": "E1.1",
    **{name: f"E1.{number}" for number, name in enumerate(CONTINUED, 2)},
}
"""Number of the sheet of each drawing of the diagram."""


class RunWords(NamedTuple):
    """One run of conductors for the schedule: its links in the graph, what it joins, and lines that describe it."""

    ids: tuple[str, ...]
    title: str
    lines: tuple[str, ...]


class OneLine(NamedTuple):
    """Everything that the diagram says.

    Attributes:
        installation: the graph.
        words: name and ratings of every part by its id.
        runs: conductors of the graph's links, by their ids, in the order of their numbers.
        grounding: lines about grounding and bonding.
        notes: lines that hold for the whole diagram.
        family: the symbols of the standard that the adoption draws by.
        symbol: part to its symbol, where that is not the one of its kind.
        joined: part to whether neutral and ground are joined in it; None where nobody said.
        joined_when: of such a part, when: empty or absent where it is always.
        earth: what people call the ground.
        circuits: breaker to the panel and the circuit of the job that it is.
    """

    installation: Installation
    words: Mapping[str, Words]
    runs: Sequence[RunWords]
    grounding: Sequence[str]
    notes: Sequence[str]
    family: Family = ANSI
    symbol: Mapping[str, str] = {}
    joined: Mapping[str, bool | None] = {}
    joined_when: Mapping[str, str] = {}
    circuits: Mapping[str, tuple[str, str]] = {}
    earth: str = "ground"
