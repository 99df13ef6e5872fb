"""Bolted fault currents with resistance and reactance apart, piece by piece from the source to the fault.

The greatest current decides what a device has to break: strong grid, impedances at the low end of their tolerance,
shortest lengths, cold conductors. The least decides whether it trips: the opposite of all of these. Every function
takes and gives plain values; which end of a tolerance they stand for is the caller's choice.

A single-phase loop goes and returns, so that the run of both conductors counts. A fault with no impedance at all has
no finite current and is refused, as is a transformer that cannot exist.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, given, missing, total, work
from standfast.shelf import Edition

NO_LOOP = "a fault behind no impedance has no finite current: give the impedance of the source"


class Impedance(NamedTuple):
    """Resistance and reactance in milliohm."""

    r: Value
    x: Value


def none(reason: str) -> Impedance:
    """Nothing in the way.

    Args:
        reason: why nothing is counted.
    """
    return Impedance(given("R", 0.0, "mohm", reason), given("X", 0.0, "mohm", reason))


def unknown(need: str) -> Impedance:
    """A piece of which something is missing: no current behind it can be told."""
    return Impedance(missing("R", "mohm", need), missing("X", "mohm", need))


def split(book: Edition, z: Value, x_over_r: Value) -> Impedance:
    """Resistance and reactance of an impedance.

    Args:
        book: the handbook.
        z: magnitude in milliohm.
        x_over_r: ratio of reactance to resistance.
    """
    clause = book.clause("fault_vector")
    r = work("R", "Z / sqrt(1 + q**2)", "mohm", clause, Z=z, q=x_over_r)
    return Impedance(r, work("X", "q * R", "mohm", clause, r, q=x_over_r))


def of_current(book: Edition, voltage: Value, current: Value, x_over_r: Value) -> Impedance:
    """Impedance of a loop in which a known current flows while it is shorted.

    Args:
        book: the handbook.
        voltage: of the loop in V.
        current: bolted fault current of that loop in kA.
        x_over_r: ratio of reactance to resistance.
    """
    if not current.missing and current.quantity <= 0:
        raise OutsideTable(f"{current.symbol}: a fault current is above zero")
    return split(book, work("Z", "U / I_k", "mohm", book.clause("fault_vector"), U=voltage, I_k=current), x_over_r)


def of_level(book: Edition, voltage: Value, level: Value, x_over_r: Value) -> Impedance:
    """Impedance of the grid ahead of a transformer, seen from its other side.

    Args:
        book: the handbook.
        voltage: of the side on which the fault is, in V: per phase line to line, of a single-phase winding its own.
        level: fault level in kVA.
        x_over_r: ratio of reactance to resistance.
    """
    if not level.missing and level.quantity <= 0:
        raise OutsideTable(f"{level.symbol}: a fault level is above zero")
    return split(book, work("Z", "U**2 / S_k", "mohm", book.clause("fault_vector"), U=voltage, S_k=level), x_over_r)


def of_transformer(book: Edition, power: Value, voltage: Value, z: Value, factor: Value, x_over_r: Value) -> Impedance:
    """Impedance of a transformer seen from its secondary.

    Of a single-phase transformer that of the whole winding, so of the loop between its two lines; of a three-phase one
    that of each phase.

    Args:
        book: the handbook.
        power: rated power in kVA.
        voltage: of the secondary, line to line, in V.
        z: marked impedance in per cent.
        factor: on the impedance: 1 less its tolerance for the greatest current, 1 and its tolerance for the least.
        x_over_r: ratio of reactance to resistance.

    Raises:
        OutsideTable: for a transformer that cannot exist.
    """
    possible(book, power, voltage, z, factor)
    clause = book.clause("fault_vector")
    return split(
        book,
        work("Z", "k_z * z_pct / 100 * U**2 / S", "mohm", clause, k_z=factor, z_pct=z, U=voltage, S=power),
        x_over_r,
    )


def possible(book: Edition, power: Value, voltage: Value, z: Value, factor: Value) -> None:
    """Refuses a transformer without power, voltage or impedance, or with one that no transformer has.

    Raises:
        OutsideTable: saying which fact is impossible.
    """
    for each in (power, voltage, z, factor):
        if not each.missing and each.quantity <= 0:
            raise OutsideTable(f"{each.symbol} = {each.quantity:g} {each.unit}: there is no such transformer")
    most = book.number("greatest_impedance")
    if not z.missing and z.quantity >= most.quantity:
        raise OutsideTable(f"{z.symbol} = {z.quantity:g} %: a transformer of {most.quantity:g} % or more is none")


def half_winding(book: Edition, winding: Impedance) -> Impedance:
    """From one line to the neutral at the terminals of a centre-tapped transformer, by the model of half windings.

    On the base of half the voltage the resistance of a half winding is 1.5 times and its reactance 1.2 times that of
    the whole, so that the current is 1.33 (resistance alone) to 1.67 (reactance alone) times that between the lines.

    Args:
        book: the handbook.
        winding: impedance of the whole winding, line to line.
    """
    clause = book.clause("half_winding")
    r = work("R_LN", "k_r * R_LL / 4", "mohm", clause, book.number("half_winding_r"), R_LL=winding.r)
    return Impedance(r, work("X_LN", "k_x * X_LL / 4", "mohm", clause, book.number("half_winding_x"), X_LL=winding.x))


def by_multiple(book: Edition, winding: Impedance) -> Impedance:
    """The same by the convention of hand calculations: a fixed multiple of the current between the lines."""
    clause, k = book.clause("line_to_neutral"), book.number("line_neutral_multiplier")
    r = work("R_LN", "R_LL / (2 * k_LN)", "mohm", clause, k, R_LL=winding.r)
    return Impedance(r, work("X_LN", "X_LL / (2 * k_LN)", "mohm", clause, k, X_LL=winding.x))


def at_temperature(book: Edition, metal: str, resistance: Value, at: Value, now: Value) -> Value:
    """Resistance of a conductor at another temperature, in the unit that it is given in.

    Args:
        book: the handbook.
        metal: ``cu`` or ``al``.
        resistance: at temperature `at`.
        at: temperature of the table in °C.
        now: temperature asked for in °C.
    """
    beta, clause = book.number(f"zero_resistance_{metal}"), book.clause("conductor_temperature")
    text = "R_t * (beta + theta) / (beta + theta_t)"
    return work("R_theta", text, resistance.unit, clause, beta, R_t=resistance, theta=now, theta_t=at)


def of_conductor(book: Edition, r: Value, x: Value, length: Value, parallel: Value) -> Impedance:
    """One conductor of a run, one way; several in parallel share the current.

    Args:
        book: the handbook.
        r: resistance per length, in ohm/kft or mohm/m.
        x: reactance per length, in the same unit.
        length: in ft or m.
        parallel: conductors in parallel, at least one.
    """
    if not parallel.missing and parallel.quantity < 1:
        raise OutsideTable("a run has at least one conductor to each pole")
    if not length.missing and length.quantity < 0:
        raise OutsideTable(f"{length.symbol}: a run is not shorter than nothing")
    clause = book.clause("fault_vector")
    return Impedance(
        work("R_c", "r * L / n", "mohm", clause, r=r, L=length, n=parallel),
        work("X_c", "x * L / n", "mohm", clause, x=x, L=length, n=parallel),
    )


def in_series(book: Edition, pieces: Sequence[Impedance]) -> Impedance:
    """Everything in a row: resistances and reactances are added apart."""
    clause = book.clause("fault_vector")
    return Impedance(
        total("R", [each.r for each in pieces], "mohm", clause), total("X", [each.x for each in pieces], "mohm", clause)
    )


def in_loop(book: Edition, voltage: Value, loop: Impedance) -> Value:
    """Current in kA round a loop: out through one conductor, back through the other; voltage of that loop in V."""
    return _through(book, "U / hypot(R, X)", voltage, loop)


def three_phase(book: Edition, voltage: Value, phase: Impedance) -> Value:
    """Current in kA of a fault of all three phases: impedance of each phase, voltage line to line in V."""
    return _through(book, "U / (sqrt(3) * hypot(R, X))", voltage, phase)


def two_phase(book: Edition, voltage: Value, phase: Impedance) -> Value:
    """Current in kA between two lines of a three-phase system: impedance of each phase, voltage line to line in V."""
    return _through(book, "U / (2 * hypot(R, X))", voltage, phase)


def told(ask: Sequence[Impedance]) -> bool:
    """Whether every piece is known."""
    return not any(each.r.missing or each.x.missing for each in ask)


def _through(book: Edition, text: str, voltage: Value, path: Impedance) -> Value:
    if told([path]) and path.r.quantity <= 0 and path.x.quantity <= 0:
        raise OutsideTable(NO_LOOP)
    return work("I_k", text, "kA", book.clause("fault_vector"), U=voltage, R=path.r, X=path.x)
