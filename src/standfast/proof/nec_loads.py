"""Adapters of the dwelling loads, cooking demand and motors of the NEC."""

from collections.abc import Callable
from typing import Any

from standfast import shelf
from standfast.faults import Refusal
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.nfpa70 import cooking, loads, motors, overcurrent
from standfast.sheet import Value, at_most, given, total

HEATING: dict[str, loads.HeatingKind] = {
    "none": "none",
    "central_electric": "central electric",
    "separate_units": "separate units",
    "heat_pump": "heat pump",
    "heat_pump_supplemented": "heat pump supplemented",
}


@method("nec.load.standard")
def standard(case: Inputs) -> dict[str, Any]:
    """Standard method for one dwelling, and its neutral."""
    book, found = _book(), {}
    lighting = total("S_light", [], "VA")
    if "area_ft2" in case:
        lighting = loads.lighting(book, case.value("area_ft2", "A", "ft2"))
    circuits = _circuits(case)
    demand = loads.lighting_demand(book, total("S", [lighting, circuits], "VA"))
    ranges = [given("P", kw, "kW", "case, ranges_kw") for kw in case.numbers("ranges_kw", [])]
    cooked = [_va(cooking.standard_demand(book, ranges))] if ranges else []
    dryers = loads.dryer_demand(book, [given("S", va, "VA", "case, dryers_va") for va in case.numbers("dryers_va", [])])
    fastened = [(each.value("va", "S", "VA"), each.yes("line_to_neutral")) for each in case.items("fastened", [])]
    factor = loads.fastened_factor(book, [load for load, _ in fastened])
    on_lines = loads.fastened_demand(book, [load for load, _ in fastened], factor)
    on_neutral = loads.fastened_demand(book, [load for load, neutral in fastened if neutral], factor)
    whole = total("S_total", [demand, *cooked, dryers, on_lines], "VA", book.clause("standard_load"))
    reduced = [cooking.neutral(book, each) for each in (*cooked, dryers)]
    neutral = total("S_neutral", [demand, *reduced, on_neutral], "VA", book.clause("neutral_load"))
    found = {
        "lighting_va": lighting.quantity,
        "lighting_demand_va": demand.quantity,
        "cooking_va": cooked[0].quantity if cooked else 0.0,
        "dryer_va": dryers.quantity,
        "fastened_demand_va": on_lines.quantity,
        "total_va": whole.quantity,
        "neutral_va": neutral.quantity,
    }
    if "voltage_v" in case:
        voltage = case.value("voltage_v", "U", "V")
        current = loads.line_current(whole, voltage)
        found["load_a"] = current.quantity
        found["service_a"] = loads.service_rating(book, current).quantity
        found["neutral_a"] = loads.neutral_current(book, loads.line_current(neutral, voltage)).quantity
    return found


@method("nec.load.line_currents")
def line_currents(case: Inputs) -> dict[str, Any]:
    """Loads line by line."""
    book, found = _book(), {}
    for name in ("leg_1", "leg_2", "neutral"):
        if f"{name}_a" in case:
            currents = [given("I", a, "A", f"case, {name}_a") for a in case.numbers(f"{name}_a")]
            motor = case.value(f"{name}_largest_motor_a", "I_M", "A", 0.0)
            if motor.quantity and all(each.quantity != motor.quantity for each in currents):
                raise BadCase(f"{name}_largest_motor_a is none of the currents in {name}_a")
            found[name] = loads.conductor_load(book, f"I_{name}", currents, motor)
    legs = [found[name] for name in ("leg_1", "leg_2") if name in found]
    answers: dict[str, Any] = {f"{name}_total_a": value.quantity for name, value in found.items()}
    if legs:
        answers["service_a"] = overcurrent.next_standard(book, max(legs, key=lambda leg: leg.quantity)).quantity
    return answers


@method("nec.load.optional_new")
def optional_new(case: Inputs) -> dict[str, Any]:
    """Optional method, new dwelling."""
    book = _book()
    lighting = total("S_light", [], "VA")
    if "area_ft2" in case:
        lighting = loads.lighting(book, case.value("area_ft2", "A", "ft2"))
    appliances = [given("S", va, "VA", "case, appliances_va") for va in case.numbers("appliances_va", [])]
    cooling = case.value("cooling_va", "S_AC", "VA", 0.0)
    load = loads.optional_new(book, lighting, _circuits(case), appliances, _heating(case), cooling)
    found = {
        "general_va": load.general.quantity,
        "general_demand_va": load.demand.quantity,
        "hvac_va": load.hvac.quantity,
        "total_va": load.total.quantity,
    }
    if "voltage_v" in case:
        current = loads.line_current(load.total, case.value("voltage_v", "U", "V"))
        found |= {"load_a": current.quantity, "service_a": loads.service_rating(book, current).quantity}
    return found


