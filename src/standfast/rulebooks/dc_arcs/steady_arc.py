"""A steady arc of a given gap in a direct-current circuit, after Stokes and Oppenlander; energy after Ammerman.

The voltage of the arc grows slowly with its current and its resistance falls, so that voltage and current of circuit
and arc balance at one current above zero. The law holds above a transition current only: a circuit that balances
below it sustains no arc of this kind.
"""

from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, missing, simulated, work
from standfast.shelf import Edition

NARROW = 1e-13
"""Width of the last interval over the bolted current: the balance is found to the last digits of a float."""


class Arc(NamedTuple):
    """Current in A, resistance in ohm, energy in J of an arc; the latter two None where none is sustained."""

    current: Value
    resistance: Value | None
    energy: Value | None


def arc(book: Edition, voltage: Value, fault: Value, gap: Value, time: Value) -> Arc:
    """The arc that the circuit sustains.

    Args:
        book: the papers.
        voltage: open-circuit voltage in V.
        fault: bolted fault current in A.
        gap: length of the gap in mm.
        time: duration in s.

    Returns:
        The arc; its current is zero where the circuit sustains none.

    Raises:
        OutsideTable: for a circuit without a source, or a gap below zero.
    """
    lacking = [each for each in (voltage, fault, gap, time) if each.missing]
    if lacking:
        return Arc(missing("I_arc", "A", "; ".join(each.how for each in lacking), *lacking), None, None)
    if voltage.quantity <= 0 or fault.quantity <= 0 or gap.quantity < 0:
        raise OutsideTable("an arc needs a voltage and a fault current above zero, and a gap")
    clause = book.clause("arc_voltage")
    per_gap = work("c", "c_0 + c_1 * g", "V/A^0.12", clause, *_pair(book, "voltage_base", "voltage_slope"), g=gap)
    circuit = work("R_c", "V / I_bf", "ohm", None, V=voltage, I_bf=fault)
    transition = work("I_t", "I_t0 + I_t1 * g", "A", clause, *_pair(book, "transition_base", "transition_slope"), g=gap)
    found = _balance(voltage.quantity, circuit.quantity, per_gap.quantity, fault.quantity)
    if found <= transition.quantity:
        how = f"balance at {found:.4g} A, below the transition current: no sustained arc"
        return Arc(simulated("I_arc", 0.0, "A", how, voltage, circuit, per_gap, transition), None, None)
    how = "greater balance of V = I R_c + c I^0.12, by halving the interval"
    current = simulated("I_arc", found, "A", how, voltage, circuit, per_gap, transition)
    text, clause = "c / I_arc**0.88", book.clause("arc_resistance")
    resistance = work("R_arc", text, "ohm", clause, per_gap, current)
    energy = work("E_arc", "I_arc**2 * R_arc * t", "J", book.clause("arc_energy"), current, resistance, t=time)
    return Arc(current, resistance, energy)


def open_air(book: Edition, energy: Value, distance: Value) -> Value:
    """Incident energy in cal/cm2 in open air, from the energy of the arc in J and the distance in mm."""
    density = work("e", "E_arc / (4 * pi * d**2)", "J/mm2", book.clause("open_air"), E_arc=energy, d=distance)
    return _per_square_centimetre(book, density)


def in_front_of_a_box(book: Edition, energy: Value, distance: Value, size: Value, factor: Value) -> Value:
    """Incident energy in cal/cm2 in front of an open box: its size a in mm and its factor k."""
    text = "k * E_arc / (a**2 + d**2)"
    density = work("e", text, "J/mm2", book.clause("box"), k=factor, E_arc=energy, a=size, d=distance)
    return _per_square_centimetre(book, density)


def box(book: Edition, enclosure: str) -> tuple[Value, Value]:
    """Size a in mm and factor k of ``lv_switchgear``, ``mv_switchgear`` or ``panelboard``."""
    table = book.table("box_factors")
    return table.pick("a", "a", enclosure=enclosure), table.pick("k", "k", enclosure=enclosure)


def _pair(book: Edition, first: str, second: str) -> tuple[Value, Value]:
    return book.number(first), book.number(second)


def _balance(voltage_v: float, circuit_ohm: float, per_gap: float, fault_a: float) -> float:
    """Current in A at which circuit and arc balance: the voltage left falls as the current grows, so there is one."""
    low, high = 0.0, fault_a
    while high - low > NARROW * fault_a:
        middle = (low + high) / 2
        if voltage_v - middle * circuit_ohm > per_gap * middle**0.12:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _per_square_centimetre(book: Edition, density: Value) -> Value:
    return work("E_i", "100 * e / J_cal", "cal/cm2", None, book.number("calorie"), e=density)
