"""Resistance of cables and the voltage along them."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def resistance(book: Edition, area: Value) -> Value:
    """Resistance of a copper conductor in ohm/km at 20 °C, by its area in mm2."""
    return book.table("resistance").look("r", "r", area=area)


def warm_factor(book: Edition, cable: str) -> Value:
    """By how much the conductors of a kind of cable resist more at their temperature in use than at 20 °C."""
    text, clause = "1 + alpha_20 * (t_c - 20)", book.clause("resistance")
    return work("k_warm", text, "1", clause, book.number("copper_alpha"),
                t_c=book.table("cables").pick("t_c", "temperature", cable=cable))  # fmt: skip


def three_phase_drop(book: Edition, cable: str, area: Value) -> Value:
    """Voltage drop in mV/A/m between lines, balanced, conductors as warm as they may be in use."""
    text = "sqrt(3) * r * k_warm"
    return work("V_c", text, "mV/A/m", book.clause("voltage_drop"), resistance(book, area), warm_factor(book, cable))


def single_phase_drop(book: Edition, cable: str, area: Value) -> Value:
    """Voltage drop in mV/A/m of line and neutral: the three-phase value by the factor of the standard."""
    three = three_phase_drop(book, cable, area)
    return work(
        "V_c1", "k_single * V_c", "mV/A/m", book.clause("voltage_drop"), three, book.number("single_phase_factor")
    )
