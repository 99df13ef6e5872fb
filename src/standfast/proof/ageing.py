"""Adapters of ageing: calendar and cycle laws of two kinds of cells, and cycle counting."""

from typing import Any

from standfast import shelf
from standfast.proof.columns import columns
from standfast.proof.inputs import Inputs
from standfast.proof.methods import method
from standfast.rulebooks.astm_e1049.rainflow import rainflow
from standfast.rulebooks.naumann import ageing as lfp
from standfast.rulebooks.schmalstieg import ageing as nmc
from standfast.sheet import Value, given

DAY_S = 86400


@method("ageing.lfp.calendar")
def lfp_calendar(case: Inputs) -> dict[str, Any]:
    """Iron phosphate cells at rest."""
    by = lfp.Calendar(
        case.value("k_ref_per_sqrt_s", "k_ref", "1/s^0.5"),
        case.value("ea_j_mol", "E_a", "J/mol"),
        case.value("r_j_mol_k", "R", "J/mol/K"),
        case.value("ref_k", "T_ref", "K"),
        case.value("c", "c", "1"),
        case.value("d", "d", "1"),
    )

    def one(temperature: float, soc: float, days: float) -> float:
        row = _fact("theta", temperature, "°C"), _fact("soc", soc, "1"), _fact("t", days * DAY_S, "s")
        return lfp.calendar_loss(shelf.edition("naumann", "2018"), *row, by).quantity

    return {"loss_pct": columns(case, one, "temperature_c", "soc", "days_d")}


@method("ageing.lfp.cycle")
def lfp_cycle(case: Inputs) -> dict[str, Any]:
    """Iron phosphate cells in use."""
    names = ("a_c", "b_c", "c_d", "d_ref", "d_d")
    by = lfp.Cycle(*(case.value(name, symbol, "1") for name, symbol in zip(names, lfp.Cycle._fields, strict=True)))

    def one(rate: float, depth: float, cycles: float) -> float:
        row = _fact("C", rate, "1"), _fact("dod", depth, "1"), _fact("N", cycles, "1")
        return lfp.cycle_loss(shelf.edition("naumann", "2020"), *row, by).quantity

    return {"loss_pct": columns(case, one, "c_rate", "dod", "full_cycles")}


@method("ageing.nmc.calendar")
def nmc_calendar(case: Inputs) -> dict[str, Any]:
    """Nickel manganese cobalt cells at rest."""
    line = case.value("a_v", "a", "1/V/d^0.75"), case.value("b_v", "b", "1/d^0.75")
    by = nmc.Calendar(*line, case.value("ea_over_r_k", "E", "K"))

    def one(temperature: float, voltage: float, days: float) -> float:
        row = _fact("theta", temperature, "°C"), _fact("V", voltage, "V"), _fact("t", days, "d")
        return nmc.calendar_loss(shelf.edition("schmalstieg", "2014"), *row, by).quantity

    return {"loss_pct": columns(case, one, "temperature_c", "cell_v", "days_d")}


@method("ageing.nmc.cycle")
def nmc_cycle(case: Inputs) -> dict[str, Any]:
    """Nickel manganese cobalt cells in use."""
    by = nmc.Cycle(
        case.value("a_v", "a", "1/V2/(A h)^0.5"),
        case.value("v_ref", "V_ref", "V"),
        case.value("b_v", "b", "1/(A h)^0.5"),
        case.value("c_d", "c", "1/(A h)^0.5"),
    )

    def one(voltage: float, depth: float, passed: float) -> float:
        row = _fact("V", voltage, "V"), _fact("dod", depth, "1"), _fact("Q", passed, "A h")
        return nmc.cycle_loss(shelf.edition("schmalstieg", "2014"), *row, by).quantity

    return {"loss_pct": columns(case, one, "cell_avg_v", "dod", "throughput_ah")}


@method("ageing.rainflow")
def ageing_rainflow(case: Inputs) -> dict[str, Any]:
    """Cycles by range."""
    found = rainflow(case.numbers("series"))
    return {"ranges": [each.swing for each in found], "counts": [each.cycles for each in found]}


def _fact(symbol: str, number: float, unit: str) -> Value:
    return given(symbol, number, unit, "case")
