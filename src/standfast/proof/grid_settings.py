"""Adapters of the grid interface: trips, ride-through, default points and ranges of settings."""

from collections.abc import Callable
from typing import Any, NamedTuple

from standfast import shelf
from standfast.proof.endings import ENDING_OF, answers
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.asnzs4777_2 import settings as australian
from standfast.rulebooks.erec import settings as british
from standfast.rulebooks.handbook import grid_side
from standfast.rulebooks.ieee1547 import functions, ride_through, trips
from standfast.sheet import given
from standfast.shelf import Edition

IEEE1547 = {"ieee1547_2018": "2018", "ieee1547_2018_a1": "2018-a1"}
ASNZS4777_2 = {
    "asnzs4777_2_2015": ("2015", "australia"),
    "asnzs4777_2_2020": ("2020", "australia_a"),
    "asnzs4777_2_2020_a": ("2020", "australia_a"),
    "asnzs4777_2_2020_b": ("2020", "australia_b"),
    "asnzs4777_2_2020_c": ("2020", "australia_c"),
    "asnzs4777_2_2020_nz": ("2020", "new_zealand"),
}
"""Words of the cases to edition and rule; a standard without a region means the one of its first column."""
CATEGORIES = ("i", "ii", "iii")
"""Of abnormal operation; what a unit rides through of frequency is the same in all three."""
AUSTRALIAN_NAMES = {"longest": "max"}


@method("grid.trip_setting")
def trip_setting(case: Inputs) -> dict[str, Any]:
    """Default trip setting of one function."""
    standard, function = case.word("standard"), case.word("function")
    category = case.word("category", "")
    if standard in IEEE1547:
        book = shelf.edition("ieee1547", IEEE1547[standard])
        if function in trips.VOLTAGE:
            return answers(trips.voltage_trip(book, _category(category, function), function))
        return answers(trips.frequency_trip(book, function))
    if standard == "g98":
        return _british_trip(shelf.edition("erec", "2019"), function)
    edition, rule = _australian(standard)
    ask = australian.voltage_trip if "v" in function[:2] else australian.frequency_trip
    return answers(ask(shelf.edition("asnzs4777_2", edition), rule, function), AUSTRALIAN_NAMES)


def _british_trip(book: Edition, function: str) -> dict[str, Any]:
    if function == "rocof":
        return answers(british.loss_of_mains(book))
    if "v" not in function[:2]:
        return answers(british.frequency_trip(book, function))
    return answers(british.voltage_trip(book, function), {"per_unit": "threshold"})


@method("grid.function_default")
def function_default(case: Inputs) -> dict[str, Any]:
    """Default points of one function."""
    standard, function = case.word("standard"), case.word("function")
    category, network = case.word("category", ""), case.word("network", "")
    if standard in ASNZS4777_2:
        edition, rule = ASNZS4777_2[standard]
        book = shelf.edition("asnzs4777_2", edition)
        if network:
            rule = australian.rule_of(book, "au", network).word
        return answers(_of(AUSTRALIAN, function)(book, rule))
    if network:
        raise BadCase(f"no rule of the network {network!r} is held for {standard}")
    if standard in IEEE1547:
        return answers(_of(AMERICAN, function)(shelf.edition("ieee1547", IEEE1547[standard]), category))
    if standard == "g98":
        return answers(_of(BRITISH, function)(shelf.edition("erec", "2019")))
    raise BadCase(f"no default settings are held for the standard {standard!r}")


AMERICAN: dict[str, Callable[[Edition, str], NamedTuple]] = {
    "enter_service": lambda book, category: functions.enter_service(book),
    "volt_var": lambda book, category: functions.volt_var(book, _category(category, "volt_var")),
    "volt_watt": lambda book, category: functions.volt_watt(book),
    "frequency_droop": lambda book, category: functions.frequency_droop(book),
    # A unit returns to service after a trip by the criteria of entering service.
    "reconnection": lambda book, category: functions.enter_service(book),
}
BRITISH: dict[str, Callable[[Edition], NamedTuple]] = {
    "reconnection": british.reconnection,
    "frequency_droop": british.frequency_droop,
}
AUSTRALIAN: dict[str, Callable[[Edition, str], NamedTuple]] = {
    "enter_service": australian.reconnection,
    "reconnection": australian.reconnection,
    "volt_var": australian.volt_var,
    "volt_watt": australian.volt_watt,
    "frequency_droop": australian.frequency_droop,
    "sustained_voltage": australian.sustained_voltage,
}


