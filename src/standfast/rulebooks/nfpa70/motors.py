"""One motor: its conductor, its short-circuit device, and the current it draws when it starts."""

from standfast.sheet import Value, work
from standfast.shelf import Edition

PROTECTIONS = ("nontime delay fuse", "dual element fuse", "instantaneous breaker", "inverse time breaker")


def conductor(book: Edition, full_load: Value) -> Value:
    """Least ampacity in A of the conductors of one motor, from its full-load current in A by the motor table."""
    return work(
        "I_min", "k_motor * I_FLC", "A", book.clause("motor_conductor"), book.number("motor_conductor"), I_FLC=full_load
    )


def device(book: Edition, full_load: Value, protection: str) -> Value:
    """Greatest standard rating in A of the short-circuit device; the next standard rating is permitted.

    Args:
        book: the NEC.
        full_load: full-load current in A by the motor table.
        protection: one of `PROTECTIONS`.
    """
    factor = book.table("motor_device").pick("k_device", "factor", protection=protection)
    least = work("I_calc", "k_device * I_FLC", "A", book.clause("motor_device"), factor, I_FLC=full_load)
    return book.table("standard_ratings").look("I_OCPD", "rating", rating=least)


def full_load(book: Edition, power: Value, voltage: Value) -> Value:
    """Full-load current in A of a single-phase motor: power as a word in hp (``1-1/2``), motor voltage in V."""
    return book.table("motor_single_phase").look("I_FLC", "full_load", volts=voltage, hp=power)


def locked_rotor_table(book: Edition, power: Value, voltage: Value) -> Value:
    """Locked-rotor current in A of a single-phase motor for which no code letter is known."""
    return book.table("motor_single_phase").look("I_LR", "locked_rotor", volts=voltage, hp=power)


def locked_rotor_from_full_load(book: Edition, full_load_current: Value) -> Value:
    """Locked-rotor current in A taken as a multiple of the full-load current in A: a rule of thumb."""
    k = book.number("locked_rotor_unlisted")
    return work("I_LR", "k_LR * I_FLC", "A", k.clause, k, I_FLC=full_load_current)


def locked_rotor_per_hp(book: Edition, letter: str, end: str) -> Value:
    """Locked-rotor VA per hp of a code letter: ``low`` or ``high`` end of its range, or ``middle``."""
    table = book.table("code_letter")
    if end != "middle":
        return table.pick(f"S_{end}", end, letter=letter)
    low, high = (table.pick(f"S_{name}", name, letter=letter) for name in ("low", "high"))
    return work("S_middle", "(S_low + S_high) / 2", "VA/hp", table.clause, low, high)


def locked_rotor(book: Edition, per_hp: Value, power: Value, voltage: Value, three_phase: bool) -> Value:
    """Locked-rotor current in A from VA per hp, rated power in hp and rated voltage in V."""
    text = "S_hp * P / (sqrt(3) * U)" if three_phase else "S_hp * P / U"
    return work("I_LR", text, "A", book.clause("motor_code_letter"), S_hp=per_hp, P=power, U=voltage)
