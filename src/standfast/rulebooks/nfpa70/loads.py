"""Load of one dwelling: standard method, optional methods, recorded demand; lines, neutral and service.

Loads are in VA, areas in ft2, currents in A. The edition holds every unit load, step and factor.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70.overcurrent import next_standard
from standfast.sheet import Value, attempt, chosen, given, total, work, worst
from standfast.shelf import Edition

HeatingKind = Literal[
    "none", "central electric", "separate units", "heat pump", "heat pump supplemented", "thermal storage"
]


class Heating(NamedTuple):
    """Electric heating of a dwelling.

    Attributes:
        kind: what it is.
        load: VA of all heating, or of the compressor of a supplemented heat pump; None where there is none.
        supplement: VA of the supplementary heat of a heat pump.
        units: number of separately controlled units.
        interlocked: true where compressor and supplementary heat are kept from running together.
    """

    kind: HeatingKind
    load: Value | None = None
    supplement: Value | None = None
    units: int = 0
    interlocked: bool = False


class OptionalLoad(NamedTuple):
    """Load by an optional method in VA: everything but heating and cooling, its demand, the rest, and the sum."""

    general: Value
    demand: Value
    hvac: Value
    total: Value


def lighting(book: Edition, area: Value) -> Value:
    """General lighting and receptacles in VA from the floor area in ft2."""
    return work(
        "S_light", "k_light * A", "VA", book.clause("dwelling_unit_load"), book.number("lighting_unit_load"), A=area
    )


def circuits(book: Edition, small_appliance: Value, laundry: Value) -> Value:
    """Small-appliance and laundry circuits in VA from their numbers."""
    loads = book.number("small_appliance_circuit"), book.number("laundry_circuit")
    text, clause = "n_small * S_small + n_laundry * S_laundry", book.clause("small_appliance_and_laundry")
    return work("S_circuits", text, "VA", clause, *loads, n_small=small_appliance, n_laundry=laundry)


def lighting_demand(book: Edition, general: Value) -> Value:
    """Demand in VA of lighting, small-appliance and laundry circuits together."""
    numbers = [book.number(f"lighting_{name}") for name in ("step_1", "step_2", "factor_1", "factor_2", "factor_3")]
    text = "k_1 * min(S, S_1) + k_2 * max(0, min(S, S_2) - S_1) + k_3 * max(0, S - S_2)"
    return work("S_lighting", text, "VA", book.clause("lighting_demand"), *numbers, S=general)


def fastened_factor(book: Edition, loads: Sequence[Value]) -> Value:
    """Demand factor of appliances fastened in place: less than one where enough of them are large enough."""
    counted, clause = _counted(book, loads), book.clause("fastened_in_place")
    least, factor = book.number("fastened_count"), book.number("fastened_factor")
    if len(counted) >= least.quantity:
        return chosen("k_fastened", factor.quantity, "1", f"{len(counted)} appliances", clause, factor, least, *loads)
    reason = f"{len(counted)} appliances, fewer than {least.quantity:g}"
    return chosen("k_fastened", 1.0, "1", reason, clause, least, *loads)


def fastened_demand(book: Edition, loads: Sequence[Value], factor: Value) -> Value:
    """Demand in VA of appliances fastened in place, at the factor found for all of them.

    Appliances too small to be counted keep their nameplate. For the neutral, give the loads from line to neutral only.
    """
    counted, clause = _counted(book, loads), book.clause("fastened_in_place")
    others = [load for load in loads if load not in counted]
    large, small = total("S_large", counted, "VA"), total("S_small", others, "VA")
    return work("S_fastened", "k_fastened * S_large + S_small", "VA", clause, large, small, k_fastened=factor)


def dryer_demand(book: Edition, nameplates: Sequence[Value]) -> Value:
    """Demand in VA of household clothes dryers, each at its nameplate but not under the least load.

    OutsideTable for more dryers than carry their full load.
    """
    full = book.number("dryer_full_count")
    if len(nameplates) > full.quantity:
        raise OutsideTable(f"the demand of more than {full.quantity:g} dryers is not held")
    clause, least = book.clause("dryers"), book.number("dryer_least")
    return total("S_dryers", [work("S_D", "max(S_dryer, S)", "VA", clause, least, S=each) for each in nameplates], "VA")


def vehicle_supply(book: Edition, nameplate: Value) -> Value:
    """Load in VA of a vehicle supply: its nameplate, but not under the least load."""
    least = book.number("vehicle_least")
    return work("S_EV", "max(S_vehicle, S)", "VA", book.clause("vehicle_supply"), least, S=nameplate)


def neutral_current(book: Edition, unbalanced: Value) -> Value:
    """Load of the neutral in A after the reduction of what lies above the step."""
    step, factor = book.number("neutral_step"), book.number("neutral_above")
    text = "min(I_N, I_N200) + k_N200 * max(0, I_N - I_N200)"
    return work("I_neutral", text, "A", book.clause("neutral_reduced"), step, factor, I_N=unbalanced)


def line_current(load: Value, voltage: Value) -> Value:
    """Current in A of a single-phase three-wire service from its load in VA and its line-to-line voltage in V."""
    return work("I_load", "S / U", "A", None, S=load, U=voltage)


def conductor_load(book: Edition, symbol: str, currents: Sequence[Value], largest_motor: Value) -> Value:
    """Load in A of one conductor: all its currents, and a part of its largest motor once more."""
    clause, factor = book.clause("largest_motor"), book.number("largest_motor")
    added = work("I_M_more", "k_motor * I_M", "A", clause, factor, I_M=largest_motor)
    return total(symbol, [*currents, added], "A", clause)


def service_rating(book: Edition, load: Value) -> Value:
    """Least standard rating in A of the service of a one-family dwelling with a load in A."""
    return next_standard(book, worst("I_needed", [load, service_least(book)], "max", book.clause("service_least")))


def service_least(book: Edition) -> Value:
    """Least rating in A of the service of a one-family dwelling."""
    return book.number("service_least_one_family", "I_least")


def optional_new(
    book: Edition,
    lighting_load: Value,
    circuit_load: Value,
    appliances: Sequence[Value],
    heating: Heating,
    cooling: Value,
) -> OptionalLoad:
    """Load of a new dwelling by the optional method.

    Args:
        book: the NEC.
        lighting_load: by floor area in VA.
        circuit_load: small-appliance and laundry circuits in VA.
        appliances: nameplates in VA of everything fastened in place, cooking and dryers included.
        heating: electric heating.
        cooling: air conditioning in VA; zero where there is none.
    """
    general = total("S_general", [lighting_load, circuit_load, *appliances], "VA", book.clause("optional_new_general"))
    demand = _pool(book, "optional_new_first", general, "optional_new_general")
    hvac = attempt("S_hvac", "VA", lambda: _new_hvac(book, heating, cooling))
    return OptionalLoad(general, demand, hvac, total("S_total", [demand, hvac], "VA", book.clause("optional_new")))


def optional_existing(book: Edition, loads: Sequence[Value]) -> OptionalLoad:
    """Load in VA of an existing dwelling without new heating or cooling: all loads, present and new, in one pool."""
    clause = book.clause("optional_existing")
    general = total("S_general", loads, "VA", clause)
    demand = _pool(book, "optional_existing_first", general, "optional_existing")
    none = given("S_hvac", 0.0, "VA", "no new heating or cooling")
    return OptionalLoad(general, demand, none, total("S_total", [demand], "VA", clause))


def optional_existing_new_hvac(book: Edition, loads: Sequence[Value], heating: Value, cooling: Value) -> OptionalLoad:
    """Load in VA of an existing dwelling that gets heating or cooling.

    Args:
        book: the NEC.
        loads: everything but heating and cooling, present and new, in VA.
        heating: electric heating in VA, the existing one that stays included; zero where there is none.
        cooling: air conditioning likewise. The larger of the two counts, in full.
    """
    clause = book.clause("optional_existing_new_hvac")
    general = total("S_general", loads, "VA", clause)
    demand = _pool(book, "optional_existing_first", general, "optional_existing_new_hvac")
    hvac = worst("S_hvac", [heating, cooling], "max", clause)
    return OptionalLoad(general, demand, hvac, total("S_total", [demand, hvac], "VA", clause))


def measured_demand(book: Edition, greatest: Value, new: Value) -> Value:
    """Rating in A that recorded demand and a new load need: `greatest` is the highest recorded demand in A."""
    text, factor = "k_measured * I_max + I_new", book.number("measured_factor")
    return work("I_required", text, "A", book.clause("measured_load"), factor, I_max=greatest, I_new=new)


def _heating(book: Edition, heating: Heating) -> Value:
    clause = book.clause("optional_new_hvac")
    if heating.load is None:
        return given("S_heat", 0.0, "VA", "no electric heating")
    few = book.number("optional_few_units")
    many = heating.kind == "separate units" and heating.units >= few.quantity
    key = {"central electric": "central", "separate units": "units" if many else "central"}.get(heating.kind, "full")
    factor = book.number(f"optional_heat_{key}")
    if heating.supplement is None:
        return work("S_heat", "k_heat * S_H", "VA", clause, factor, S_H=heating.load)
    part = book.number("optional_heat_central", "k_supplement")
    if heating.interlocked:
        supplement = work("S_supplement", "k_supplement * S_S", "VA", clause, part, S_S=heating.supplement)
        compressor = work("S_compressor", "k_heat * S_H", "VA", clause, factor, S_H=heating.load)
        return worst("S_heat", [compressor, supplement], "max", clause)
    text = "k_heat * S_H + k_supplement * S_S"
    return work("S_heat", text, "VA", clause, factor, part, S_H=heating.load, S_S=heating.supplement)


def _new_hvac(book: Edition, heating: Heating, cooling: Value) -> Value:
    """The larger of heating and cooling, each at its factor; no factor is asked for where there is none of both."""
    clause = book.clause("optional_new_hvac")
    if heating.kind == "none" and not cooling.missing and cooling.quantity == 0:
        return chosen("S_hvac", 0.0, "VA", "no electric heating and no cooling", clause, cooling)
    cool = work("S_cool", "k_cool * S_AC", "VA", clause, book.number("optional_heat_full", "k_cool"), S_AC=cooling)
    return worst("S_hvac", [cool, _heating(book, heating)], "max", clause)


def _pool(book: Edition, first: str, general: Value, clause: str) -> Value:
    numbers = book.number(first), book.number("optional_rest")
    text = "min(S_general, S_first) + k_rest * max(0, S_general - S_first)"
    return work("S_demand", text, "VA", book.clause(clause), *numbers, S_general=general)


def _counted(book: Edition, loads: Sequence[Value]) -> list[Value]:
    least = book.number("fastened_least").quantity
    return [load for load in loads if load.missing or load.quantity >= least]
