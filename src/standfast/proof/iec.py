"""Adapters of IEC 60949 and IEC 62446-1."""

from typing import Any

from standfast import shelf
from standfast.proof.inputs import Inputs
from standfast.proof.methods import method
from standfast.rulebooks.iec60949 import short_circuit
from standfast.rulebooks.iec62446 import insulation
from standfast.sheet import given


@method("iec60949.short_circuit")
def permissible_current(case: Inputs) -> dict[str, Any]:
    """Short-circuit current that a conductor stands."""
    book = shelf.edition("iec60949", "1988")
    area, time = case.value("area_mm2", "S", "mm2"), case.value("time_s", "t", "s")
    constants = case.value("x_sqrt_mm2_per_s", "X", "(mm2/s)^0.5", 0.0), case.value("y_mm2_per_s", "Y", "mm2/s", 0.0)
    epsilon = short_circuit.non_adiabatic_factor(book, *constants, area, time)
    if not any(name in case for name in ("k_constant", "beta_c", "initial_c", "final_c")):
        return {"epsilon": epsilon.quantity}
    adiabatic = short_circuit.adiabatic(
        book,
        case.value("k_constant", "K", "A s^0.5/mm2"),
        case.value("beta_c", "beta", "°C"),
        area,
        case.value("initial_c", "theta_i", "°C"),
        case.value("final_c", "theta_f", "°C"),
        time,
    )
    return {
        "adiabatic_ka": adiabatic.quantity / 1000,
        "epsilon": epsilon.quantity,
        "permissible_ka": short_circuit.permissible(book, epsilon, adiabatic).quantity / 1000,
    }


@method("iec62446.insulation_test")
def insulation_test(case: Inputs) -> dict[str, Any]:
    """Test voltage and least resistance of arrays."""
    book = shelf.edition("iec62446", "2016")
    voltages = [given("U_oc", number, "V", "case, voc_stc_v") for number in case.numbers("voc_stc_v")]
    bands = [insulation.band(book, insulation.system_voltage(book, each)) for each in voltages]
    found = [insulation.limits(book, each) for each in bands]
    return {
        "test_v": [test.quantity for test, _ in found],
        "min_megohm": [least.quantity for _, least in found],
    }
