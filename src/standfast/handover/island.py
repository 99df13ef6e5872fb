"""What the permit set tells of a house with two sources: joints of neutral and ground, and what ends a fault."""

from standfast.design.wiring.alone import Alone
from standfast.paper.document import Block, Heading, Keep, Table, Text, Words, verdict
from standfast.sheet.printed import amount


def blocks(alone: Alone) -> list[Block]:
    """Headings, rules and tables of the house on its battery alone; nothing of what was not looked at."""
    return [*_joints(alone), *_clearing(alone)]


def _joints(alone: Alone) -> list[Block]:
    if not alone.bonds.rows:
        return []
    rows: list[list[Text]] = [
        [_first(row.state), row.part, row.sources, amount(row.bonds), _first(row.where), verdict(row.verdict)]
        for row in alone.bonds.rows
    ]
    head = ["State of the house", "Part", "Fed by", "Joints", "Where", ""]
    return _kept(
        Heading(f"Joints of neutral and {alone.bonds.ground} in every state", 2),
        Words(_RULE, 8),
        Table(head, rows, [3, 2.6, 2.2, 0.8, 2.2, 0], right=[3], size=8),
    )


def _clearing(alone: Alone) -> list[Block]:
    if not alone.clearing:
        return []
    rows: list[list[Text]] = [
        [each.name, amount(each.device), amount(each.trips), amount(each.fault), each.ends] for each in alone.clearing
    ]
    head = ["Circuit", "Breaker", "Trips at once from", "Battery drives", "What ends a fault"]
    return _kept(
        Heading("Faults while the battery carries the house", 2),
        Words(_STOPS, 8),
        Table(head, rows, [3, 1, 1.4, 1.2, 3.2], right=[1, 2, 3], size=8),
    )


def _kept(heading: Heading, rule: Words, table: Table) -> list[Block]:
    """All three together where the table is short; a long one breaks by itself."""
    blocks: list[Block] = [heading, rule, table]
    return [Keep(blocks)] if len(table.rows) <= _SHORT else blocks


def _first(text: str) -> str:
    return text[:1].upper() + text[1:]


_SHORT = 14
_STOPS = (
    "An inverter drives little more than its rated current into a fault. Where it stops instead of a breaker that "
    "trips, look for the fault before it is started again."
)
_RULE = (
    "Exactly one is right wherever anything is alive. With none a fault trips nothing; with two, neutral current flows "
    "on enclosures and pipes."
)
