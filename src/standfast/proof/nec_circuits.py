"""Conductors, overcurrent protection, grounding, sources, storage and working space by the NEC 2023."""

from typing import Any, Literal

from standfast.faults import NotInEdition, OutsideTable
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.nfpa70 import (
    busbars,
    conductors,
    feeders,
    grounding,
    overcurrent,
    resistance,
    sizes,
    storage,
    working_space,
)
from standfast.sheet import Check, Value, given, missing
from standfast.shelf import edition

BOOK = edition("nfpa70", "2023")
ONE = 1.0


def size(case: Inputs, name: str = "size") -> Value:
    """A conductor size of the case."""
    word = case.word(name)
    if word not in sizes.order(BOOK):
        raise BadCase(f"the input {name!r} is no conductor size: {word!r}")
    return given("size", word, "", f"case, {name}")


def word(case: Inputs, name: str, *known: str) -> Value:
    """A word of a closed list."""
    text = case.word(name)
    if text not in known:
        raise BadCase(f"the input {name!r} is {text!r}, not one of {', '.join(known)}")
    return given(name, text, "", f"case, {name}")


def material(case: Inputs) -> Value:
    """``cu`` or ``al``."""
    return word(case, "material", "cu", "al")


def insulation(case: Inputs) -> Value:
    """Column of the ampacity table in °C."""
    number = case.number("insulation_c")
    if number not in (60.0, 75.0, 90.0):
        raise BadCase(f"the input 'insulation_c' is {number:g}, not 60, 75 or 90")
    return given("T_ins", number, "°C", "case, insulation_c")


def amperes(case: Inputs, name: str) -> list[Value]:
    """A list of currents."""
    return [given(f"{name}_{i}", number, "A", f"case, {name}") for i, number in enumerate(case.numbers(name), 1)]


def judge(check: Check) -> str:
    """The verdict of a check."""
    return check.verdict


@method("nec.service_83pct")
def service_83pct(case: Inputs) -> dict[str, Any]:
    """Conductors that carry the whole load of a dwelling."""
    rating = case.value("service_rating_a", "I_n", "A")
    return {"min_ampacity_a": conductors.dwelling_least(BOOK, rating).quantity}


VA_PER_KVA = 1000.0


@method("nec.ampacity")
def ampacity(case: Inputs) -> dict[str, Any]:
    """Ampacity after ambient and bundling."""
    if "base_ampacity_a" in case:
        tabulated = case.value("base_ampacity_a", "I_tab", "A")
    else:
        tabulated = conductors.tabulated(BOOK, material(case), size(case), insulation(case))
    count = case.value("current_carrying_conductors", "n_ccc", "1", BOOK.number("adjustment_free").quantity)
    factor = _unity("k_amb")
    if _has_ambient(case):
        factor = conductors.ambient_factor(BOOK, insulation(case), _ambient(case))
    elif "insulation_c" in case:
        insulation(case)  # without an ambient temperature nothing is corrected by it
    found = conductors.corrected(BOOK, tabulated, factor, conductors.bundling_factor(BOOK, count))
    return {"ampacity_a": found.quantity}


@method("nec.table")
def table(case: Inputs) -> dict[str, Any]:
    """Cells of a table of the edition."""
    which, cells = case.word("table"), case.items("cells")
    if which == "310.16":
        metal = material(case)
        found = [conductors.tabulated(BOOK, metal, size(cell), insulation(cell)) for cell in cells]
        return {"ampacity_a": [value.quantity for value in found]}
    if which == "310.15(B)(1)(1)":
        found = [conductors.ambient_factor(BOOK, insulation(cell), _ambient(cell)) for cell in cells]
        return {"factor": [value.quantity for value in found]}
    if which == "ch9_t8":
        metal, strands = material(case), word(case, "stranding", "solid", "stranded")
        found = [resistance.direct(BOOK, metal, size(cell), strands.word) for cell in cells]
        return {"ohm_per_kft": [value.quantity for value in found]}
    if which == "430.7(B)":
        letters = [cell.word("code_letter") for cell in cells]
        low, high = ([_per_horsepower(letter, end) for letter in letters] for end in ("low", "high"))
        return {"kva_per_hp_from": low, "kva_per_hp_to": high}
    raise BadCase(f"the input 'table' is {which!r}, not one of 310.16, 310.15(B)(1)(1), ch9_t8, 430.7(B)")


