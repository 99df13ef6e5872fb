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
Wire = Literal[
    "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0",
    "250", "300", "350", "400", "500", "600",
]  # fmt: skip
"""A conductor size: AWG up to 4/0, then kcmil."""
Raceway = Literal["emt", "fmc", "imc", "rmc", "pvc-40", "pvc-80"]
"""A kind of raceway."""
TradeSize = Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4"]
"""A trade size of raceway."""