@method("grid.setting_range")
def setting_range(case: Inputs) -> dict[str, Any]:
    """Range within which a setting may be chosen."""
    standard, group, category = case.word("standard"), case.word("group"), case.word("category", "")
    if standard not in IEEE1547:
        raise BadCase(f"no ranges are held for the standard {standard!r}")
    book = shelf.edition("ieee1547", IEEE1547[standard])
    if group == "enter_service":
        pairs = functions.enter_service_ranges(book).items()
        return {f"{name}{ENDING_OF[low.unit]}": [low.quantity, high.quantity] for name, (low, high) in pairs}
    if group != "trip":
        raise BadCase(f"the group {group!r} is not enter_service or trip")
    found: dict[str, Any] = {}
    for function, each in trips.ranges(book, category).items():
        found[function + ENDING_OF[each.least.unit]] = [each.least.quantity, each.greatest.quantity]
        found[f"{function}_s"] = [each.least_time.quantity, each.greatest_time.quantity]
    return found


@method("grid.ride_through")
def least_times(case: Inputs) -> dict[str, Any]:
    """Least time a unit must stay connected."""
    if case.word("standard") not in IEEE1547:
        raise BadCase(f"no ride-through is held for the standard {case.word('standard')!r}")
    book = shelf.edition("ieee1547", IEEE1547[case.word("standard")])
    if "frequency_hz" in case:
        if "category" in case and case.word("category") not in CATEGORIES:
            raise BadCase(f"the category {case.word('category')!r} is not one of {', '.join(CATEGORIES)}")
        frequencies = [given("f", each, "Hz", "case, frequency_hz") for each in case.numbers("frequency_hz")]
        return {"min_s": [ride_through.frequency_time(book, each).quantity for each in frequencies]}
    category = _category(case.word("category", ""), "voltage ride-through")
    voltages = [given("V", each, "pu", "case, voltage_pu") for each in case.numbers("voltage_pu")]
    return {"min_s": [ride_through.voltage_time(book, category, each).quantity for each in voltages]}


@method("grid.per_unit_volts")
def per_unit_volts(case: Inputs) -> dict[str, Any]:
    """Voltages of thresholds per unit."""
    book, nominal = shelf.edition("handbook", "2026"), case.value("nominal_v", "U_n", "V")
    shares = [given("v", each, "pu", "case, thresholds_pu") for each in case.numbers("thresholds_pu")]
    return {"volts_v": [grid_side.volts(book, each, nominal).quantity for each in shares]}


@method("power.energy_balance")
def energy_balance(case: Inputs) -> dict[str, Any]:
    """Steady balance at the meter."""
    inverter, load = case.value("inverter_w", "P_inverter", "W"), case.value("load_w", "P_load", "W")
    return {"grid_export_w": grid_side.export(shelf.edition("handbook", "2026"), inverter, load).quantity}


@method("grid.region")
def region(case: Inputs) -> dict[str, Any]:
    """Region setting in a network."""
    book = shelf.edition("asnzs4777_2", "2020")
    rule = australian.rule_of(book, case.word("country"), case.word("network"))
    return {"region": rule.word, "choice_by_network": australian.chosen_by_network(book).yes}


def _australian(standard: str) -> tuple[str, str]:
    if standard not in ASNZS4777_2:
        raise BadCase(f"no trip settings are held for the standard {standard!r}")
    return ASNZS4777_2[standard]


def _category(category: str, function: str) -> str:
    if not category:
        raise BadCase(f"{function} differs by category: name it")
    return category


def _of(table: dict[str, Callable[..., NamedTuple]], function: str) -> Callable[..., NamedTuple]:
    if function not in table:
        raise BadCase(f"the standard has no default for the function {function!r}")
    return table[function]
