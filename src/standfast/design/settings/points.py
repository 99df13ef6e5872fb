"""How the open SunSpec models name settings, and in which unit they show them.

Voltages stand there in per cent of the nominal voltage, powers in per cent of the rating, whatever a standard writes.
Source: the SunSpec model definitions 703 to 711.
"""

from standfast.design.settings.setting import Point
from standfast.sheet import Value, missing, work

_STAGES = {"ov": 708, "uv": 707, "of": 710, "uf": 709}
"""Model of the trips by the first two letters of their name; the curve in use is the first."""
_ENTER_SERVICE = 703


def trip(function: str, what: str, value: Value, nominal: Value | None = None) -> Point:
    """A trip: ``uv2``, its ``threshold`` or its ``time``."""
    stage = int(function[2]) - 1
    if what == "time":
        return Point(_STAGES[function[:2]], f"Crv[0].MustTrip.Pt[{stage}].Tms", value)
    if "f" in function[:2]:
        return Point(_STAGES[function[:2]], f"Crv[0].MustTrip.Pt[{stage}].Hz", value)
    return Point(_STAGES[function[:2]], f"Crv[0].MustTrip.Pt[{stage}].V", percent(value, nominal))


def switch(model: int, on: Value) -> Point:
    """Whether a function is on; entering service has a word of its own for that."""
    return Point(model, "ES" if model == _ENTER_SERVICE else "Ena", on)


def percent(value: Value, nominal: Value | None = None) -> Value:
    """A voltage or power in per cent: from per unit, from V over a nominal voltage, or as it is."""
    if value.missing:
        return missing("pct", "%", value.how, value)
    if value.unit == "V" and nominal is not None:
        return work("pct", "100 * V / U_n", "%", None, V=value, U_n=nominal)
    return value if value.unit == "%" else work("pct", "100 * v", "%", None, v=value)
