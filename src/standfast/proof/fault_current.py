"""Adapters of the fault-current methods."""

from typing import Any

from standfast import shelf
from standfast.proof.inputs import BadCase, Inputs, known
from standfast.proof.methods import method
from standfast.rulebooks.handbook import fault_current as faults
from standfast.rulebooks.iec60909 import peak
from standfast.sheet import Value, given, missing

LOOPS: dict[str, faults.Loop] = {
    "three_phase": "three_phase",
    "single_phase_line_line": "single_phase_line_line",
    "single_phase_line_neutral": "single_phase_line_neutral",
}


@method("fault.transformer")
def transformer(case: Inputs) -> dict[str, Any]:
    """Bolted fault at the secondary terminals."""
    system = case.word("system")
    if system not in ("single_phase", "three_phase"):
        raise BadCase(f"the system {system!r} is not single_phase or three_phase")
    z = _ratio(case, "z_pct") if "z_pct" in case else missing("z", "1", "the case states no impedance")
    power, tol = _thousand(case, "kva", "S", "VA"), case.value("z_tolerance", "k_z", "1", 1.0)
    found = faults.at_transformer(_book(), system == "three_phase", power, case.value("voltage_v", "U", "V"), z, tol)
    return known({"full_load_a": found.full_load, "fault_a": found.fault})


@method("fault.point_to_point")
def point_to_point(case: Inputs) -> dict[str, Any]:
    """One run of conductor."""
    system = case.word("system")
    if system not in LOOPS:
        raise BadCase(f"the system {system!r} is not one of {', '.join(LOOPS)}")
    loop, voltage = LOOPS[system], case.value("voltage_v", "U", "V")
    start = case.value("available_a", "I_sc", "A") if "available_a" in case else _from_transformer(case, loop, voltage)
    if "line_neutral_multiplier" in case:
        if loop != "single_phase_line_neutral":
            raise BadCase("line_neutral_multiplier belongs to a fault from line to neutral")
        start = faults.line_to_neutral(_book(), start, case.value("line_neutral_multiplier", "k_LN", "1"))
    if "c_ft_per_ohm" not in case and "length_ft" not in case:
        return {"available_a": start.quantity}
    found = faults.along_run(
        _book(),
        loop,
        start,
        voltage,
        case.value("c_ft_per_ohm", "C", "ft/ohm"),
        case.value("parallel_runs", "n", "1", 1.0),
        case.value("length_ft", "L", "ft"),
    )
    return {"available_a": start.quantity, "f": found.f.quantity, "fault_a": found.fault.quantity}


@method("fault.impedance_chain")
def impedance_chain(case: Inputs) -> dict[str, Any]:
    """Three-phase fault from resistances and reactances."""
    cables = [
        faults.Cable(
            each.value("r_mohm_per_m", "r", "mohm/m"),
            each.value("x_mohm_per_m", "x", "mohm/m"),
            each.value("length_m", "L", "m"),
            each.value("parallel_runs", "n", "1", 1.0),
        )
        for each in case.items("cables", [])
    ]
    source = case.value("source_r_mohm", "R_s", "mohm"), case.value("source_x_mohm", "X_s", "mohm")
    voltage = case.value("voltage_v", "U", "V") if "voltage_v" in case else missing("U", "V", "the case states none")
    found = faults.chain(_book(), voltage, *source, cables)
    book = shelf.edition("iec60909", "2016")
    factor = peak.kappa(book, found.r, found.x)
    top = peak.peak_current(book, factor, found.fault)
    answers = {"r_mohm": found.r, "x_mohm": found.x, "fault_ka": found.fault, "kappa": factor, "peak_ka": top}
    return known(answers)


@method("fault.source_impedance")
def source_impedance(case: Inputs) -> dict[str, Any]:
    """Impedance of a supply from its fault level."""
    level = _thousand(case, "fault_mva", "S_k", "kVA")
    return {"z_mohm": faults.source_impedance(_book(), case.value("voltage_v", "U", "V"), level).quantity}


def _book() -> shelf.Edition:
    return shelf.edition("handbook", "2026")


def _from_transformer(case: Inputs, loop: faults.Loop, voltage: Value) -> Value:
    """The line-to-line fault at the terminals. A loop to the neutral has half the line-to-line voltage."""
    if loop == "single_phase_line_neutral":
        voltage = given("U_LL", 2 * voltage.quantity, "V", "case, twice voltage_v")
    z, tol = _ratio(case, "transformer_z_pct"), case.value("z_tolerance", "k_z", "1", 1.0)
    power = _thousand(case, "transformer_kva", "S", "VA")
    return faults.at_transformer(_book(), loop == "three_phase", power, voltage, z, tol).fault


def _ratio(case: Inputs, name: str) -> Value:
    return given("z", case.number(name) / 100, "1", f"case, {name}")


def _thousand(case: Inputs, name: str, symbol: str, unit: str) -> Value:
    return given(symbol, case.number(name) * 1000, unit, f"case, {name}")
