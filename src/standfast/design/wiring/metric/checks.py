"""Checks on a circuit that a metric job builds: current, voltage, earth fault, device."""

from collections.abc import Iterator, Sequence

from standfast.design.wiring.metric.built import MetricCircuit
from standfast.design.wiring.metric.circuits import Source, beyond
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.voltage import to_earth
from standfast.faults import OutsideTable
from standfast.sheet import (
    Check,
    Value,
    at_least,
    at_most,
    attempt,
    cannot_tell,
    chosen,
    is_,
    missing,
    not_applicable,
    settle,
    total,
    work,
)

BARE = ("breaker", "fuse")
"""Devices that have no residual current device."""


def of_circuit(q: Question, made: MetricCircuit, at: str, every: Sequence[Source]) -> Iterator[Check]:
    """Every check of one circuit.

    Args:
        q: the question.
        made: the circuit.
        at: where the job writes its device; empty where it does not.
        every: every source of the house.
    """
    yield from _current(q, made)
    yield from _change(q, made)
    yield _disconnects(q, made, at)
    yield _adiabatic(q, made)
    yield _breaks(q, made, every)
    if made.rise is not None:
        yield _direction(q, made, at)
    if any(made.id == each.id for each in every):
        yield from _of_source(q, made, at)


def _current(q: Question, made: MetricCircuit) -> Iterator[Check]:
    clause = q.clause("current")
    yield at_most(f"wiring.design-current/{made.id}", f"{made.title}: its device carries the design current", clause,
                  made.I_b, made.I_n)  # fmt: skip
    yield at_most(f"wiring.cable-current/{made.id}", f"{made.title}: its device protects the cable at its worst place",
                  clause, made.I_n, made.I_z)  # fmt: skip


def _change(q: Question, made: MetricCircuit) -> Iterator[Check]:
    clause, limit = q.clause("voltage_drop_limit"), attempt("u_limit", "%", lambda: q.dialect.drop_limit(q))
    yield at_most(f"wiring.voltage-drop/{made.id}", f"{made.title}: fall of voltage from the origin", clause,
                  made.drop, limit)  # fmt: skip
    if made.rise is not None:
        most = attempt("u_rise_limit", "%", lambda: q.dialect.rise_limit(q))
        told = most.clause or q.clause("voltage_rise")
        yield at_most(f"wiring.voltage-rise/{made.id}", f"{made.title}: rise of voltage from the origin while it feeds",
                      told, made.rise, most)  # fmt: skip


def _disconnects(q: Question, made: MetricCircuit, at: str) -> Check:
    """By its breaker, else by its residual device in the time that is allowed."""
    id, title = f"wiring.disconnection/{made.id}", f"{made.title}: disconnects in time on the grid"
    clause = q.clause("earth_loop")

    def ask() -> Check:
        found = at_most(id, title, clause, made.loop.grid, made.loop.greatest)
        rated = residual(q, at, "rated", "I_dn", "A", new=made.new)
        if found.verdict == "pass" or rated.missing:
            return found
        multiple = work("n_dn", "I_f / I_dn", "1", clause, I_f=made.loop.current, I_dn=rated)
        if multiple.missing:
            return found
        time = q.dialect.residual_time(q, multiple, False)
        how = "its residual device disconnects: its breaker alone would not"
        return at_most(id, title, q.clause("disconnection"), time, made.loop.longest, condition=how)

    return settle(id, title, clause, ask)