def _per_horsepower(letter: str, end: str) -> float | None:
    """Locked-rotor kVA per horsepower at one end of a letter's range; None where the table leaves that end open."""
    try:
        return BOOK.table("code_letter").pick("S_hp", end, letter=letter).quantity / VA_PER_KVA
    except NotInEdition:
        return None


@method("nec.conductor.select")
def select(case: Inputs) -> dict[str, Any]:
    """Smallest conductor for a current or an area."""
    if "area_cmil" in case:
        return {"size": sizes.with_area(BOOK, case.value("area_cmil", "A_min", "cmil")).word}
    sets = case.value("parallel_sets", "n_set", "1", ONE)
    needed = case.value("required_a", "I_req", "A")
    found = conductors.smallest(BOOK, needed, sets, material(case), insulation(case))
    return {
        "per_set_a": found.per_set.quantity,
        "size": found.size.word,
        "size_ampacity_a": found.ampacity.quantity,
    }


@method("nec.ocpd.largest")
def largest_device(case: Inputs) -> dict[str, Any]:
    """Largest device that may protect a conductor."""
    metal = conductor = None
    if "size" in case:  # the limits of small conductors hold beside an ampacity after factors as well
        metal, conductor = material(case), size(case)
    if "ampacity_a" in case:
        total = case.value("ampacity_a", "I_z", "A")
    else:
        metal, conductor = material(case), size(case)
        sets, column = case.value("parallel_sets", "n_set", "1", ONE), insulation(case)
        total = conductors.of_sets(BOOK, conductors.tabulated(BOOK, metal, conductor, column), sets, conductor)
    answers: dict[str, Any] = {"ampacity_a": total.quantity, "max_load_a": total.quantity}
    if "next_size_up_allowed" in case:
        round_up = given("round_up", case.yes("next_size_up_allowed"), "", "case, next_size_up_allowed")
        answers["ocpd_a"] = overcurrent.largest(BOOK, total, round_up, metal, conductor).quantity
    return answers


@method("nec.ocpd.continuous")
def continuous_device(case: Inputs) -> dict[str, Any]:
    """Device for continuous and other load."""
    found = overcurrent.continuous(
        BOOK, case.value("continuous_a", "I_cont", "A"), case.value("noncontinuous_a", "I_other", "A")
    )
    return {"required_a": found.needed.quantity, "ocpd_a": found.rating.quantity}


@method("nec.egc.upsized")
def upsized_ground(case: Inputs) -> dict[str, Any]:
    """Equipment grounding conductor of enlarged circuit conductors."""
    base, original, installed = (size(case, f"{name}_size") for name in ("base_egc", "original", "installed"))
    found = grounding.equipment_upsized(BOOK, base, original, installed)
    return {"area_cmil": found.area.quantity, "egc_size": found.size.word}


@method("nec.bonding_jumper")
def jumper(case: Inputs) -> dict[str, Any]:
    """Main, system or supply-side bonding jumper of copper and of aluminium."""
    service, conductor = material(case), size(case)
    sets = case.value("parallel_sets", "n_set", "1", ONE)
    answers: dict[str, Any] = {}
    for metal in (service.word, "al" if service.word == "cu" else "cu"):
        kind = given("jumper_material", metal, "", "case")
        try:
            found = grounding.bonding_jumper(BOOK, service, conductor, sets, kind)
        except OutsideTable:  # no conductor of that metal in the table carries what the service conductors carry
            continue
        answers["service_area_cmil"] = found.service_area.quantity
        if not found.size.missing:
            answers[f"jumper_{metal}_size"] = found.size.word
        if found.least_area is not None and metal == service.word:
            answers["jumper_area_cmil"] = found.least_area.quantity
    return answers


