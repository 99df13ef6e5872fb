"""Exact conversions between the units of the trade, and rounding for print.

Inside the program every length is in mm, torque in N·m, temperature in °C, mass in kg, energy in kWh; clauses that
state their formulas in other units convert at their door. Factors are exact by definition of the units.
"""

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

INCH_MM = Fraction("25.4")
FOOT_MM = Fraction("304.8")
POUND_KG = Fraction("0.45359237")
POUND_FORCE_N = POUND_KG * Fraction("9.80665")


class Unit(NamedTuple):
    """A unit name: what it measures, and how to reach the program's own unit: own = factor × number + offset."""

    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)


_F = Fraction
OWN: dict[str, str] = {
    "length": "mm", "area": "m2", "temperature": "°C", "mass": "kg", "torque": "N·m", "current": "A", "voltage": "V",
    "power": "W", "apparent power": "VA", "energy": "kWh", "resistance": "ohm", "ratio": "%", "time": "s",
    "angle": "deg", "acceleration": "g", "pressure": "MPa", "force": "N", "frequency": "Hz",
    "speed": "m/s", "let-through energy": "A²·s", "volume": "cm3",
}  # fmt: skip
"""The program's own unit of each dimension."""

UNITS: dict[str, Unit] = {
    "mm": Unit("length", _F(1)), "cm": Unit("length", _F(10)), "m": Unit("length", _F(1000)),
    "in": Unit("length", INCH_MM), "ft": Unit("length", FOOT_MM),
    "m2": Unit("area", _F(1)), "ft2": Unit("area", (FOOT_MM / 1000) ** 2),
    "mm2": Unit("area", _F(1, 10**6)), "in2": Unit("area", (INCH_MM / 1000) ** 2),
    "cm3": Unit("volume", _F(1)), "in3": Unit("volume", (INCH_MM / 10) ** 3),
    "°C": Unit("temperature", _F(1)), "°F": Unit("temperature", _F(5, 9), _F(-160, 9)),
    "kg": Unit("mass", _F(1)), "lb": Unit("mass", POUND_KG),
    "N·m": Unit("torque", _F(1)), "lbf·in": Unit("torque", POUND_FORCE_N * INCH_MM / 1000),
    "lbf·ft": Unit("torque", POUND_FORCE_N * FOOT_MM / 1000),
    "A": Unit("current", _F(1)), "mA": Unit("current", _F(1, 1000)), "kA": Unit("current", _F(1000)),
    "V": Unit("voltage", _F(1)), "kV": Unit("voltage", _F(1000)),
    "W": Unit("power", _F(1)), "kW": Unit("power", _F(1000)), "hp": Unit("power", _F(746)),
    "VA": Unit("apparent power", _F(1)), "kVA": Unit("apparent power", _F(1000)),
    "kWh": Unit("energy", _F(1)), "Wh": Unit("energy", _F(1, 1000)),
    "ohm": Unit("resistance", _F(1)), "mohm": Unit("resistance", _F(1, 1000)), "Mohm": Unit("resistance", _F(10**6)),
    "%": Unit("ratio", _F(1)),
    "s": Unit("time", _F(1)), "ms": Unit("time", _F(1, 1000)), "min": Unit("time", _F(60)), "h": Unit("time", _F(3600)),
    "d": Unit("time", _F(86400)),
    "deg": Unit("angle", _F(1)), "g": Unit("acceleration", _F(1)),
    "MPa": Unit("pressure", _F(1)), "psi": Unit("pressure", POUND_FORCE_N / INCH_MM**2),
    "N": Unit("force", _F(1)), "kN": Unit("force", _F(1000)), "lbf": Unit("force", POUND_FORCE_N),
    "Hz": Unit("frequency", _F(1)), "A²·s": Unit("let-through energy", _F(1)),
    "m/s": Unit("speed", _F(1)), "mph": Unit("speed", FOOT_MM * 5280 / 1000 / 3600),
}  # fmt: skip
"""Every unit name that a file may hold. 1 hp is the rounded 746 W of the electrical trade."""

_ALIASES: dict[str, str] = {
    "degC": "°C", "C": "°C", "degF": "°F", "F": "°F", "Nm": "N·m", "N.m": "N·m", "N m": "N·m", "lbf.in": "lbf·in",
    "lbf in": "lbf·in", "in-lb": "lbf·in", "lbf-in": "lbf·in", "lbf.ft": "lbf·ft", "ft-lb": "lbf·ft",
    "lbf ft": "lbf·ft",
    "A2s": "A²·s", "A²s": "A²·s", "m²": "m2", "ft²": "ft2", "mm²": "mm2", "in²": "in2", "cm³": "cm3", "in³": "in3",
    "sq in": "in2", "sq ft": "ft2", "cu in": "in3", "Ω": "ohm", "mΩ": "mohm", "MΩ": "Mohm", "°": "deg", "\"": "in",
    "'": "ft",
}  # fmt: skip
_NUMBER = r"[+-]?(?:\d+/\d+|\d+(?:\.\d+)?(?:-\d+/\d+)?|\.\d+)"
_PART = re.compile(rf"\s*({_NUMBER})\s*([^\d\s+.-][^\d+]*?(?:[23](?=\s*$))?)\s*(?=$|[+-]?\d|\.\d)")


