"""Settings under AS/NZS 4777.2, by region."""

from collections.abc import Iterator

from standfast.design.settings.points import percent, switch, trip
from standfast.design.settings.setting import Point, Setting, of_rule
from standfast.rulebooks.asnzs4777_2 import settings
from standfast.sheet import Value, missing
from standfast.shelf import Edition

VOLTAGE = {
    "ov2": "Over-voltage trip, stage 2 (V>>)", "ov1": "Over-voltage trip, stage 1 (V>)",
    "uv1": "Under-voltage trip, stage 1 (V<)", "uv2": "Under-voltage trip, stage 2 (V<<)",
}  # fmt: skip
FREQUENCY = {"of1": "Over-frequency trip (F>)", "uf1": "Under-frequency trip (F<)"}
RECONNECTION = {
    "v_low": ("least voltage", "ESVLo", "V"), "v_high": ("greatest voltage", "ESVHi", "V"),
    "f_low": ("least frequency", "ESHzLo", "Hz"), "f_high": ("greatest frequency", "ESHzHi", "Hz"),
    "delay": ("delay", "ESDlyTms", "s"), "ramp": ("ramp", "ESRmpTms", "s"),
}  # fmt: skip
"""Fields of reconnection: what a person calls them, their points in model 703, their units."""


def rows(book: Edition, region: Value) -> Iterator[Setting]:
    """Every setting, in the order of the sheet.

    Args:
        book: AS/NZS 4777.2 as the operator has changed it.
        region: as the job names it: ``Australia A``.
    """
    rule = "" if region.missing else rule_of(region.word)
    for function, name in (VOLTAGE | FREQUENCY).items():
        yield from _trip(book, region, function, name)
    limit = of_rule(region, {"limit": "V"}, lambda: settings.sustained_voltage(book, rule))
    yield Setting("Sustained voltage", "average over ten minutes", limit["limit"])
    yield from _reconnection(book, region, rule)
    yield from _volt_var(book, region, rule)
    yield from _volt_watt(book, region, rule)
    yield from _droop(book, region, rule)
    yield Setting("Anti-islanding", "time to stop", book.number("island_time"), "at most")


def rule_of(region: str) -> str:
    """The row of the book's tables for a region: ``australia_a``."""
    return region.lower().replace(" ", "_")


def _trip(book: Edition, region: Value, function: str, name: str) -> Iterator[Setting]:
    ask, unit = (settings.voltage_trip, "V") if function in VOLTAGE else (settings.frequency_trip, "Hz")
    units = {"threshold": unit, "delay": "s", "longest": "s"}
    asked = of_rule(region, units, lambda: ask(book, rule_of(region.word), function))
    threshold = asked["threshold"]
    nominal = book.number("nominal_voltage")
    yield Setting(name, "threshold", threshold, point=trip(function, "threshold", threshold, nominal))
    if "delay" in asked:
        yield Setting(name, "delay", asked["delay"], "at least")
    longest = asked["longest"]
    yield Setting(name, "disconnection time", longest, "at most", trip(function, "time", longest))


def _reconnection(book: Edition, region: Value, rule: str) -> Iterator[Setting]:
    units = {field: unit for field, (_, _, unit) in RECONNECTION.items()}
    asked = of_rule(region, units, lambda: settings.reconnection(book, rule))
    nominal = book.number("nominal_voltage")
    for field, (words, point, unit) in RECONNECTION.items():
        if field not in asked:
            gap = f"{book.short} {book.edition} is held without the {words} of reconnection for {rule}"
            asked[field] = missing(field, unit, f"{gap}: read it in the standard")
        value = asked[field]
        shown = percent(value, nominal) if unit == "V" else value
        yield Setting("Reconnection", words, value, "at least" if field == "delay" else "is", Point(703, point, shown))


def _volt_var(book: Edition, region: Value, rule: str) -> Iterator[Setting]:
    name, on, nominal = "Volt-var", book.number("volt_var_on"), book.number("nominal_voltage")
    yield Setting(name, "on", on, point=switch(705, on))
    fields = {f"{part}{n}": unit for part, unit in (("v", "V"), ("q", "%")) for n in settings.POINTS}

    def ask() -> list[Value]:
        found = settings.volt_var(book, rule)
        return [*found.v, *found.q]

    asked = of_rule(region, fields, ask)
    for n in settings.POINTS:
        v, q = asked[f"v{n}"], asked[f"q{n}"]
        yield Setting(name, f"point {n}, voltage", v, point=Point(705, f"Crv[0].Pt[{n - 1}].V", percent(v, nominal)))
        yield Setting(name, f"point {n}, reactive power", q, point=Point(705, f"Crv[0].Pt[{n - 1}].Var", q))
    yield from _response(book, name, 705, "volt_var")


def _volt_watt(book: Edition, region: Value, rule: str) -> Iterator[Setting]:
    name, on, nominal = "Volt-watt", book.number("volt_watt_on"), book.number("nominal_voltage")
    yield Setting(name, "on", on, point=switch(706, on))
    fields = {"v1": "V", "v2": "V", "p2": "%"}
    asked = of_rule(region, fields, lambda: settings.volt_watt(book, rule)[:3])
    for n in (1, 2):
        v = asked[f"v{n}"]
        yield Setting(name, f"point {n}, voltage", v, point=Point(706, f"Crv[0].Pt[{n - 1}].V", percent(v, nominal)))
    yield Setting(name, "point 2, power", asked["p2"], point=Point(706, "Crv[0].Pt[1].W", asked["p2"]))
    yield from _response(book, name, 706, "volt_watt")


def _response(book: Edition, name: str, model: int, function: str) -> Iterator[Setting]:
    time = settings.response(book, function)
    if time is not None:
        yield Setting(name, "response time", time, "at most", Point(model, "Crv[0].RspTms", time))


def _droop(book: Edition, region: Value, rule: str) -> Iterator[Setting]:
    name, on = "Frequency droop", book.number("frequency_droop_on")
    yield Setting(name, "on", on, point=switch(711, on))
    asked = of_rule(region, {"deadband": "Hz", "droop": "1"}, lambda: settings.frequency_droop(book, rule))
    yield Setting(name, "deadband above", asked["deadband"], point=Point(711, "Ctl[0].DbOf", asked["deadband"]))
    yield Setting(name, "droop above", asked["droop"], point=Point(711, "Ctl[0].KOf", asked["droop"]))