def _adiabatic(q: Question, made: MetricCircuit) -> Check:
    """The protective conductor withstands what its breaker lets through."""
    id, clause = f"wiring.protective-conductor/{made.id}", q.clause("adiabatic")
    title = f"{made.title}: its protective conductor withstands an earth fault"

    def ask() -> Check:
        unknown = next((each for each in (made.curve, made.I_n, made.cable) if each.missing), None)
        if unknown is not None:
            return cannot_tell(id, title, clause, unknown.how, unknown)
        if q.dialect.by_table:
            by_table = q.dialect.protective(q, made.cable.word, made.area)
            return at_least(id, title, q.clause("protective_conductor"), made.protective_area, by_table)
        breaks = _breaking(q, made)
        if breaks.missing:
            return cannot_tell(id, title, clause, breaks.how, breaks)
        energy = _energy(q, made, breaks)
        k = q.dialect.k(q, made.cable.word)
        least = work("S_min", "sqrt(I2t) / k", "mm2", clause, I2t=energy, k=k)
        trips = at_most(id, title, clause, made.loop.grid, made.loop.greatest)
        if trips.verdict != "pass":
            why = "the energy let through is known only of faults that trip the breaker at once: this loop is too high"
            return cannot_tell(id, title, clause, trips.reason or why, made.loop.grid)
        return at_least(id, title, clause, made.protective_area, least)

    return settle(id, title, clause, ask)


def _energy(q: Question, made: MetricCircuit, breaks: Value) -> Value:
    """What the breaker lets through, in A2 s.

    By its standard; where that has no row, its longest instantaneous time at the greatest earth fault current of the
    house, which no fault of this circuit exceeds.
    """
    try:
        return q.dialect.let_through(q, made.curve.word, made.I_n, breaks)
    except OutsideTable:
        why = "what the breaker lets through is not held: the longest time of an instantaneous trip"
        time, C_max = q.rules.bounding("instantaneous_time", why), q.rules.number("fault_voltage_factor")
        Z_e = q.job.fact("supply.loop_impedance", "Z_e", "ohm")
        most = work("I_f_max", "U_0 * C_max / Z_e", "A", q.clause("adiabatic"), C_max, Z_e, U_0=to_earth(q))
        return work("I2t", "I_f_max**2 * t_inst", "A2 s", q.clause("adiabatic"), most, time)


def _breaking(q: Question, made: MetricCircuit) -> Value:
    if made.new:
        return q.of("breaker", "switch.interrupting", "I_cn", "A")
    return q.job.fact(f"panels.{made.panel}.breaker_interrupting", "I_cn", "A")


def _breaks(q: Question, made: MetricCircuit, every: Sequence[Source]) -> Check:
    """The device breaks the greatest fault where it sits: that of the grid and of every source."""
    id, clause = f"wiring.breaking-capacity/{made.id}", q.clause("breaking_capacity")
    title = f"{made.title}: its device breaks the greatest fault"

    def ask() -> Check:
        grid = q.job.fact("supply.fault_current", "I_pf", "A")
        added = [q.own("fault_contribution", "I_k_inv", "A") for each in every if each.added]
        most = total("I_pf_all", [grid, *added], "A", clause)
        return at_least(id, title, clause, _breaking(q, made), most)

    return settle(id, title, clause, ask)


def _direction(q: Question, made: MetricCircuit, at: str) -> Check:
    """A residual device that a source feeds backwards has to be made for that."""
    id, title = f"wiring.residual-direction/{made.id}", f"{made.title}: its residual device may be fed from either side"

    def ask() -> Check:
        clause = q.clause("residual_direction")
        if made.device.number in BARE:
            return not_applicable(id, title, clause, "no residual device is part of its device")
        stated = residual(q, at, "bidirectional", "bidirectional", "", new=made.new)
        if stated.missing and made.new:
            stated = q.of("breaker", "switch.backfeed", "bidirectional")
        backwards = chosen("backwards", True, "", "a source feeds through it", clause)
        return q.dialect.direction(q, id, title, backwards, stated)

    return settle(id, title, q.rules.unheld(), ask)


