"""What the permit set tells of the house in every state of its switches: joints of neutral and ground."""

from standfast.design.wiring.bonds import Bonds
from standfast.paper.document import Block, Heading, Table, Text, Words, verdict
from standfast.sheet.printed import amount


def blocks(bonds: Bonds, *, ground: str = "ground") -> list[Block]:
    """Heading, rule and table; nothing where no state was looked at.

    Args:
        bonds: the joints in every state.
        ground: the word of the code: ``ground`` or ``earth``.
    """
    if not bonds.rows:
        return []
    rows: list[list[Text]] = [
        [row.state, row.part, row.sources, amount(row.bonds), row.where, verdict(row.verdict)] for row in bonds.rows
    ]
    head = ["State of the house", "Part", "Fed by", "Joints", "Where", ""]
    return [
        Heading(f"Joints of neutral and {ground} in every state", 2),
        Words(_RULE, 8),
        Table(head, rows, [3, 2.6, 2.2, 0.8, 2.2, 0], right=[3], size=8),
    ]


_RULE = (
    "Exactly one is right wherever anything is alive. With none a fault trips nothing; with two, neutral current flows "
    "on enclosures and pipes."
)
