"""Fall of voltage towards loads and rise towards sources, by the millivolts per ampere and metre of the tables."""

from collections.abc import Sequence
from functools import partial
from typing import NamedTuple

from standfast.design.wiring.metric.cable import Carried
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.runs import Runs
from standfast.sheet import Value, attempt, missing, total, work


class Stretch(NamedTuple):
    """Conductors of one kind that one current runs along.

    Attributes:
        runs: the runs.
        system: ``single phase`` or ``three phase``.
        area: of the live conductors in mm2.
        carried: what they carry, for their real temperature.
    """

    runs: Runs
    system: str
    area: Value
    carried: Carried


def percent(q: Question, symbol: str, ways: Sequence[tuple[Stretch, Value]]) -> Value:
    """Change of voltage over stretches in a row in per cent, each with its own current in A.

    A change on a three-phase stretch is that between lines; it is put to the voltage of the line it falls on.
    """
    parts = [attempt("u", "%", partial(_one, q, each, current)) for each, current in ways]
    return total(symbol, parts, "%", q.clause("voltage_drop_limit"))


def _one(q: Question, one: Stretch, current: Value) -> Value:
    if one.runs.cable.missing:
        return missing("u", "%", one.runs.cable.how, one.runs.cable)
    z = q.dialect.drop(q, one.runs.cable.word, one.system, one.area)
    C_ag = work("C_ag", "C_a * C_g", "1", None, C_a=one.carried.factors["ambient"], C_g=one.carried.factors["grouping"])
    C_t = q.dialect.drop_temperature(q, one.runs.cable.word, current, one.carried.I_t, C_ag)
    text = "z * C_t * I_b * L / 1000"
    volts = work("V_d", text, "V", q.clause("voltage_drop"), z=z, C_t=C_t, I_b=current, L=one.runs.longest)
    return work("u", "V_d / U * 100", "%", None, V_d=volts, U=voltage(q, one.system))


def voltage(q: Question, system: str) -> Value:
    """Voltage in V that a change is put to: to neutral, or between lines."""
    return to_earth(q) if system == "single phase" else q.job.fact("supply.voltage", "U", "V")


def to_earth(q: Question) -> Value:
    """Nominal voltage to earth in V: as stated; of a single-phase supply its voltage."""
    if q.job.has("supply.voltage_to_ground"):
        return q.job.fact("supply.voltage_to_ground", "U_0", "V")
    if q.job.content.supply.system == "230 V single-phase":
        return q.job.fact("supply.voltage", "U_0", "V")
    return q.job.fact("supply.voltage_to_ground", "U_0", "V")
