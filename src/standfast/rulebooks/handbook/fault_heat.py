"""What a conductor stands for the short time of a fault: all heat stays in it.

For faults that a device clears within a tenth of a second the energy that the device lets through counts, as its maker
states it, and not the current times a time that is read from a curve.
"""

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


def withstand(book: Edition, metal: Value, area: Value) -> Value:
    """I²t in A²·s that brings a conductor from its rated temperature to the limit of its insulation.

    Args:
        book: the handbook.
        metal: ``cu`` or ``al``.
        area: of the conductor in circular mils.
    """
    clause, size = book.clause("conductor_heat"), work("S", "A * k_area", "mm2", None, book.number("cmil_area"), A=area)
    if metal.missing:
        return chosen("K2S2", 0.0, "A²·s", "", clause, metal)
    k, beta = book.number(f"heat_constant_{metal.word}"), book.number(f"zero_resistance_{metal.word}")
    return work(
        "K2S2", "(K * S)**2 * ln((theta_f + beta) / (theta_i + beta))", "A²·s", clause, size, k, beta,
        theta_i=book.number("tabulated_conductor"), theta_f=book.number("fault_limit"),
    )  # fmt: skip
