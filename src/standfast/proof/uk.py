"""Adapters of BS 7671 and of the British network procedures."""

from typing import Any

from standfast import shelf
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.bs7671 import cables, earth_fault, loads
from standfast.rulebooks.erec import route as network
from standfast.sheet import at_least, given, total

ROUTES = {network.NOTIFY: "g98", network.APPLY: "g99"}


@method("bs7671.cooker_diversity")
def cooker_diversity(case: Inputs) -> dict[str, Any]:
    """Household cooking appliances."""
    if "current_a" in case:
        full = case.value("current_a", "I_full", "A")
    else:
        power = given("P", case.number("power_kw") * 1000, "W", "case, power_kw")
        full = loads.full_current(power, case.value("voltage_v", "U", "V"))
    demand = loads.cooker_demand(_book(), full, case.yes("socket_outlet"))
    return {"full_a": full.quantity, "demand_a": demand.quantity}


@method("bs7671.zs")
def zs(case: Inputs) -> dict[str, Any]:
    """Earth fault loop: what it has, what it may have, what a cold reading may show."""
    book, found = _book(), {}
    if "ze_ohm" in case or "r1_r2_ohm" in case:
        parts = case.value("ze_ohm", "Z_e", "ohm"), case.value("r1_r2_ohm", "R_12", "ohm")
        found["zs_ohm"] = earth_fault.loop_impedance(book, *parts).quantity
    if "curve" in case or "rating_a" in case:
        c_min = case.value("cmin", "C_min", "1") if "cmin" in case else book.number("voltage_factor_min")
        rating, voltage = case.value("rating_a", "I_n", "A"), case.value("u0_v", "U_0", "V")
        greatest = earth_fault.greatest_loop_impedance(book, case.word("curve"), rating, voltage, c_min)
        found["max_zs_ohm"] = greatest.quantity
        found["test_limit_ohm"] = earth_fault.cold_reading_limit(book, greatest).quantity
    if not found:
        raise BadCase("give ze_ohm and r1_r2_ohm, or curve, rating_a and u0_v")
    return found


@method("bs7671.correction_factors")
def correction_factors(case: Inputs) -> dict[str, Any]:
    """Correction factors that act together."""
    factors = [given("C", number, "1", "case, factors") for number in case.numbers("factors")]
    combined = cables.combined_factor(_book(), factors)
    found = {"combined_factor": combined.quantity}
    if "tabulated_a" in case:
        tabulated = case.value("tabulated_a", "I_t", "A")
        found["effective_a"] = cables.effective_current(_book(), tabulated, combined).quantity
    return found


@method("bs7671.adiabatic")
def adiabatic(case: Inputs) -> dict[str, Any]:
    """Least protective conductor."""
    if "fault_a" in case:
        fault = case.value("fault_a", "I_f", "A")
    else:
        loop = case.value("u0_v", "U_0", "V"), case.value("zs_ohm", "Z_s", "ohm")
        fault = earth_fault.earth_fault_current(_book(), *loop)
    found = {"fault_a": fault.quantity}
    if "time_s" in case or "k" in case:
        time, k = case.value("time_s", "t", "s"), case.value("k", "k", "A s^0.5/mm2")
        found["min_area_mm2"] = earth_fault.least_protective_conductor(_book(), fault, time, k).quantity
    return found


@method("bs7671.rcd")
def rcd(case: Inputs) -> dict[str, Any]:
    """Electrode resistance of a TT installation; tripping times."""
    found: dict[str, Any] = {}
    if "idn_ma" in case:
        residual = given("I_dn", case.number("idn_ma") / 1000, "A", "case, idn_ma")
        touch = case.value("touch_voltage_v", "U_touch", "V")
        found["max_ra_ohm"] = earth_fault.greatest_electrode_resistance(_book(), residual, touch).quantity
    if "device" in case or "multiples" in case:
        device = case.word("device")
        times = [given("n", each, "1", "case, multiples") for each in case.numbers("multiples")]
        found["max_trip_ms"] = [earth_fault.longest_tripping_time(_book(), device, each).quantity for each in times]
        least = [earth_fault.least_tripping_time(_book(), device, each) for each in times]
        found |= {"min_trip_ms": stated} if (stated := [each.quantity for each in least if each is not None]) else {}
    if not found:
        raise BadCase("give idn_ma and touch_voltage_v, or device and multiples")
    return found


@method("bs7671.insulation_test")
def insulation_test(case: Inputs) -> dict[str, Any]:
    """Test voltage, least resistance and how the test is connected."""
    circuit, sensitive = case.word("circuit"), case.yes("sensitive_equipment")
    if circuit not in ("ordinary", "selv_pelv"):
        raise BadCase(f"the circuit {circuit!r} is not ordinary or selv_pelv")
    row = earth_fault.insulation_row(_book(), circuit == "ordinary", case.value("voltage_v", "U", "V"), sensitive)
    test, least = earth_fault.insulation_limits(_book(), row)
    joined = "lives_joined_to_earth" if sensitive else "each_live_to_each_other_and_to_earth"
    return {"test_v": test.quantity, "min_megohm": least.quantity, "connection": joined}


@method("bs7671.consumer_unit")
def consumer_unit(case: Inputs) -> dict[str, Any]:
    """Rated current of an assembly with generators."""
    devices = [given("I_g", number, "A", "case, generator_devices_a") for number in case.numbers("generator_devices_a")]
    supply, generators = case.value("supply_device_a", "I_s", "A"), total("I_generators", devices, "A")
    least = earth_fault.sources_and_supply(_book(), supply, generators)
    found: dict[str, Any] = {"min_rating_a": least.quantity}
    if "unit_rating_a" in case:
        rating = case.value("unit_rating_a", "I_nA", "A")
        clause = _book().clause("assembly_rating")
        found["verdict"] = at_least("case", "Rated current of the assembly", clause, rating, least).verdict
    return found


@method("g98.route")
def g98_route(case: Inputs) -> dict[str, Any]:
    """Network procedure of a small generator."""
    book = shelf.edition("erec", "2019")
    voltage, phases = case.value("voltage_v", "U", "V"), case.value("phases", "n", "1")
    per_phase = network.limit_per_phase(book, voltage)
    found: dict[str, Any] = {
        "limit_per_phase_kw": per_phase.quantity / 1000,
        "limit_kw": network.limit(book, per_phase, phases).quantity / 1000,
    }
    if "power_kw" in case:
        power = given("P", case.number("power_kw") * 1000, "W", "case, power_kw")
        current = network.current_per_phase(power, voltage, phases)
        found |= {"current_a": current.quantity, "route": ROUTES[network.route(book, current).word]}
    return found


def _book() -> shelf.Edition:
    return shelf.edition("bs7671", "2018-a2")
