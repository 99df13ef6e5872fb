"""Bolted fault currents: at a transformer, along a run of conductor, and from impedances in series.

The point-to-point method adds impedances as plain numbers, so its current is never above that of the sum with
resistance and reactance apart. Where the greatest possible current decides (interrupting rating), take the current at
the start of the run or the impedance chain; point-to-point is right where both have the same ratio of X to R.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, total, work
from standfast.shelf import Edition

Loop = Literal["three_phase", "single_phase_line_line", "single_phase_line_neutral"]


class TransformerFault(NamedTuple):
    """Full-load current and bolted fault current at the secondary terminals, both in A."""

    full_load: Value
    fault: Value


class RunFault(NamedTuple):
    """The factor f of a run and the bolted fault current at its end in A."""

    f: Value
    fault: Value


class ChainFault(NamedTuple):
    """Resistance and reactance per phase up to the fault in milliohm, and the fault current in kA."""

    r: Value
    x: Value
    fault: Value


class Cable(NamedTuple):
    """One piece of the chain: milliohm per metre of one conductor, length in m, conductors in parallel."""

    r: Value
    x: Value
    length: Value
    parallel: Value


def at_transformer(
    book: Edition, three_phase: bool, power: Value, voltage: Value, z: Value, tol: Value
) -> TransformerFault:
    """Fault at the secondary terminals while the primary is taken as infinitely strong.

    Args:
        book: the handbook.
        three_phase: false for a single-phase transformer.
        power: rated power in VA.
        voltage: secondary voltage, line to line, in V.
        z: marked impedance as a ratio (0.02 for 2 %).
        tol: factor on the impedance: 0.9 for the greatest current of a marked impedance, 1 for none.
    """
    clause = book.clause("transformer_fault")
    text = "S / (sqrt(3) * U)" if three_phase else "S / U"
    full_load = work("I_FL", text, "A", clause, S=power, U=voltage)
    return TransformerFault(full_load, work("I_sc", "I_FL / (z * k_z)", "A", clause, full_load, z=z, k_z=tol))


def line_to_neutral(book: Edition, line_to_line: Value, multiplier: Value) -> Value:
    """Fault from a line to the neutral at the terminals of a centre-tapped transformer, in A."""
    return work("I_LN", "k_LN * I_LL", "A", book.clause("line_to_neutral"), k_LN=multiplier, I_LL=line_to_line)


def along_run(
    book: Edition, loop: Loop, available: Value, voltage: Value, c: Value, parallel: Value, length: Value
) -> RunFault:
    """Fault at the end of a run by the point-to-point method.

    Args:
        book: the handbook.
        loop: which conductors the fault joins; a single-phase loop goes and returns through conductor.
        available: fault current at the start of the run in A, of the same loop.
        voltage: voltage of the loop in V: line to line for three-phase and line-line faults, line to neutral else.
        c: constant C of the conductor in ft/ohm.
        parallel: conductors in parallel per phase.
        length: length of the run one way in ft.
    """
    clause = book.clause("point_to_point")
    factor = "sqrt(3)" if loop == "three_phase" else "2"
    text = f"{factor} * L * I_sc / (C * n * U)"
    f = work("f", text, "1", clause, L=length, I_sc=available, C=c, n=parallel, U=voltage)
    return RunFault(f, work("I_end", "I_sc / (1 + f)", "A", clause, f, I_sc=available))


def chain(book: Edition, voltage: Value, source_r: Value, source_x: Value, cables: Sequence[Cable]) -> ChainFault:
    """Three-phase bolted fault behind a source and a chain of cables, voltage factor 1.

    Args:
        book: the handbook.
        voltage: line to line in V.
        source_r: resistance per phase of everything before, in milliohm.
        source_x: reactance per phase of everything before, in milliohm.
        cables: the cables between the source and the fault.
    """
    clause = book.clause("impedance_chain")
    r = total("R", [source_r, *(_piece(f"R_{i}", each.r, each) for i, each in enumerate(cables, 1))], "mohm", clause)
    x = total("X", [source_x, *(_piece(f"X_{i}", each.x, each) for i, each in enumerate(cables, 1))], "mohm", clause)
    if not (r.missing or x.missing) and r.quantity <= 0 and x.quantity <= 0:
        raise OutsideTable("a fault behind no impedance has no finite current: give the impedance of the source")
    return ChainFault(r, x, work("I_k", "U / (sqrt(3) * hypot(R, X))", "kA", clause, r, x, U=voltage))


def source_impedance(book: Edition, voltage: Value, fault_level: Value) -> Value:
    """Impedance per phase in milliohm of a supply with a three-phase fault level in kVA at a line voltage in V."""
    return work("Z_s", "U**2 / S_k", "mohm", book.clause("source_impedance"), U=voltage, S_k=fault_level)


def _piece(symbol: str, per_metre: Value, cable: Cable) -> Value:
    return work(symbol, "z * L / n", "mohm", None, z=per_metre, L=cable.length, n=cable.parallel)
