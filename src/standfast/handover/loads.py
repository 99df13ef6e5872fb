"""The load calculation and the backup calculation as tables of the permit set."""

from standfast.design.wiring.backup import BackupSheet
from standfast.design.wiring.house import Row
from standfast.design.wiring.load import LoadSheet
from standfast.paper.document import Block, Heading, Table, Text
from standfast.sheet.printed import amount


def blocks(load: LoadSheet, backup: BackupSheet) -> list[Block]:
    """Heading and table of each, every line with its amount and the clause that it applies."""
    found: list[Block] = []
    for heading, sheet in (("Service load", load), ("Backup", backup)):
        found.append(Heading(f"{heading}: {sheet.title[0].lower()}{sheet.title[1:]}", 2))
        if sheet.rows:
            found.append(Table(["", "Amount", "Clause"], [_line(row) for row in sheet.rows], [5, 1.6, 2.2], right=[1]))
    return found


def _line(row: Row) -> list[Text]:
    clause = row.value.clause
    return [row.text, amount(row.value), "" if clause is None else str(clause)]