class Quantity(NamedTuple):
    """A number with its unit, as read.

    Attributes:
        number: in the program's own unit of the dimension, exact.
        dimension: for instance ``length``.
        text: as the user wrote it.
    """

    number: Fraction
    dimension: str
    text: str


@lru_cache(maxsize=4096)
def read(text: str) -> Quantity:
    """Read a quantity: ``"3 ft"``, ``"5 ft 3-1/2 in"``, ``"914 mm"``, ``"44 lbf.in"``, ``"104 °F"``.

    Raises:
        ValueError: with a sentence that says what is wrong and what to write.
    """
    total, dimension, at = Fraction(0), "", 0
    if not text.strip():
        raise ValueError('it is empty: write a number and a unit, for instance "3 ft"')
    while at < len(text):
        match = _PART.match(text, at)
        if match is None:
            if re.fullmatch(rf"\s*{_NUMBER}\s*", text):
                raise ValueError(f'{text!r} has no unit: write one, for instance "{text.strip()} mm"')
            raise ValueError(f'{text!r} is not a number with a unit, for instance "3 ft" or "914 mm"')
        name = _ALIASES.get(match[2], match[2])
        unit = UNITS.get(name)
        if unit is None:
            raise ValueError(f"{match[2]!r} is not a unit known here: use one of {', '.join(UNITS)}")
        if dimension and (unit.dimension != dimension or unit.offset or dimension != "length"):
            raise ValueError(f"{text!r} joins parts that do not add: write one number and one unit")
        try:
            total += unit.factor * _fraction(match[1]) + unit.offset
        except ZeroDivisionError:
            raise ValueError(f'{text!r} divides by zero: write a number and a unit, for instance "1/2 in"') from None
        dimension, at = unit.dimension, match.end()
    return Quantity(total, dimension, text)


def convert(number: float, of: str, to: str) -> float:
    """A number of unit `of` in unit `to`. KeyError for a name that is no unit; ValueError between dimensions."""
    here, there = UNITS[of], UNITS[to]
    if here.dimension != there.dimension:
        raise ValueError(f"{of} measures {here.dimension}, {to} measures {there.dimension}")
    return float((here.factor * Fraction(number) + here.offset - there.offset) / there.factor)


PRINTED = {"mm2": "mm²"}
"""Units that print has another sign for than files."""


def show(number: float, unit: str) -> str:
    """A number and its unit for print: four significant digits, five from 100 on; no exponent for ordinary sizes."""
    if number == int(number) and abs(number) < 1e7:
        text = str(int(number))
    elif abs(number) >= 1000:
        text = f"{number:.0f}"
    elif abs(number) >= 100:
        text = f"{number:.2f}".rstrip("0").rstrip(".")
    else:
        text = f"{number:.4g}"
        if "e" in text:
            text = f"{number:.6f}".rstrip("0") if abs(number) >= 1e-5 else f"{number:.3e}"
    text = text.replace("-", "−", 1) if text.startswith("-") else text
    return text if unit in ("", "1") else f"{text} {PRINTED.get(unit, unit)}"


def feet_inches(mm: float, part: int = 16) -> str:
    """A length as feet, inches and a binary fraction of an inch, rounded to the nearest part: ``3 ft 0-3/8 in``."""
    sixteenths = round(Fraction(mm) / INCH_MM * part)
    sign = "−" if sixteenths < 0 else ""
    feet, rest = divmod(abs(sixteenths), 12 * part)
    inches = _mixed(rest, part)
    return f"{sign}{feet} ft {inches} in" if feet else f"{sign}{inches} in"


def inches(mm: float, part: int = 16) -> str:
    """A length in inches with a binary fraction, rounded to the nearest part: ``36-3/8 in``."""
    sixteenths = round(Fraction(mm) / INCH_MM * part)
    sign = "−" if sixteenths < 0 else ""
    return f"{sign}{_mixed(abs(sixteenths), part)} in"


def torque_both(newton_metre: float) -> str:
    """A torque in both units of the tools: ``1.81 N·m (16 lbf·in)``."""
    ours, other = (show(number, unit) for number, unit in torque_settings(newton_metre))
    return f"{ours} ({other})"


def torque_settings(newton_metre: float) -> tuple[tuple[float, str], tuple[float, str]]:
    """A torque as tools are set to it, in N·m and in pounds; three digits, since no tool is set finer.

    From 25 lbf·ft up in pounds and feet, as large wrenches are marked.
    """
    inch_pounds = convert(newton_metre, "N·m", "lbf·in")
    other = (inch_pounds, "lbf·in") if inch_pounds < 299.95 else (inch_pounds / 12, "lbf·ft")
    return (_three(newton_metre), "N·m"), (_three(other[0]), other[1])


def _three(number: float) -> float:
    return float(f"{number:.3g}")


def _mixed(parts: int, part: int) -> str:
    whole, rest = divmod(parts, part)
    if not rest:
        return str(whole)
    fraction = Fraction(rest, part)
    return f"{whole}-{fraction}" if whole else str(fraction)


def _fraction(text: str) -> Fraction:
    sign = -1 if text.startswith("-") else 1
    body = text.lstrip("+-")
    whole, dash, part = body.partition("-")
    try:
        return sign * (Fraction(whole) + (Fraction(part) if dash else 0))
    except ZeroDivisionError:
        raise ValueError(f"{text!r} divides by zero: write a number, for instance 1/2") from None
