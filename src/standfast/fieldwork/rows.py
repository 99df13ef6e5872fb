"""How quantities stand in the lists of this room."""

from fractions import Fraction
from math import ceil, floor

from standfast.sheet import Value, needs
from standfast.units import convert, feet_inches, inches, show, torque_both
from standfast.words import say


def counted(value: Value, language: str) -> str:
    """A count or quantity for a list; says so where it is not known."""
    if value.missing:
        return say("common.not_known", language)
    return show(value.quantity, value.unit)


def length_both(mm: float) -> str:
    """A length as a person measures it: ``3 ft 0-3/8 in (924 mm)``."""
    text = feet_inches(mm).removesuffix(" 0 in") if mm >= 304.8 else inches(mm)
    return f"{text} ({mm:.0f} mm)"


def length_up(value: Value, language: str) -> str:
    """A length that is bought or cut, up to the next whole inch."""
    if value.missing:
        return say("common.not_known", language)
    return length_both(whole_up(convert(value.quantity, value.unit, "in")) * 25.4)


def length_down(value: Value, language: str, *, metric: bool = False) -> str:
    """A limit that is not to be passed, down to the next 32nd of an inch, or to the next mm in metric countries."""
    if value.missing:
        return say("common.not_known", language)
    mm = max(0.0, convert(value.quantity, value.unit, "mm"))
    if metric:
        return f"{floor(mm + 1e-6)} mm"
    parts = floor(Fraction(mm) / Fraction("25.4") * 32 + Fraction(1, 1000))
    return f"{inches(parts * 25.4 / 32, 32)} ({floor(mm + 1e-6)} mm)"


def length_of(value: Value, language: str, *, metric: bool = False) -> str:
    """A length in any length unit: in both units of the tape, or in mm alone where the country counts in metres."""
    if value.missing:
        return say("common.not_known", language)
    mm = convert(value.quantity, value.unit, "mm")
    return f"{mm:.0f} mm" if metric else length_both(mm)


def metres(value: Value, language: str) -> str:
    """A cut as a crew measures it in countries that count in metres, up to the next centimetre."""
    if value.missing:
        return say("common.not_known", language)
    return f"{whole_up(convert(value.quantity, value.unit, 'mm') / 10) / 100:.2f} m"


def tenths(value: Value) -> int:
    """A known length in whole tenths of a millimetre, up."""
    return whole_up(convert(value.quantity, value.unit, "mm") * 10)


def bit_both(value: Value, language: str, *, metric: bool = False) -> str:
    """A bit, as it is sold in inches to the nearest 64th, and in mm; in mm alone in metric countries."""
    if value.missing:
        return say("common.not_known", language)
    mm = convert(value.quantity, value.unit, "mm")
    if metric:
        return f"{mm:.1f}".removesuffix(".0") + " mm"
    return f"{inches(mm, 64)} ({mm:.1f} mm)"


def mass_both(value: Value, language: str, *, metric: bool = False) -> str:
    """A mass in both units: ``111 kg (245 lb)``; in kg alone in metric countries."""
    if value.missing:
        return say("common.not_known", language)
    if metric:
        return show(convert(value.quantity, value.unit, "kg"), "kg")
    return f"{show(value.quantity, value.unit)} ({convert(value.quantity, value.unit, 'lb'):.0f} lb)"


def torque_of(value: Value, language: str, *, metric: bool = False) -> str:
    """A torque in both units, in N·m alone in metric countries; the words *as marked* where the data sheet does not
    state it."""
    if value.missing:
        return say("common.torque_as_marked", language)
    if metric:
        return torque_both(convert(value.quantity, value.unit, "N·m")).partition(" (")[0]
    return torque_both(convert(value.quantity, value.unit, "N·m"))


def whole_up(number: float) -> int:
    """The next whole number; a float's own noise does not count."""
    return ceil(Fraction(number).limit_denominator(10**6))


def open_needs(*values: Value) -> tuple[str, ...]:
    """What must be found out before the values are known."""
    return tuple(dict.fromkeys(need for value in values if value.missing for need in needs(value)))
