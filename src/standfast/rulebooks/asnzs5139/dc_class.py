"""Decisive voltage class of a battery system, and what it asks of the battery cable."""

from standfast.sheet import Value, chosen
from standfast.shelf import Edition


def decisive_voltage_class(book: Edition, voltage: Value) -> Value:
    """Class ``a``, ``b`` or ``c`` of the greatest d.c. voltage in V."""
    a, b = book.number("dvc_a_highest"), book.number("dvc_b_highest")
    clause, condition = book.clause("decisive_voltage_class"), "greatest d.c. voltage"
    fits = [word for word, top in (("a", a), ("b", b)) if not voltage.missing and voltage.quantity <= top.quantity]
    return chosen("DVC", fits[0] if fits else "c", "", condition, clause, voltage, a, b)


def cable_protected_throughout(book: Edition, dvc: Value) -> Value:
    """Whether the battery cable has mechanical protection over its whole run."""
    clause, classes = book.clause("battery_cable_protection"), book.number("battery_cable_classes")
    needed = not dvc.missing and isinstance(classes.number, tuple) and dvc.word in classes.number
    return chosen("protected", needed, "", "decisive voltage class", clause, dvc, classes)
