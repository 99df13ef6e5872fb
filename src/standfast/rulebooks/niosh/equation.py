"""The recommended weight limit at one point, and the lifting index (NIOSH 94-110, revised lifting equation).

Every function works in inches and pounds or in centimetres and kilograms: the unit of the lengths decides, and both
forms of the equation stand in the edition. Multipliers are ratios; one of 0 means that nothing may be lifted there.
"""

from decimal import ROUND_HALF_UP, Decimal, InvalidOperation
from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, chosen, missing, work
from standfast.shelf import Edition


class Multipliers(NamedTuple):
    """The six multipliers at one point of a lift: distance, height, travel, twist, frequency, grip."""

    HM: Value
    VM: Value
    DM: Value
    AM: Value
    FM: Value
    CM: Value


def horizontal(book: Edition, H: Value) -> Value:
    """HM: how far the hands are out from the ankles. 1 up to the reference distance, 0 beyond the longest reach.

    Args:
        book: the edition.
        H: distance from the middle of the ankles to the middle of the grip, in or cm.
    """
    clause = book.clause("horizontal_multiplier")
    ref, far = book.number(f"horizontal_reference_{H.unit}"), book.number(f"horizontal_limit_{H.unit}")
    cut = _cut_off(book, "HM", H, far)
    return cut if cut is not None else work("HM", "H_ref / max(H, H_ref)", "1", clause, ref, H=H)


def vertical(book: Edition, V: Value) -> Value:
    """VM: height of the hands over the floor. 1 at knuckle height, 0 above the highest reach. `V` in in or cm."""
    clause = book.clause("vertical_multiplier")
    slope, knuckle = book.number(f"vertical_slope_{V.unit}"), book.number(f"vertical_knuckle_{V.unit}")
    cut = _cut_off(book, "VM", V, book.number(f"vertical_limit_{V.unit}"))
    return cut if cut is not None else work("VM", "1 - c_V * max(V - V_k, V_k - V)", "1", clause, slope, knuckle, V=V)


def travel(book: Edition, D: Value) -> Value:
    """DM: vertical travel between origin and destination, without sign, in in or cm. 1 up to the shortest."""
    clause = book.clause("distance_multiplier")
    base, part = book.number("travel_constant"), book.number(f"travel_numerator_{D.unit}")
    cut = _cut_off(book, "DM", D, book.number(f"travel_limit_{D.unit}"))
    shortest = book.number(f"travel_shortest_{D.unit}")
    return cut if cut is not None else work("DM", "c_D + n_D / max(D, D_min)", "1", clause, base, part, shortest, D=D)


def asymmetry(book: Edition, A: Value) -> Value:
    """AM: twist of the trunk away from straight ahead, without sign, in degrees. 0 beyond the limit."""
    clause = book.clause("asymmetry_multiplier")
    cut = _cut_off(book, "AM", A, book.number("asymmetry_limit"))
    return cut if cut is not None else work("AM", "1 - c_A * A", "1", clause, book.number("asymmetry_slope"), A=A)


def coupling(book: Edition, V: Value, grip: str) -> Value:
    """CM (table 7): the grip, ``good``, ``fair`` or ``poor``, at the height of the hands `V` in in or cm."""
    return book.table("coupling_multiplier").look("CM", "cm", coupling=grip, height=height_band(book, V))


def height_band(book: Edition, V: Value) -> Value:
    """Which column of tables 5 and 7 counts: hands below knuckle height, or at and above it."""
    edge = book.number(f"vertical_knuckle_{V.unit}")
    if V.missing:
        return missing("band", "", V.how, V)
    word = "below" if V.quantity < edge.quantity else "at or above"
    condition = f"hands {word} {edge.quantity:g} {edge.unit}"
    return chosen("band", word, "", condition, book.clause("frequency_multiplier"), V, edge)


def weight_limit(book: Edition, unit: str, m: Multipliers) -> Value:
    """RWL: the load that nearly all healthy workers may lift at this point.

    Args:
        book: the edition.
        unit: ``lb`` where the lengths were in inches, ``kg`` where they were in centimetres.
        m: the multipliers.
    """
    LC = book.number(f"load_constant_{unit}")
    return work("RWL", "LC * HM * VM * DM * AM * FM * CM", unit, book.clause("weight_limit"), LC, **m._asdict())


def weight_limit_without_frequency(book: Edition, unit: str, m: Multipliers) -> Value:
    """FIRWL: as the weight limit, without the frequency multiplier; the composite index is made of it."""
    LC = book.number(f"load_constant_{unit}")
    rest = {name: value for name, value in m._asdict().items() if name != "FM"}
    return work("FIRWL", "LC * HM * VM * DM * AM * CM", unit, book.clause("composite_index"), LC, **rest)


def index(book: Edition, L: Value, RWL: Value) -> Value:
    """LI: the load over the limit. OutsideTable where the limit is 0: there the index has no value."""
    if not RWL.missing and RWL.quantity <= 0:
        raise OutsideTable(f"{book.short}: nothing may be lifted here, so the load has no lifting index")
    return work("LI", "L / RWL", "1", book.clause("lifting_index"), L=L, RWL=RWL)


def rounded(book: Edition, value: Value, places: int) -> Value:
    """A result as the manual's worksheet writes it: rounded to so many decimals, halves up.

    OutsideTable for a number that no worksheet has room for.
    """
    if value.missing:
        return value
    step = Decimal(1).scaleb(-places)
    try:
        number = float(Decimal(f"{value.quantity:.9f}").quantize(step, ROUND_HALF_UP))
    except InvalidOperation:
        raise OutsideTable(f"{book.short}: {value.symbol} = {value.quantity:g} is no number of a worksheet") from None
    how = f"written with {places} decimals, halves up"
    return chosen(value.symbol, number, value.unit, how, book.clause("worksheet"), value)


def _cut_off(book: Edition, symbol: str, value: Value, limit: Value) -> Value | None:
    if value.missing:
        return missing(symbol, "1", value.how, value)
    if value.quantity < 0:
        raise OutsideTable(f"{book.short}: {value.symbol} is measured without sign, but {value.quantity:g} was given")
    if value.quantity > limit.quantity:
        how = f"{value.symbol} is over {limit.quantity:g} {limit.unit}: nothing may be lifted"
        return chosen(symbol, 0.0, "1", how, limit.clause, value, limit)
    return None
