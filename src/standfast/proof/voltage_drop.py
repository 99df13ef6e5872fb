"""Voltage drop: by resistance, by the constant K, in per cent, and by British figures per ampere and metre."""

from functools import partial
from typing import Any

from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.proof.nec_circuits import BOOK, material, size
from standfast.rulebooks.handbook import voltage_drop as drops
from standfast.rulebooks.nfpa70 import resistance, sizes
from standfast.sheet import Value, attempt
from standfast.shelf import edition

HANDBOOK = edition("handbook", "2026")
SYSTEMS: dict[str, drops.System] = {"dc": "dc", "single_phase": "single_phase", "three_phase": "three_phase"}


@method("drop.ohms")
def by_ohms(case: Inputs) -> dict[str, Any]:
    """From resistance per length."""
    if "ohm_per_kft" in case:
        ohms = case.value("ohm_per_kft", "R_kft", "ohm/kft")
    else:
        ohms = resistance.direct(BOOK, material(case), size(case))
    answers: dict[str, Any] = {"ohm_per_kft": ohms.quantity}
    system = _system(case) if "system" in case else None
    current, voltage = _optional(case, "current_a", "I", "A"), _optional(case, "voltage_v", "V", "V")
    length, limit = _optional(case, "length_ft", "L", "ft"), _optional(case, "limit_v", "V_lim", "V")
    if length is None and limit is None:
        return answers
    if system is None or current is None:
        raise BadCase("a drop and a length need the inputs 'system' and 'current_a'")
    if length is not None:
        drop = drops.by_resistance(HANDBOOK, system, ohms, current, length)
        answers["drop_v"] = drop.quantity
        if voltage is not None:
            answers["drop_pct"] = drops.percent(HANDBOOK, drop, voltage).quantity
    if limit is not None:
        answers["max_length_ft"] = drops.longest(HANDBOOK, system, ohms, current, limit).quantity
    return answers


@method("drop.k")
def by_k(case: Inputs) -> dict[str, Any]:
    """By the constant K and the circular mils."""
    k, current = case.value("k_ohm_cmil_per_ft", "K", "ohm·cmil/ft"), case.value("current_a", "I", "A")
    length, system = case.value("length_ft", "L", "ft"), _system(case)
    voltage = _optional(case, "voltage_v", "V", "V")
    answers: dict[str, Any] = {}
    if "size" in case:
        area = sizes.area(BOOK, size(case))
        answers["drop_v"] = drops.by_constant(HANDBOOK, system, k, current, length, area).quantity
    if "limit_pct" in case:
        if voltage is None:
            raise BadCase("the input 'voltage_v' is absent")
        limit = drops.limit(HANDBOOK, voltage, case.value("limit_pct", "p", "%"))
        least = drops.least_area(HANDBOOK, system, k, current, length, limit)
        answers["min_area_cmil"] = least.quantity
        found = attempt("size", "", partial(sizes.with_area, BOOK, least))
        if not found.missing:
            answers["size"] = found.word
    if not answers:
        raise BadCase("neither 'size' nor 'limit_pct' is given")
    return answers


@method("drop.limit")
def limit(case: Inputs) -> dict[str, Any]:
    """What a limit in per cent allows."""
    voltage = case.value("voltage_v", "V", "V")
    allowed = drops.limit(HANDBOOK, voltage, case.value("limit_pct", "p", "%"))
    return {"limit_v": allowed.quantity, "lowest_v": drops.lowest(HANDBOOK, voltage, allowed).quantity}


@method("drop.mv_per_a_m")
def by_millivolts(case: Inputs) -> dict[str, Any]:
    """By millivolts per ampere and metre."""
    answers: dict[str, Any] = {}
    figure = _figure(case)
    if figure is not None:
        answers["mv_per_a_m"] = figure.quantity
    current, length = _optional(case, "current_a", "I", "A"), _optional(case, "length_m", "L", "m")
    allowed = _optional(case, "limit_v", "V_lim", "V")
    if current is not None and length is not None:
        if figure is not None:
            answers["drop_v"] = drops.by_millivolts(HANDBOOK, figure, current, length).quantity
        if allowed is not None:
            answers["max_mv_per_a_m"] = drops.greatest_millivolts(HANDBOOK, allowed, current, length).quantity
    if not answers:
        raise BadCase("the inputs ask for nothing: give a figure or a limit with current and length")
    return answers


def _figure(case: Inputs) -> Value | None:
    if "mv_per_a_m" in case:
        case.word("system", "single_phase")  # the figure already holds the loop
        return case.value("mv_per_a_m", "mV_A_m", "mV/(A·m)")
    if "resistivity_ohm_mm2_per_m" not in case:
        return None
    system = _system(case)
    if system == "dc":
        raise BadCase("the input 'system' is 'dc', not single_phase or three_phase")
    rho = case.value("resistivity_ohm_mm2_per_m", "rho", "ohm·mm2/m")
    return drops.millivolts(HANDBOOK, system, rho, case.value("area_mm2", "A", "mm2"))


def _system(case: Inputs) -> drops.System:
    name = case.word("system")
    if name not in SYSTEMS:
        raise BadCase(f"the input 'system' is {name!r}, not one of {', '.join(SYSTEMS)}")
    return SYSTEMS[name]


def _optional(case: Inputs, name: str, symbol: str, unit: str) -> Value | None:
    return case.value(name, symbol, unit) if name in case else None