def residual(q: Question, at: str, word: str, symbol: str, unit: str, *, new: bool) -> Value:
    """A fact of the residual device of a circuit: as the job lists it, else as the sheet of the new breaker says."""
    if at and q.job.has(f"{at}.device") and q.job.fact(f"{at}.device", "device").word in BARE:
        return missing(symbol, unit, f"{at}.device: one with a residual current device, where that is to serve")
    if at and q.job.has(f"{at}.residual.{word}"):
        return q.job.fact(f"{at}.residual.{word}", symbol, unit)
    of_sheet = {"rated": "switch.residual_rated", "type": "switch.residual"}.get(word)
    if new and of_sheet is not None and "breaker" in q.sheets:
        found = q.of("breaker", of_sheet, symbol, unit)
        if not found.missing:
            return found
    return missing(symbol, unit, f"{at or 'panels'}.residual.{word}: of the residual device of this circuit")


def _of_source(q: Question, made: MetricCircuit, at: str) -> Iterator[Check]:
    """What is asked of the circuit of a source alone: residual device, the maker's limit, isolation."""
    yield _residual_type(q, made, at)
    if q.job.content.backup.mode not in (None, "none"):
        yield _stops(q, made)
    most = q.own("max_overcurrent_device", "I_maker", "A")
    yield at_most(f"wiring.device-maker-maximum/{made.id}", f"{made.title}: device within what the maker allows",
                  q.clause("maker"), made.I_n, most)  # fmt: skip
    clause, title = q.clause("isolation"), f"{made.title}: a switch isolates it and can be locked open"
    id = f"wiring.isolation/{made.id}"
    inside = q.own("disconnect_inside", "inside")
    if inside.number is True:
        yield is_(id, title, clause, inside, chosen("asked", True, "", "the unit has one inside", clause))
        return
    lock = q.of("disconnect", "switch.lockable_open", "lockable")
    yield is_(id, title, clause, lock, chosen("asked", True, "", "a source has to be isolated for work", clause))


def _stops(q: Question, made: MetricCircuit) -> Check:
    """A fault on its own circuit while the grid is away: no device lies between, so the inverter stops by itself."""
    id, clause = f"wiring.disconnection-island/{made.id}", q.clause("island_protection")
    title = f"{made.title}: the inverter stops in time at a fault there while the grid is away"
    time = q.own("island_fault_time", "t_inv", "s")
    return settle(id, title, clause, lambda: at_most(id, title, clause, time, made.loop.longest))


def _residual_type(q: Question, made: MetricCircuit, at: str) -> Check:
    """The type that the maker of the inverter asks, or one that sees more."""
    id, clause = f"wiring.residual-type/{made.id}", q.clause("residual_type")
    title = f"{made.title}: its residual device sees the residual currents of the inverter"
    asked = q.own("residual_device", "type_asked")
    if asked.number == "none" and made.device.number in BARE:
        return not_applicable(id, title, clause, "the maker asks for no residual device, and there is none")
    device = residual(q, at, "type", "type", "", new=made.new)
    if made.device.number in BARE:
        device = chosen("type", "none", "", "its device has no residual current device", clause, made.device)
    return settle(id, title, clause, lambda: q.dialect.suits(q, id, title, device, asked))


def assembly(q: Question, panel: str, every: Sequence[Source]) -> Value:
    """Least rated current in A of a panel: the device that feeds it, and every source on it or beyond it."""
    above = q.panel(panel).fed_from
    feed = q.job.fact("supply.service", "I_n_supply", "A")
    for each in q.job.content.panels:
        for circuit in each.circuits:
            if above == each.id and circuit.feeds == panel:
                feed = q.job.fact(f"panels.{each.id}.circuits.{circuit.id}.breaker", "I_n_supply", "A")
    outputs = total("I_n_gen", [each.output for each in beyond(q, panel, every)], "A")
    return work("I_nA_min", "I_n_supply + I_n_gen", "A", q.clause("assembly_rating"), I_n_supply=feed, I_n_gen=outputs)


def of_assembly(q: Question, panel: str, least: Value) -> Check:
    """A panel carries what the supply and its sources can drive into it together."""
    title = f"{q.name(panel)}: rated current with every source that feeds it"
    rated = q.job.fact(f"panels.{panel}.busbar", "I_nA", "A")
    return at_least(f"wiring.assembly-rating/{panel}", title, q.clause("assembly_rating"), rated, least)
