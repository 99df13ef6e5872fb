"""One row of the bill of materials."""

from typing import Literal, NamedTuple

from standfast.fieldwork.rows import counted, open_needs
from standfast.sheet import Value

Group = Literal[
    "chosen equipment", "conductors", "raceway", "switchgear", "fixing", "sealing", "labels", "detection",
    "vehicle protection", "named by the maker", "existing house", "protective equipment",
]  # fmt: skip


class Material(NamedTuple):
    """One thing that must be on the van: the chosen equipment, and what is not in its boxes.

    Attributes:
        group: shelf it comes from.
        what: what it is, with its size.
        quantity: how much; its trail says why.
        amount: the quantity for print.
        use: what it is for; cuts of conductors.
        ground: where the quantity comes from, for print: ``common practice`` and so on.
        needs: what must be found out before the quantity is known.
        of: ids of the runs, devices, panels, walls or rooms that it is for.
        ware: what it is in a price list: table and word.
        per: of a row counted in pieces that are priced by length: feet of one piece.
    """

    group: Group
    what: str
    quantity: Value
    amount: str
    use: str
    ground: str
    needs: tuple[str, ...]
    of: tuple[str, ...] = ()
    ware: tuple[str, str] | None = None
    per: float = 1.0


USUAL = ("protective equipment", "sealing")
"""Groups whose rows nothing asks but the custom of the trade."""


def material(
    group: Group, what: str, quantity: Value, use: str, language: str, amount: str = "", of: tuple[str, ...] = ()
) -> Material:
    """A row; `amount` overrules how the quantity is printed."""
    seen = [value.seen for value in quantity.trail() if value.seen is not None]
    grounds = dict.fromkeys(seen or (["common practice"] if group in USUAL else []))
    shown = amount or counted(quantity, language)
    return Material(group, what, quantity, shown, use, ", ".join(grounds), open_needs(quantity), of)