@method("nec.busbar")
def busbar(case: Inputs) -> dict[str, Any]:
    """A source on a busbar, each option for itself."""
    sources = _sources(case)
    answers: dict[str, Any] = {} if sources is None else {"sources_125_a": sources.quantity}
    bus = case.value("bus_a", "I_bus", "A") if "bus_a" in case else None
    main = case.value("main_a", "I_main", "A") if "main_a" in case else None
    ends = case.yes("opposite_end") if "opposite_end" in case else None
    if main is not None and sources is not None:
        both = busbars.with_main(BOOK, main, sources)
        answers["option_1_sum_a"] = answers["option_2_sum_a"] = both.quantity
        answers["option_1_bus_a"] = both.quantity
        answers["option_2_bus_a"] = busbars.least_bus_120(BOOK, both).quantity
        if bus is not None:
            answers["option_1"] = judge(busbars.option_1(BOOK, "option-1", both, bus))
    if bus is not None:
        limit = busbars.limit_120(BOOK, bus)
        answers["option_2_limit_a"] = limit.quantity
        if main is not None and sources is not None and ends is not None:
            opposite = given("opposite_ends", ends, "", "case, opposite_end")
            answers["option_2"] = judge(busbars.option_2(BOOK, "option-2", both, bus, opposite))
    if "branch_ocpd_a" in case:
        devices = busbars.devices(BOOK, amperes(case, "branch_ocpd_a"))
        answers["option_3_sum_a"] = devices.quantity
        if bus is not None:
            answers["option_3"] = judge(busbars.option_3(BOOK, "option-3", devices, bus, main))
    return answers


@method("nec.busbar.largest_source")
def largest_source(case: Inputs) -> dict[str, Any]:
    """What still fits on a busbar."""
    bus, main = case.value("bus_a", "I_bus", "A"), case.value("main_a", "I_main", "A")
    first = busbars.room(BOOK, bus, main)
    answers: dict[str, Any] = {
        "option_1_sources_125_a": first.sources_125.quantity,
        "option_1_output_a": first.output.quantity,
    }
    voltage = case.value("voltage_v", "U", "V") if "voltage_v" in case else None
    if "centre_fed" not in case:
        return answers
    centre = case.yes("centre_fed")
    second = busbars.room_120(BOOK, bus, main, centre)
    if centre:
        answers["option_4_sources_125_a"] = second.sources_125.quantity
        answers["ends_usable"] = BOOK.number("centre_fed_ends").quantity
        return answers
    answers["option_2_sources_125_a"] = second.sources_125.quantity
    answers["option_2_output_a"] = second.output.quantity
    if voltage is not None:
        answers["option_2_output_kw"] = busbars.power(second.output, voltage).quantity
    return answers


@method("nec.feeder.tap")
def feeder_tap(case: Inputs) -> dict[str, Any]:
    """Tap conductor on a feeder with a source."""
    rule: Literal[10, 25]
    match case.number("tap_rule_ft"):
        case 10.0:
            rule = 10
        case 25.0:
            rule = 25
        case other:
            raise BadCase(f"the input 'tap_rule_ft' is {other:g}, not 10 or 25")
    feeder, sources = case.value("feeder_ocpd_a", "I_feeder", "A"), case.value("sources_125_a", "I_src", "A")
    least = feeders.tap(BOOK, feeder, sources, rule)
    answers: dict[str, Any] = {"min_ampacity_a": least.quantity}
    if "material" in case or "insulation_c" in case:
        found = conductors.smallest(BOOK, least, _unity("n_set"), material(case), insulation(case))
        answers["size"] = found.size.word
    return answers