@method("nec.load.optional_existing")
def optional_existing(case: Inputs) -> dict[str, Any]:
    """Optional method, existing dwelling."""
    pool = [given("S", va, "VA", "case, loads_va") for va in case.numbers("loads_va")]
    load = loads.optional_existing(_book(), pool)
    found = {"total_va": load.total.quantity}
    if "voltage_v" in case:
        found["load_a"] = loads.line_current(load.total, case.value("voltage_v", "U", "V")).quantity
    return found


@method("nec.load.measured")
def measured(case: Inputs) -> dict[str, Any]:
    """Existing dwelling by recorded demand."""
    book = _book()
    greatest, new = case.value("measured_max_a", "I_max", "A"), case.value("new_load_a", "I_new", "A")
    required = loads.measured_demand(book, greatest, new)
    found: dict[str, Any] = {"required_a": required.quantity}
    if "service_a" in case:
        service, clause = case.value("service_a", "I_service", "A"), book.clause("measured_load")
        found["verdict"] = at_most("case", "Recorded demand and new load", clause, required, service).verdict
    return found


@method("nec.cooking_demand")
def cooking_demand(case: Inputs) -> dict[str, Any]:
    """Household cooking appliances."""
    columns: dict[str, Callable[..., Value]] = {"c": cooking.maximum_demand, "ab": cooking.percentage_demand}
    column = case.word("column")
    if column not in columns:
        raise BadCase(f"the column {column!r} is not c or ab")
    appliances = [
        cooking.Appliances(_whole(each, "count"), each.value("kw", "P", "kW")) for each in case.items("appliances")
    ]
    demand = columns[column](_book(), appliances)
    return {"demand_kw": demand.quantity, "neutral_kw": cooking.neutral(_book(), demand).quantity}


@method("nec.motor.branch_circuit")
def branch_circuit(case: Inputs) -> dict[str, Any]:
    """Conductor and short-circuit device of one motor."""
    current, found = case.value("full_load_a", "I_FLC", "A"), {}
    found["conductor_min_a"] = motors.conductor(_book(), current).quantity
    if "protection" in case:
        protection = case.word("protection").replace("_", " ")
        found["ocpd_a"] = motors.device(_book(), current, protection).quantity
    return found


@method("nec.motor.locked_rotor")
def locked_rotor(case: Inputs) -> dict[str, Any]:
    """Locked-rotor current from the code letter. The last letter has no upper end."""
    book, letter, phases = _book(), case.word("code_letter").lower(), case.number("phases")
    if phases not in (1, 3):
        raise BadCase(f"a motor has 1 or 3 phases, not {phases:g}")
    power, voltage = case.value("power_hp", "P", "hp"), case.value("voltage_v", "U", "V")
    found = {}
    for answer, end in (("low_a", "low"), ("mid_a", "middle"), ("high_a", "high")):
        try:
            per_hp = motors.locked_rotor_per_hp(book, letter, end)
        except Refusal:
            if end == "low":
                raise
            continue
        found[answer] = motors.locked_rotor(book, per_hp, power, voltage, phases == 3).quantity
    return found


def _book() -> shelf.Edition:
    return shelf.edition("nfpa70", "2023")


def _circuits(case: Inputs) -> Value:
    small = case.value("small_appliance_circuits", "n_small", "1", 0.0)
    return loads.circuits(_book(), small, case.value("laundry_circuits", "n_laundry", "1", 0.0))


def _heating(case: Inputs) -> loads.Heating:
    if "heating" not in case:
        return loads.Heating("none")
    item = case.item("heating")
    word = item.word("kind")
    if word not in HEATING:
        raise BadCase(f"the kind of heating {word!r} is not one of {', '.join(HEATING)}")
    kind = HEATING[word]
    if kind == "none":
        return loads.Heating(kind)
    if kind == "heat pump supplemented":
        parts = item.value("compressor_va", "S_H", "VA"), item.value("supplement_va", "S_S", "VA")
        return loads.Heating(kind, *parts)
    units = _whole(item, "units") if kind == "separate units" else 0
    return loads.Heating(kind, item.value("va", "S_H", "VA"), units=units)


def _whole(case: Inputs, name: str) -> int:
    number = case.number(name)
    if number < 1 or number != int(number):
        raise BadCase(f"the input {name!r} is not a whole number of at least one: {number:g}")
    return int(number)


def _va(demand: Value) -> Value:
    return given("P_demand", demand.quantity * 1000, "VA", f"{demand.quantity:g} kW of the demand table")
