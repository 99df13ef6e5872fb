"""Ampacity of conductors: the table, its correction for ambient heat and its adjustment for bundling."""

from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


class Selected(NamedTuple):
    """The smallest conductor for a current: amperes of one set, its size, its ampacity from the table."""

    per_set: Value
    size: Value
    ampacity: Value


def tabulated(book: Edition, material: Value, size: Value, insulation: Value, symbol: str = "I_tab") -> Value:
    """Ampacity in A of Table 310.16: three conductors at most in raceway, cable or earth, at 30 °C.

    Args:
        book: the code.
        material: ``cu`` or ``al``.
        size: a size word.
        insulation: temperature of the column in °C: 60, 75 or 90.
        symbol: symbol of the result.
    """
    return book.table("ampacity").look(symbol, "ampacity", material=material, insulation_c=insulation, size=size)


def insulation_temperature(book: Edition, insulation: Value, wet: Value) -> Value:
    """Greatest temperature in °C of ``thhn``, ``xhhw``, ``xhhw-2`` or ``thw``; `wet` is yes outdoors and where damp."""
    if wet.missing:
        return chosen("T_ins", 0.0, "°C", "", None, wet)
    place = chosen("place", "wet" if wet.yes else "dry", "", "where the conductors run", None, wet)
    return book.table("insulation_temperature").look("T_ins", "temperature", insulation=insulation, place=place)


def celsius(book: Edition, fahrenheit: Value) -> Value:
    """An ambient temperature in °C. The bands of the correction table are decided in °C, after conversion."""
    return work("T_amb", "(T_F - 32) * 5 / 9", "°C", None, T_F=fahrenheit)


def on_roof(book: Edition, ambient: Value, height: Value, exempt: Value) -> Value:
    """Ambient temperature of a raceway or cable exposed to sun on or above a roof.

    Args:
        book: the code.
        ambient: outdoor temperature in °C.
        height: from the roof to the bottom of the raceway or cable, in inches.
        exempt: yes where the insulation is XHHW-2.
    """
    clause, least = book.clause("roof_adder"), book.number("roof_height")
    if ambient.missing or height.missing or exempt.missing:
        return chosen("T_amb", 0.0, "°C", "", clause, ambient, height, exempt)
    if exempt.yes:
        return chosen("T_amb", ambient.quantity, "°C", "insulation is exempt", clause, ambient, exempt)
    if height.quantity >= least.quantity:
        met = "raceway is not lower than the height above the roof"
        return chosen("T_amb", ambient.quantity, "°C", met, clause, ambient, height, least)
    return work("T_amb", "T_out + T_roof", "°C", clause, book.number("roof_adder"), T_out=ambient)


def ambient_factor(book: Edition, insulation: Value, ambient: Value) -> Value:
    """Correction for an ambient other than 30 °C: steps of the table, no interpolation; 40.1 °C is in the next band.

    OutsideTable where the insulation may not be used at that ambient at all.
    """
    table = book.table("ambient_factor")
    return table.look("k_amb", "factor", insulation_c=insulation, ambient_c=ambient)


def bundling_factor(book: Edition, conductors: Value) -> Value:
    """Adjustment for more than three current-carrying conductors in a raceway or bundle longer than 24 in.

    Args:
        book: the code.
        conductors: those that count: each of a parallel set, spares, no equipment grounding conductor, no neutral
            that carries only the imbalance of its circuit.
    """
    free = book.number("adjustment_free")
    if not conductors.missing and conductors.quantity <= free.quantity:
        clause = book.clause("bundling")
        return chosen("k_adj", 1.0, "1", "no more than the table of ampacities assumes", clause, conductors, free)
    return book.table("bundling_factor").look("k_adj", "factor", conductors=conductors)


def corrected(book: Edition, tabulated: Value, ambient: Value, bundling: Value) -> Value:
    """Ampacity in A after both factors; the 125 % of continuous load has no place here."""
    clause = book.clause("ampacity_corrected")
    return work("I_z", "I_tab * k_amb * k_adj", "A", clause, I_tab=tabulated, k_amb=ambient, k_adj=bundling)


def of_sets(book: Edition, one: Value, sets: Value, size: Value) -> Value:
    """Ampacity in A of equal conductors in parallel.

    Raises:
        OutsideTable: for sizes that may not be joined in parallel.
    """
    least, clause = book.number("smallest_parallel"), book.clause("parallel_conductors")
    several = not (sets.missing or size.missing) and sets.quantity > 1
    if several and not sizes.not_smaller(book, size.word, least.word):
        raise OutsideTable(f"{clause} joins conductors in parallel from {least.word} only, not {size.word}")
    return work("I_sets", "n_set * I_z", "A", clause, n_set=sets, I_z=one)


def dwelling_least(book: Edition, rating: Value) -> Value:
    """Least ampacity in A of service or feeder conductors that carry the entire load of one dwelling unit.

    Never for the feeder of a battery, a partial backup panel or an inverter output: they do not carry the entire load.

    Raises:
        OutsideTable: for a rating outside 100 to 400 A.
    """
    least, greatest = book.number("dwelling_least"), book.number("dwelling_greatest")
    if not rating.missing and not least.quantity <= rating.quantity <= greatest.quantity:
        text = f"{least.quantity:g} to {greatest.quantity:g} A"
        raise OutsideTable(
            f"{book.clause('dwelling_83_percent')} holds for ratings of {text}, not {rating.quantity:g} A"
        )
    factor = book.number("dwelling_factor")
    return work("I_min", "k_83 * I_n", "A", book.clause("dwelling_83_percent"), factor, I_n=rating)


def usable(book: Edition, material: str, insulation: float, parallel: bool) -> list[str]:
    """Sizes that general wiring may use, smallest first: 310.3(A), and 310.10(G) where conductors are in parallel."""
    least = book.number("smallest_parallel" if parallel else f"smallest_{material}").word
    rows = book.table("ampacity").rows
    held = {row["size"] for row in rows if row["material"] == material and row["insulation_c"] == insulation}
    return [size for size in sizes.order(book) if size in held and sizes.not_smaller(book, size, least)]


def smallest(book: Edition, needed: Value, sets: Value, material: Value, insulation: Value) -> Selected:
    """Smallest conductor whose table ampacity reaches a current.

    Args:
        book: the code.
        needed: amperes of all sets together.
        sets: conductors in parallel per phase; more than one only from 1/0.
        material: ``cu`` or ``al``.
        insulation: column of the table in °C.

    Raises:
        OutsideTable: beyond the largest size of the table.
    """
    clause = book.clause("parallel_conductors" if not sets.missing and sets.quantity > 1 else "ampacity")
    per_set = work("I_set", "I_req / n_set", "A", clause, I_req=needed, n_set=sets)
    if per_set.missing or material.missing or insulation.missing:
        size = chosen("size", "", "", "", None, per_set, material, insulation)
        return Selected(per_set, size, chosen("I_tab", 0.0, "A", "", None, size))
    for word in usable(book, material.word, insulation.quantity, sets.quantity > 1):
        ampacity = book.table("ampacity").pick(
            "I_tab", "ampacity", material=material.word, insulation_c=insulation.quantity, size=word
        )
        if ampacity.quantity >= per_set.quantity:
            size = chosen("size", word, "", "smallest size of at least the current", clause, ampacity, per_set)
            return Selected(per_set, size, ampacity)
    raise OutsideTable(f"{book.table('ampacity').clause} ends before {per_set.quantity:.4g} A: use more sets")
