"""Closed word lists of the trade that more than one room uses. No logic.

Words that only the job file or one data sheet uses stand in the models of those rooms.
"""

from typing import Literal

Verdict = Literal["pass", "fail", "cannot tell", "not applicable"]
"""What a check says. A missing fact is never a pass."""

Seen = Literal["print", "secondary", "memory", "common practice"]
"""Where a number of a book was read: compared with the printed standard, in a secondary source,
nowhere (from memory), or a rule of thumb of the trade that has no source."""

SEEN_WORDS: dict[str, str] = {
    "print": "compared with print",
    "secondary": "secondary source, not compared with print",
    "memory": "from memory, not compared with print",
    "common practice": "common practice, no source",
}

ExistingPart = Literal[
    "surge protection", "feeder surge protection", "arc-fault protection", "circuit directory", "closed openings",
    "water pipe bond", "gas pipe bond", "electrodes joined", "second electrode", "intersystem bonding terminal",
    "smoke alarms", "carbon monoxide alarms",
]  # fmt: skip
"""Parts of a house that work on it can bring under the adopted edition: what an adder puts in order."""
