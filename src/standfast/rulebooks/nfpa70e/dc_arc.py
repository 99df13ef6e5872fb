"""Incident energy of a direct-current arc by the greatest power that the circuit can give.

The arc has its greatest power where its voltage is half that of the circuit. The result errs on the safe side; it is
one of the things that the licensed person looks at, never leave to work on live parts.
"""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def arc_current(book: Edition, fault: Value) -> Value:
    """Arc current in A from the bolted fault current in A."""
    clause = book.clause("dc_arc_current")
    return work("I_arc", "k_arc * I_bf", "A", clause, book.number("arc_share"), I_bf=fault)


def incident_energy(book: Edition, voltage: Value, arc: Value, time: Value, distance: Value) -> Value:
    """Incident energy in cal/cm2 in open air: voltage in V, arc current in A, arc time in s, distance in cm."""
    k, clause = book.number("arc_energy_factor"), book.clause("dc_arc_energy")
    return work("E_i", "k_E * V * I_arc * t / D**2", "cal/cm2", clause, k, V=voltage, I_arc=arc, t=time, D=distance)


def boundary(book: Edition, voltage: Value, arc: Value, time: Value, energy: Value) -> Value:
    """Distance in cm at which the incident energy in open air falls to one in cal/cm2."""
    k, text = book.number("arc_energy_factor"), "sqrt(k_E * V * I_arc * t / E_b)"
    return work("D_b", text, "cm", book.clause("dc_arc_boundary"), k, V=voltage, I_arc=arc, t=time, E_b=energy)
