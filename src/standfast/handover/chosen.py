"""What was chosen and why, for the last sheet of the permit set: what was proven, the runner-up, the price rows."""

from standfast.design.choice.rows import Row
from standfast.design.choice.told import TITLE, sentences
from standfast.design.choice.whole import Choice
from standfast.paper.document import Block, Bullets, Heading, Table, Text, Words, bold

SMALL = 8


def blocks(choice: Choice) -> list[Block]:
    """The section, with its heading; of a choice that has no price row its sentences alone."""
    found: list[Block] = [Heading(TITLE), Bullets(list(sentences(choice)))]
    rows = choice.best.rows
    if rows:
        head = ["What", "Amount", f"Price, {choice.currency}", "Sum"]
        table: list[list[Text]] = [_row(row) for row in rows]
        table.append([bold("Together"), "", "", bold(f"{choice.best.price:.2f}")])
        found.append(Table(head, table, [5, 2, 2.4, 1.4], size=SMALL))
        found.append(Words(f"Sums in {choice.currency}, net. Labour is counted where a row says so.", SMALL))
    return found


def _row(row: Row) -> list[Text]:
    price = "none" if row.price is None else f"{row.price.amount:.2f}" + (", invented" if row.price.invented else "")
    amount = "not known" if row.amount is None else f"{row.amount:.2f} {row.unit}"
    return [row.what, amount, price, "none" if row.sum is None else f"{row.sum:.2f}"]
