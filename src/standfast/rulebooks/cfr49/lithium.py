"""Which way the rules leave for a lithium-ion battery that leaves a house.

The result is for the shipper to check, who is trained and holds the current rules: it is never leave to ship.
"""

from typing import NamedTuple

from standfast.sheet import Value, chosen, missing
from standfast.shelf import Edition

GENERAL, RECYCLING, DAMAGED = "general", "recycling", "damaged"
CLAUSES = {GENERAL: "lithium_general", RECYCLING: "lithium_recycling", DAMAGED: "lithium_damaged"}


class Battery(NamedTuple):
    """What is known of it.

    Attributes:
        damaged: yes/no: damaged, defective or recalled.
        purpose: word: ``recycling``, ``disposal``, ``reuse``.
        mode: word: ``road``, ``air``, ``sea``.
        mass: gross mass of one battery in kg.
        strong_casing: yes/no: a strong, impact-resistant outer casing.
    """

    damaged: Value
    purpose: Value
    mode: Value
    mass: Value
    strong_casing: Value


class Carriage(NamedTuple):
    """Whether a battery may go, and what must be shown for that; empty where nothing is left to show."""

    allowed: Value
    condition: str


def relief(book: Edition, battery: Battery) -> Value:
    """Whether the easier paragraph for recycling and disposal may be used: by road, and never for a damaged battery."""
    lacking = _lacking("relief", battery.damaged, battery.purpose, battery.mode)
    if lacking is not None:
        return lacking
    purposes, modes = book.number("relief_purposes"), book.number("relief_modes")
    used = not battery.damaged.yes and _in(battery.purpose, purposes) and _in(battery.mode, modes)
    inputs = (battery.damaged, battery.purpose, battery.mode, purposes, modes)
    return chosen(
        "relief", used, "", "sound, for recycling or disposal, by road", book.clause("lithium_recycling"), *inputs
    )


def paragraph(book: Edition, battery: Battery) -> Value:
    """The paragraph that holds: ``general``, ``recycling`` or ``damaged``."""
    eased = relief(book, battery)
    if eased.missing:
        return missing("paragraph", "", eased.how, eased)
    word = DAMAGED if battery.damaged.yes else RECYCLING if eased.yes else GENERAL
    return chosen("paragraph", word, "", "state, purpose and mode", book.clause(CLAUSES[word]), eased)


def may_go(book: Edition, battery: Battery) -> Carriage:
    """Whether it may go by this mode at all.

    A damaged battery may not go by air. A sound one goes by cargo aircraft only, up to a mass in one package: where the
    mass is not known, that is a condition.
    """
    lacking = _lacking("may_go", battery.damaged, battery.mode)
    if lacking is not None:
        return Carriage(lacking, "")
    facts = (battery.damaged, battery.mode)
    if battery.damaged.yes:
        modes, clause = book.number("damaged_modes"), book.clause("lithium_damaged")
        return Carriage(chosen("may_go", _in(battery.mode, modes), "", "damaged", clause, *facts, modes), "")
    if battery.mode.word != "air":
        return Carriage(chosen("may_go", True, "", "sound, not by air", book.clause("lithium_general"), *facts), "")
    limit, clause = book.number("cargo_aircraft_mass"), book.clause("cargo_aircraft")
    known = () if battery.mass.missing else (battery.mass,)
    light = battery.mass.missing or battery.mass.quantity <= limit.quantity
    allowed = chosen("may_go", light, "", "sound, by cargo aircraft", clause, *facts, *known, limit)
    condition = f"by cargo aircraft only, at most {limit.number:g} {limit.unit} in a package" if light else ""
    return Carriage(allowed, condition)


def tested_packaging(book: Edition, battery: Battery) -> Value:
    """Whether the packaging must meet the UN performance tests.

    It need not under the paragraph for recycling, nor for a heavy battery in a strong casing where the mode allows that
    without an approval; a damaged battery always needs it.
    """
    which = paragraph(book, battery)
    if which.missing:
        return missing("tested", "", which.how, which)
    clause = book.clause(CLAUSES[which.word])
    if which.word != GENERAL:
        return chosen("tested", which.word == DAMAGED, "", "paragraph that holds", clause, which)
    least, modes, clause = (
        book.number("large_battery_mass"),
        book.number("large_battery_modes"),
        book.clause("large_battery"),
    )
    heavy = battery.mass.missing or battery.mass.quantity >= least.quantity
    strong = battery.strong_casing.missing or battery.strong_casing.yes
    if heavy and strong and _in(battery.mode, modes):
        lacking = _lacking("tested", battery.mass, battery.strong_casing)
        if lacking is not None:
            return lacking
        how = "heavy, in a strong casing"
        return chosen("tested", False, "", how, clause, battery.mass, battery.strong_casing, battery.mode, least, modes)
    return chosen("tested", True, "", "no relief applies", clause, which, least, modes)


def _in(word: Value, words: Value) -> bool:
    return isinstance(words.number, tuple) and word.word in words.number


def _lacking(symbol: str, *values: Value) -> Value | None:
    lacking = [each for each in values if each.missing]
    return missing(symbol, "", "; ".join(each.how for each in lacking), *lacking) if lacking else None
