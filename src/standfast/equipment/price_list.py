"""The text of a price list → Prices and every fault."""

from collections.abc import Iterator
from typing import Annotated, Any, Literal, get_args

from pydantic import Field

from standfast.equipment.prices import TABLES, Prices
from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.complaints import nearest
from standfast.reading.document import NOT_KNOWN
from standfast.reading.positions import Path
from standfast.reading.quantities import Table, Text
from standfast.terms import ExistingPart, Raceway, TradeSize, Wire

Price = Annotated[float, Field(ge=0, le=1_000_000)]
WORK = (
    "blocking", "lift", "aim", "moved breaker", "power control", "other panel", "smaller main",
    "supply-side connection", "larger panel",
)  # fmt: skip
EXAMPLES = {
    "conductor": 'metal and size: "cu 10"', "raceway": 'kind and trade size: "emt 1/2"',
    "fitting": 'kind and trade size: "emt 1/2"',
}  # fmt: skip


class PriceTables(Table):
    """Net prices."""

    piece: dict[str, Price] = Field(default_factory=dict)
    """Price of one piece by the id of its data sheet: demo-lag-5-16 = 1.40."""
    conductor: dict[str, Price] = Field(default_factory=dict)
    """Price of one foot of one conductor by metal and size: "cu 10" = 0.62."""
    raceway: dict[str, Price] = Field(default_factory=dict)
    """Price of one foot of raceway by kind and trade size: "emt 3/4" = 1.10."""
    fitting: dict[str, Price] = Field(default_factory=dict)
    """Price of one end of a raceway with its bushing by kind and trade size: "emt 3/4" = 2.40."""
    breaker: dict[str, Price] = Field(default_factory=dict)
    """Price of one breaker by the id of its data sheet, not by the family on its label, and its rating in A:
    "demo-breaker 30" = 32.0."""
    work: dict[str, Price] = Field(default_factory=dict)
    """Price of work that a choice causes: blocking for a column of holes, lift for a foot, aim for an inch; of a way
    out for a busbar with its parts: "moved breaker", "power control", "other panel", "smaller main",
    "supply-side connection", "larger panel"."""
    adder: dict[str, Price] = Field(default_factory=dict)
    """Price of putting one existing part in order, by the name of the part: "circuit directory" = 95.0."""


class PriceList(PriceTables):
    """A price list: net prices in one currency."""

    schema_: Literal[1] = Field(alias="schema")
    """Version of this format: 1."""
    invented: bool
    """true where the prices are made up."""
    currency: Text
    """Currency of every price: "USD"."""


_STAND_IN: dict[Path, object] = {("schema",): 1, ("invented",): True, ("currency",): NOT_KNOWN}
"""Lets the rest of a list with a faulty head be looked at for faults. Never comes out of `read`."""


def read(text: str, file: str) -> tuple[Prices | None, list[Fault]]:
    """Read a price list: everything that is wrong, at once; None where not even its head could be understood."""
    document, faults, headed = engine.read(text, file, PriceList, _STAND_IN)
    if document is None:
        return None, faults
    content = document.content
    tables = {table: dict(getattr(content, table)) for table in TABLES}
    found = Prices(content.invented, content.currency, {}).filled(tables)
    return found if headed else None, engine.in_order([*faults, *nameless(document, document.content, ())])


def nameless(document: Document[Any], content: PriceTables, path: Path) -> Iterator[Fault]:
    """Faults of words that name nothing that is sold.

    Args:
        document: the file.
        content: its price tables.
        path: of the table in the file that holds them.
    """
    sizes = get_args(Wire)
    known = {
        "conductor": [f"{metal} {size}" for metal in ("cu", "al") for size in sizes],
        "raceway": [f"{kind} {size}" for kind in get_args(Raceway) for size in get_args(TradeSize)],
        "work": list(WORK),
        "adder": list(get_args(ExistingPart)),
    }
    known["fitting"] = known["raceway"]
    for table, words in known.items():
        for word in getattr(content, table):
            if word not in words:
                near = f"write {EXAMPLES[table]}" if table in EXAMPLES else nearest(word, words)
                yield document.fault((*path, table, word), f'{table} has no "{word}"', "", near)
    for word in content.breaker:
        if not word.rpartition(" ")[2].isdecimal() or " " not in word:
            what, todo = f'"{word}" names no breaker', 'write family and rating: "demo-breaker 30"'
            yield document.fault((*path, "breaker", word), what, "", todo)
