"""What a choice costs, row by row: conductors, raceways, breakers, fixings, and the work that the place causes."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.anchorage.held import Anchorage
from standfast.design.siting.choosing import Question
from standfast.design.siting.placed import PlacedUnit
from standfast.design.siting.solid import mm
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.raceway import Raceway
from standfast.design.wiring.whole import Wiring
from standfast.equipment.model import Sheet
from standfast.equipment.prices import Price, Prices
from standfast.reading import Document
from standfast.sheet import Value
from standfast.units import convert

SheetFile = Document[Sheet]
METALS = {"cu": "copper", "al": "aluminium"}
"""Metals of conductors, in words."""


class Row(NamedTuple):
    """One row of the price of a choice.

    Attributes:
        group: ``conductors``, ``raceways``, ``breakers``, ``fixings`` or ``work``.
        what: what it is.
        amount: how much of it; None where that is not known.
        unit: of the amount.
        price: of one; None where the list has none.
    """

    group: str
    what: str
    amount: float | None
    unit: str
    price: Price | None

    @property
    def sum(self) -> float | None:
        """Its part of the price; None where count or price are not known."""
        return None if self.amount is None or self.price is None else self.amount * self.price.amount


def price(rows: Sequence[Row]) -> float:
    """The sum of all rows that have one."""
    return sum(row.sum for row in rows if row.sum is not None)


def unpriced(rows: Sequence[Row]) -> int:
    """How many rows have no sum."""
    return sum(row.sum is None for row in rows)


def of_wiring(wiring: Wiring, sheets: Mapping[str, SheetFile], prices: Prices) -> list[Row]:
    """The rows of everything new in the wiring that a choice can change."""
    rows = [row for circuit in wiring.circuits for row in of_circuit(circuit, prices)]
    rows += (breaker(each.breaker, sheets, prices) for each in wiring.units)
    rows += (breaker(each.device, sheets, prices) for each in wiring.feeders if each.added)
    return gathered(rows)


def of_circuit(circuit: Circuit, prices: Prices) -> Iterator[Row]:
    """Conductors and raceways of the new runs of a circuit, at the long end of their survey."""
    metal, size, ground = circuit.conductor.conditions.material, circuit.conductor.size, circuit.ground
    for tube in circuit.raceways:
        if not tube.run.new:
            continue
        feet = None if tube.run.longest.missing else tube.run.longest.quantity
        for wire, count in ((size, lines(circuit)), (ground, 1)):
            known = feet is not None and count is not None and not (metal.missing or wire.missing)
            word = f"{metal.word} {wire.word}" if known else ""
            long = feet * count if known and feet is not None and count is not None else None
            what = f"{METALS[metal.word]} conductor, size {wire.word}" if known else "conductor of unknown size"
            yield Row("conductors", what, long, "ft", prices.of("conductor", word))
        for each in tube.kinds:
            yield from _tube(each, None if each.longest.missing else each.longest.quantity, prices)


def lines(circuit: Circuit) -> float | None:
    """Conductors of the full size in a run: two of each set, and a neutral unless none is run.

    None where the number of sets is not known.
    """
    if circuit.sets is not None and circuit.sets.missing:
        return None
    poles = 2.0 * (1.0 if circuit.sets is None else circuit.sets.quantity)
    return poles if circuit.neutral.number is False else poles + 1.0


def of_anchorage(held: Anchorage, prices: Prices) -> list[Row]:
    """The fixings of one unit, in its wall and in its base."""
    found = [(held.fixing, len(held.holes))]
    if held.foot is not None and held.foot.anchor is not None:
        found.append((held.foot.anchor, len(held.foot.holes)))
    return [
        Row("fixings", sheet.content.name, float(count), "piece", prices.of("piece", sheet.content.id))
        for sheet, count in found
        if sheet is not None and count
    ]


def of_place(place: PlacedUnit, ask: Question, prices: Prices) -> list[Row]:
    """The work that the place of one unit causes, as far as the list prices it."""
    x, _, z = place.unit.solid
    if x is None or z is None:
        return []
    strays = ask.strays(x.low)
    off = [each for each in strays if each > ask.off_allowed]
    counted = {
        "blocking": (float(len(off)), "column", "blocking for a column of holes off the studs"),
        "lift": (convert(mm(z.low), "mm", "ft"), "ft", "lift: lower edge above the floor"),
        "aim": (
            convert(mm(sum(strays) - sum(off)), "mm", "in"),
            "in",
            "care: columns of holes off the middle of their studs",
        ),
    }
    return [
        Row("work", what, count, unit, found)
        for word, (count, unit, what) in counted.items()
        if (found := prices.of("work", word)) is not None and count
    ]


def gathered(rows: Sequence[Row]) -> list[Row]:
    """Rows of one thing as one row, in the order in which they came."""
    found: dict[tuple[str, str, str], Row] = {}
    for row in rows:
        key = (row.group, row.what, row.unit)
        before = found.get(key)
        if before is None:
            found[key] = row
        else:
            known = before.amount is not None and row.amount is not None
            found[key] = row._replace(amount=(before.amount or 0.0) + (row.amount or 0.0) if known else None)
    return list(found.values())


def _tube(tube: Raceway, feet: float | None, prices: Prices) -> Iterator[Row]:
    known = not (tube.kind.missing or tube.trade_size.missing)
    word = f"{tube.kind.word} {tube.trade_size.word}" if known else ""
    what = f"raceway {word} in" if known else "raceway of unknown size"
    yield Row("raceways", what, feet if known else None, "ft", prices.of("raceway", word))
    yield Row("raceways", f"end of {what}", 2.0 if known else None, "piece", prices.of("fitting", word))


def breaker(rating: Value, sheets: Mapping[str, SheetFile], prices: Prices) -> Row:
    """The row of a new breaker: the price of its step, else that of its family."""
    sheet = sheets.get("breaker")
    if sheet is None or rating.missing:
        return Row("breakers", "breaker", 1.0, "piece", None)
    step = f"{sheet.content.id} {rating.quantity:g}"
    found = prices.of("breaker", step) or prices.of("piece", sheet.content.id)
    return Row("breakers", f"{sheet.content.name}, {rating.quantity:g} A", 1.0, "piece", found)
