"""What was chosen and why, for the last sheet of the permit set: what was proven, the runner-up, the price rows, and
the ways out that the code gives for a busbar with too many sources."""

from collections.abc import Iterator

from standfast.design.choice.rows import Row
from standfast.design.choice.told import TITLE, sentences
from standfast.design.choice.whole import Choice
from standfast.paper.document import Block, Bullets, Heading, Table, Text, Words, bold
from standfast.sheet import Ledger

SMALL = 8
BUSBAR = "wiring.source-busbar/"


def blocks(choice: Choice, ledger: Ledger) -> list[Block]:
    """The section, with its heading; of a choice that has no price row its sentences alone.

    Args:
        choice: what was chosen.
        ledger: every check, with the remedies of those that stand open.
    """
    found: list[Block] = [Heading(TITLE), Bullets(list(sentences(choice)))]
    rows = choice.best.rows
    if rows:
        head = ["What", "Amount", f"Price, {choice.currency}", "Sum"]
        table: list[list[Text]] = [_row(row) for row in rows]
        table.append([bold("Together"), "", "", bold(f"{choice.best.price:.2f}")])
        found.append(Table(head, table, [5, 2, 2.4, 1.4], size=SMALL))
        found.append(Words(f"Sums in {choice.currency}, net. Labour is counted where a row says so.", SMALL))
    return [*found, *_ways_out(ledger)]


def _ways_out(ledger: Ledger) -> Iterator[Block]:
    """Of each busbar that fails: what the code allows instead, each way tried, with its clause and price."""
    for check in ledger.open:
        if check.id.startswith(BUSBAR) and check.remedies:
            yield Words(f"{check.title}: the code gives several ways out. Each was tried on the whole job; take one.")
            yield Bullets(list(check.remedies))


def _row(row: Row) -> list[Text]:
    price = "none" if row.price is None else f"{row.price.amount:.2f}" + (", invented" if row.price.invented else "")
    amount = "not known" if row.amount is None else f"{row.amount:.2f} {row.unit}"
    return [row.what, amount, price, "none" if row.sum is None else f"{row.sum:.2f}"]
