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


def in_a_box(book: Edition, energy: Value) -> Value:
    """Incident energy in cal/cm2 where the arc is in an enclosure that throws it out to the front."""
    clause = book.clause("dc_arc_box")
    return work("E_box", "k_box * E_i", "cal/cm2", clause, book.number("box_factor"), E_i=energy)


def boundary_in_a_box(book: Edition, open_air: Value) -> Value:
    """Distance in cm at which it falls to the same energy as in open air at `open_air` in cm."""
    clause = book.clause("dc_arc_box")
    return work("D_box", "sqrt(k_box) * D_b", "cm", clause, book.number("box_factor"), D_b=open_air)


def band(book: Edition, energy: Value) -> Value:
    """What clothing an incident energy in cal/cm2 asks for, in words. OutsideTable beyond every category."""
    return book.table("clothing").look("band", "clothing", energy=energy)
