"""Greatest and least initial short-circuit current of a network: voltage factor, transformer, faults of every kind.

The book works with one voltage source c U_n / sqrt(3) at the fault and the impedance of everything behind it. Compare
two programs only where both take the same c.
"""

from typing import Literal

from standfast.faults import OutsideTable
from standfast.sheet import Value, work
from standfast.shelf import Edition

End = Literal["greatest", "greatest, wide tolerance", "least"]
"""The greatest current, in networks that keep 6 % and 10 % of voltage tolerance, and the least."""
_FACTORS: dict[End, str] = {"greatest": "c_max", "greatest, wide tolerance": "c_max_wide", "least": "c_min"}


def voltage_factor(book: Edition, end: End) -> Value:
    """Factor c on the nominal voltage of a low-voltage network."""
    return book.number(_FACTORS[end])


def network(book: Edition, c: Value, voltage: Value, current: Value) -> Value:
    """Impedance per phase in milliohm of a network with a stated three-phase current in kA, at a voltage in V."""
    if not current.missing and current.quantity <= 0:
        raise OutsideTable(f"{current.symbol}: a short-circuit current is above zero")
    return work("Z_Q", "c * U_n / (sqrt(3) * I_kQ)", "mohm", book.clause("network"), c=c, U_n=voltage, I_kQ=current)


def transformer(book: Edition, power: Value, voltage: Value, u_k: Value) -> Value:
    """Impedance per phase in milliohm of a two-winding transformer: power in kVA, voltage in V, u_k in per cent."""
    for each in (power, voltage, u_k):
        if not each.missing and each.quantity <= 0:
            raise OutsideTable(f"{each.symbol} = {each.quantity:g} {each.unit}: there is no such transformer")
    text = "u_k / 100 * U_rT**2 / S_rT"
    return work("Z_T", text, "mohm", book.clause("transformer"), u_k=u_k, U_rT=voltage, S_rT=power)


def correction(book: Edition, c: Value, reactance: Value) -> Value:
    """Factor K_T on the impedance of a network transformer for the greatest current.

    Args:
        book: IEC 60909-0.
        c: the greatest voltage factor of the network on its low-voltage side.
        reactance: relative reactance of the transformer, as a ratio.
    """
    k, share = book.number("transformer_correction"), book.number("transformer_reactance")
    clause = book.clause("transformer_correction")
    return work("K_T", "k_T * c / (1 + k_x * x_T)", "1", clause, k, share, c=c, x_T=reactance)


def three_phase(book: Edition, c: Value, voltage: Value, r: Value, x: Value) -> Value:
    """Current in kA of a fault of all three phases: impedance per phase in milliohm, voltage line to line in V."""
    text = "c * U_n / (sqrt(3) * hypot(R, X))"
    return _current(book, "three_phase", text, {"c": c, "U_n": voltage, "R": r, "X": x})


def line_to_line(book: Edition, c: Value, voltage: Value, r: Value, x: Value) -> Value:
    """Current in kA between two lines."""
    return _current(book, "line_to_line", "c * U_n / (2 * hypot(R, X))", {"c": c, "U_n": voltage, "R": r, "X": x})


def line_to_earth(
    book: Edition, c: Value, voltage: Value, r: Value, x: Value, r_zero: Value, x_zero: Value
) -> Value:  # fmt: skip
    """Current in kA from one line to neutral or earth: positive-sequence and zero-sequence impedances in milliohm."""
    text = "sqrt(3) * c * U_n / hypot(2 * R_1 + R_0, 2 * X_1 + X_0)"
    named = {"c": c, "U_n": voltage, "R_1": r, "X_1": x, "R_0": r_zero, "X_0": x_zero}
    return _current(book, "line_to_earth", text, named)


def _current(book: Edition, kind: str, text: str, named: dict[str, Value]) -> Value:
    impedances = [value for name, value in named.items() if name not in ("c", "U_n")]
    if not any(each.missing for each in impedances) and all(each.quantity <= 0 for each in impedances):
        raise OutsideTable("a fault behind no impedance has no finite current: give the impedance of the source")
    return work("I_k", text, "kA", book.clause(kind), **named)
