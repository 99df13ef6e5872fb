"""Settings under IEEE 1547, by its category of abnormal operation and that of normal operation."""

from collections.abc import Iterator

from standfast.design.settings.points import percent, switch, trip
from standfast.design.settings.setting import Point, Setting, of_rule
from standfast.rulebooks.ieee1547 import functions, ride_through, trips
from standfast.sheet import Value
from standfast.shelf import Edition

NAMES = {
    "ov2": "Over-voltage trip, stage 2", "ov1": "Over-voltage trip, stage 1", "uv1": "Under-voltage trip, stage 1",
    "uv2": "Under-voltage trip, stage 2", "of2": "Over-frequency trip, stage 2", "of1": "Over-frequency trip, stage 1",
    "uf1": "Under-frequency trip, stage 1", "uf2": "Under-frequency trip, stage 2",
}  # fmt: skip
ENTER = {
    "v_low": ("least voltage", "ESVLo"), "v_high": ("greatest voltage", "ESVHi"),
    "f_low": ("least frequency", "ESHzLo"), "f_high": ("greatest frequency", "ESHzHi"),
    "delay": ("delay", "ESDlyTms"), "ramp": ("ramp", "ESRmpTms"),
}  # fmt: skip
"""Fields of entering service: what a person calls them, and their points in model 703."""


def rows(book: Edition, standard: Edition, category: Value, normal: Value) -> Iterator[Setting]:
    """Every setting, in the order of the sheet.

    Args:
        book: IEEE 1547 as the operator has changed it.
        standard: IEEE 1547 as published: an operator chooses within its ranges.
        category: of abnormal operation.
        normal: of normal operation.
    """
    for function in (*trips.VOLTAGE, *trips.FREQUENCY):
        yield from _trip(book, standard, category, function)
    yield from _ride_through(book, category)
    yield from _enter(book, standard)
    yield from _volt_var(book, normal)
    yield from _volt_watt(book)
    yield from _droop(book)
    yield Setting("Anti-islanding", "time to stop", book.number("island_time"), "at most")


def _trip(book: Edition, standard: Edition, category: Value, function: str) -> Iterator[Setting]:
    if function in trips.VOLTAGE:
        asked = of_rule(
            category, {"threshold": "pu", "time": "s"},
            lambda: trips.voltage_trip(book, category.word.lower(), function),
        )  # fmt: skip
        units = {"least": "pu", "greatest": "pu", "least_time": "s", "greatest_time": "s"}
        span = of_rule(category, units, lambda: trips.voltage_range(standard, category.word.lower(), function))
    else:
        asked = trips.frequency_trip(book, function)._asdict()
        asked["time"] = asked.pop("clearing")
        span = trips.frequency_range(standard, function)._asdict()
    for what, value in asked.items():
        ending = "_time" if what == "time" else ""
        yield Setting(
            NAMES[function], "clearing time" if what == "time" else what, value, point=trip(function, what, value),
            least=span[f"least{ending}"], greatest=span[f"greatest{ending}"],
        )  # fmt: skip


def _ride_through(book: Edition, category: Value) -> Iterator[Setting]:
    name = "Ride-through"
    for region in () if category.missing else ride_through.regions(book, category.word.lower()):
        yield Setting(name, f"{region.side} {region.edge.quantity:g} pu", region.time, "at least")
    low, high = book.number("ride_f_low"), book.number("ride_f_high")
    yield Setting(name, f"from {low.quantity:g} to {high.quantity:g} Hz", book.number("ride_f_time"), "at least")
    rate = of_rule(category, {"rate": "Hz/s"}, lambda: [ride_through.rate_of_change(book, category.word.lower())])
    yield Setting(name, "rate of change of frequency", rate["rate"], "at least")


def _enter(book: Edition, standard: Edition) -> Iterator[Setting]:
    name, spans = "Enter service", functions.enter_service_ranges(standard)
    yield Setting(name, "on", book.number("enter_service_on"), point=switch(703, book.number("enter_service_on")))
    for field, value in functions.enter_service(book)._asdict().items():
        words, point = ENTER[field]
        shown = percent(value) if value.unit == "pu" else value
        least, greatest = spans[field]
        yield Setting(name, words, value, point=Point(703, point, shown), least=least, greatest=greatest)


def _volt_var(book: Edition, normal: Value) -> Iterator[Setting]:
    name, on = "Volt-var", book.number("volt_var_on")
    yield Setting(name, "on", on, point=switch(705, on))
    fields = {f"{part}{n}": "pu" for part in "vq" for n in functions.POINTS} | {"response": "s"}

    def ask() -> list[Value]:
        found = functions.volt_var(book, normal.word.lower())
        return [*found.v, *found.q, found.response]

    asked = of_rule(normal, fields, ask)
    for n in functions.POINTS:
        v, q = asked[f"v{n}"], asked[f"q{n}"]
        yield Setting(name, f"point {n}, voltage", v, point=Point(705, f"Crv[0].Pt[{n - 1}].V", percent(v)))
        yield Setting(name, f"point {n}, reactive power", q, point=Point(705, f"Crv[0].Pt[{n - 1}].Var", percent(q)))
    response = asked["response"]
    yield Setting(name, "response time", response, point=Point(705, "Crv[0].RspTms", response))


def _volt_watt(book: Edition) -> Iterator[Setting]:
    name, on, asked = "Volt-watt", book.number("volt_watt_on"), functions.volt_watt(book)
    yield Setting(name, "on", on, point=switch(706, on))
    yield Setting(name, "point 1, voltage", asked.v1, point=Point(706, "Crv[0].Pt[0].V", percent(asked.v1)))
    yield Setting(name, "point 2, voltage", asked.v2, point=Point(706, "Crv[0].Pt[1].V", percent(asked.v2)))
    yield Setting(name, "point 2, power", asked.p2, point=Point(706, "Crv[0].Pt[1].W", percent(asked.p2)))
    yield Setting(name, "response time", asked.response, point=Point(706, "Crv[0].RspTms", asked.response))


def _droop(book: Edition) -> Iterator[Setting]:
    name, on, asked = "Frequency droop", book.number("frequency_droop_on"), functions.frequency_droop(book)
    yield Setting(name, "on", on, point=switch(711, on))
    for side, where in (("Of", "above"), ("Uf", "below")):
        deadband, droop = Point(711, f"Ctl[0].Db{side}", asked.deadband), Point(711, f"Ctl[0].K{side}", asked.droop)
        yield Setting(name, f"deadband {where}", asked.deadband, point=deadband)
        yield Setting(name, f"droop {where}", asked.droop, point=droop)
    yield Setting(name, "response time", asked.response, point=Point(711, "Ctl[0].RspTms", asked.response))
