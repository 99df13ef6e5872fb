"""Bolted fault of a battery: its open-circuit voltage over everything in the loop.

Take full charge and the least internal resistance, that of a new, warm battery. A short circuit of chemistry is not
that of a resistance: the answer is what tables of batteries give, and a stated test of the maker goes before it.
"""

from standfast.faults import OutsideTable
from standfast.sheet import Value, work
from standfast.shelf import Edition


def current(book: Edition, voltage: Value, internal: Value, leads: Value) -> Value:
    """Fault current in kA.

    Args:
        book: the handbook.
        voltage: open-circuit voltage at full charge, in V.
        internal: least internal resistance in milliohm.
        leads: of both conductors up to the fault and of every joint, in milliohm; zero at the terminals.

    Raises:
        OutsideTable: for a battery without internal resistance.
    """
    if not internal.missing and internal.quantity <= 0:
        raise OutsideTable("a battery has an internal resistance above zero")
    text = "U_oc / (R_int + R_leads)"
    return work("I_bat", text, "kA", book.clause("battery_fault"), U_oc=voltage, R_int=internal, R_leads=leads)


def fed_back(book: Edition, current_: Value, together: Value) -> Value:
    """What the others of equal batteries on one busbar drive into a fault of one, in kA.

    Args:
        book: the handbook.
        current_: of one battery in kA.
        together: batteries on the busbar.
    """
    text = "(n_bat - 1) * I_bat"
    return work("I_back", text, "kA", book.clause("battery_fault"), I_bat=current_, n_bat=together)