@method("nec.feeder.with_source")
def feeder_with_source(case: Inputs) -> dict[str, Any]:
    """Feeder on the load side of a source connection."""
    primary = case.value("primary_ocpd_a", "I_primary", "A")
    needed = feeders.needed_beyond_source(BOOK, primary, amperes(case, "sources_a"))
    answers: dict[str, Any] = {"required_a": needed.quantity}
    device = case.value("load_side_ocpd_a", "I_load_side", "A") if "load_side_ocpd_a" in case else None
    if "feeder_ampacity_a" in case:
        own = case.value("feeder_ampacity_a", "I_z", "A")
        answers["verdict"] = judge(feeders.beyond_source(BOOK, "feeder", own, needed, device))
    return answers


@method("nec.interrupting_rating")
def interrupting_rating(case: Inputs) -> dict[str, Any]:
    """Device against the available fault current."""
    fault, device = case.value("available_fault_ka", "I_fault", "kA"), case.value("device_ka", "I_cu", "kA")
    return {"verdict": judge(overcurrent.interrupting(BOOK, "device", "Interrupting rating", fault, device))}


@method("nec.ess.disconnect_location")
def disconnect_location(case: Inputs) -> dict[str, Any]:
    """Where a disconnecting means may stand."""
    names = ("inside_unit", "in_sight", "distance_ft", "lockable")
    raw = {name: case.raw(name) for name in names if name in case}
    if not any(each != [] for each in raw.values()):
        raise BadCase(f"none of the inputs {', '.join(names)} is given")
    many = any(isinstance(each, list) for each in raw.values())
    columns = {name: each if isinstance(each, list) else [each] for name, each in raw.items()}
    longest = max(len(each) for each in columns.values())
    if any(len(each) not in (1, longest) for each in columns.values()):
        raise BadCase("the lists of positions have different lengths")
    rows = [{name: each[i % len(each)] for name, each in columns.items()} for i in range(longest)]
    verdicts = [_disconnect(Inputs({name: fact for name, fact in row.items() if fact is not None})) for row in rows]
    return {"verdict": verdicts if many else verdicts[0]}


@method("nec.working_space")
def space(case: Inputs) -> dict[str, Any]:
    """Least working space."""
    condition = case.value("condition", "condition", "1")
    found = working_space.least(BOOK, case.value("volts_to_ground_v", "U_0", "V"), condition)
    return {
        "depth_ft": found.depth.quantity,
        "width_in": found.width.quantity,
        "height_ft": found.height.quantity,
    }


def _disconnect(place: Inputs) -> str:
    """The verdict on one position. A fact that is not stated is missing: it never makes a position pass."""

    def fact(name: str, unit: str) -> Value:
        if name in place:
            number = place.number(name) if unit else place.yes(name)
            return given(name, number, unit, f"case, {name}")
        return missing(name, unit, f"the case does not state {name!r}")

    inside, in_sight, lockable = (fact(name, "") for name in ("inside_unit", "in_sight", "lockable"))
    return judge(storage.disconnect(BOOK, "disconnect", inside, in_sight, fact("distance_ft", "ft"), lockable))


def _sources(case: Inputs) -> Value | None:
    """125 % of the outputs, or the ratings of the source devices in its place; None where the case asks for neither."""
    if "sources_a" in case:
        return busbars.sources_125(BOOK, amperes(case, "sources_a"))
    if "source_ocpd_a" in case or "branch_ocpd_a" not in case:
        return busbars.sources_by_devices(BOOK, amperes(case, "source_ocpd_a"))
    return None


def _has_ambient(case: Inputs) -> bool:
    return "ambient_c" in case or "ambient_f" in case


def _ambient(case: Inputs) -> Value:
    if "ambient_f" in case:
        return conductors.celsius(BOOK, case.value("ambient_f", "T_F", "°F"))
    return case.value("ambient_c", "T_amb", "°C")


def _unity(symbol: str) -> Value:
    return given(symbol, ONE, "1", "case: none given")
