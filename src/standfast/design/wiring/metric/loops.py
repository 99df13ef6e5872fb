"""Earth fault loops: on the grid, and with the inverter as the only source."""

from collections.abc import Sequence

from standfast.design.wiring.metric.built import Loop, MetricCircuit
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.runs import Runs
from standfast.design.wiring.metric.voltage import to_earth
from standfast.sheet import Value, attempt, missing, total, work

_NOTHING = missing("Z", "ohm", "not worked out")
UNKNOWN = Loop(_NOTHING, None, _NOTHING, _NOTHING, None, _NOTHING)
"""Before it is worked out."""


def line_and_return(q: Question, runs: Runs, area: Value, protective: Value) -> Value:
    """Resistance in ohm of line and protective conductor in a row, as warm as a fault finds them."""
    unknown = next((each for each in (runs.cable, area, protective) if each.missing), None)
    if unknown is not None:
        return missing("R_12", "ohm", unknown.how, unknown)

    def ask() -> Value:
        r_1, r_2 = q.dialect.resistance(q, area), q.dialect.resistance(q, protective)
        warm = q.dialect.warm(q, runs.cable.word)
        text = "(r_1 + r_2) * k_warm * L / 1000"
        return work("R_12", text, "ohm", q.clause("earth_loop"), r_1=r_1, r_2=r_2, k_warm=warm, L=runs.longest)

    return attempt("R_12", "ohm", ask)


def device(q: Question, at: str, *, new: bool) -> dict[str, Value]:
    """Kind, curve and poles of a device: as the job lists it, else as the sheet of the new breaker says."""
    words = {"device": "device", "curve": "curve", "poles": "poles"}
    found: dict[str, Value] = {}
    for word, symbol in words.items():
        unit = "1" if word == "poles" else ""
        if at and q.job.has(f"{at}.{word}"):
            found[word] = q.job.fact(f"{at}.{word}", symbol, unit)
        elif new and word != "device":
            found[word] = q.of("breaker", f"switch.{word}", symbol, unit)
        else:
            found[word] = missing(symbol, unit, f"{at or 'panels'}.{word}: of the device of this circuit")
    return found


def greatest(q: Question, kind: Value, curve: Value, I_n: Value) -> Value:
    """Greatest loop impedance in ohm with which a breaker trips at once: U_0 C_min over multiple and rating.

    Args:
        q: the question.
        kind: of the device: a fuse has no such trip, and what it needs is not held.
        curve: tripping curve of a breaker.
        I_n: rating in A.
    """
    if kind.number == "fuse":
        need = "the greatest loop impedance of fuses is not held: a breaker, or a residual current device"
        return missing("Z_s_max", "ohm", need, kind)
    if curve.missing:
        return missing("Z_s_max", "ohm", curve.how, curve)

    def ask() -> Value:
        n_trip = q.dialect.trip_multiple(q, curve.word)
        text = "U_0 * C_min / (n_trip * I_n)"
        return work("Z_s_max", text, "ohm", q.clause("earth_loop"), n_trip=n_trip, U_0=to_earth(q),
                    C_min=q.dialect.voltage_factor(q), I_n=I_n)  # fmt: skip

    return attempt("Z_s_max", "ohm", ask)


def fault_current(q: Question, symbol: str, impedance: Value) -> Value:
    """Least earth fault current in A through a loop in ohm."""
    factor = attempt("C_min", "1", lambda: q.dialect.voltage_factor(q))
    text, clause = "U_0 * C_min / Z_s", q.clause("earth_loop")
    return attempt(symbol, "A", lambda: work(symbol, text, "A", clause, U_0=to_earth(q), C_min=factor, Z_s=impedance))


def source_impedance(q: Question) -> Value:
    """The inverter as a source without the grid, in ohm: its voltage over the most that it drives into a fault."""
    I_inv, clause = q.own("island_fault_current", "I_inv", "A"), q.clause("island_protection")
    return attempt("Z_inv", "ohm", lambda: work("Z_inv", "U_0 / I_inv", "ohm", clause, I_inv, U_0=to_earth(q)))


def island_current(q: Question, symbol: str, conductors: Value) -> Value:
    """Earth fault current in A without the grid: no more than the inverter drives, and than the conductors let through.

    Args:
        q: the question.
        symbol: of the result.
        conductors: the loop of conductors alone, in ohm.
    """
    I_inv, clause = q.own("island_fault_current", "I_inv", "A"), q.clause("island_protection")
    text = "min(I_inv, U_0 / R_loop)"
    return attempt(symbol, "A", lambda: work(symbol, text, "A", clause, I_inv, U_0=to_earth(q), R_loop=conductors))


def longest(q: Question, *, final: bool) -> Value:
    """Disconnection time in s that the rules allow."""
    earthing = q.job.fact("supply.earthing", "earthing")
    if earthing.missing:
        return missing("t_max", "s", earthing.how, earthing)
    return attempt("t_max", "s", lambda: q.dialect.longest(q, earthing.word, final))


def of_circuit(q: Question, made: MetricCircuit, above: Sequence[Value], *, final: bool) -> Loop:
    """The loop of a circuit that the job builds: on the grid. Without it the inverter feeds it from its own end."""
    external = q.job.fact("supply.loop_impedance", "Z_e", "ohm")
    way = total("R_way", [*above, made.r_12], "ohm", q.clause("earth_loop"))
    grid = work("Z_s", "Z_e + R_way", "ohm", q.clause("earth_loop"), external, way)
    most = greatest(q, made.device, made.curve, made.I_n)
    return Loop(grid, None, most, fault_current(q, "I_f", grid), None, longest(q, final=final))
