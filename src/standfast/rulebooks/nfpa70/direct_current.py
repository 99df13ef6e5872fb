"""Direct current between a battery and its inverter: current, ampacity, poles, detection of a ground fault."""

from collections.abc import Sequence

from standfast.sheet import Check, Value, at_least, at_most, chosen, is_, not_applicable, work, worst
from standfast.shelf import Edition

UNGROUNDED = "ungrounded"


def drawn(book: Edition, power: Value, efficiency: Value, voltage: Value) -> Value:
    """Current in A that an inverter takes from its battery at rated output: 706.30(A).

    The lowest voltage decides, and what is lost in the inverter is taken from the battery too.

    Args:
        book: the code.
        power: rated output in W.
        efficiency: least efficiency from the battery port to the AC side, in per cent.
        voltage: lowest voltage of the battery in use, in V.
    """
    eta = work("eta", "eta_pct / 100", "1", None, eta_pct=efficiency)
    clause = book.clause("storage_circuit_current")
    return work("I_low", "P_out / (eta * U_min)", "A", clause, eta, P_out=power, U_min=voltage)


def ampacity(book: Edition, needed: Value, device: Value) -> Value:
    """Least ampacity in A of the conductors of a battery: 706.30(B).

    The greater of what the current asks (with the 125 % already in it) and the rating of the device of the battery, so
    that the next size up of 240.4(B) is not used here.

    Args:
        book: the code.
        needed: 125 % of the greatest current, in A.
        device: rating of the overcurrent device, in A.
    """
    return worst("I_least", [needed, device], "max", book.clause("storage_circuit_ampacity"))


def ungrounded(book: Edition, grounding: Value) -> Value:
    """How many conductors of a two-wire circuit are ungrounded, and so have a pole of each device in them.

    Args:
        book: the code.
        grounding: ``ungrounded``, ``negative grounded`` or ``positive grounded``.
    """
    clause = book.clause("device_poles")
    if grounding.missing:
        return chosen("n_poles", 2.0, "1", "", clause, grounding)
    both = grounding.word == UNGROUNDED
    count = book.number("dc_two_poles" if both else "dc_one_pole")
    met = "neither conductor is grounded" if both else "one conductor is grounded"
    return chosen("n_poles", count.quantity, "1", met, clause, grounding, count)


def ground_fault(book: Edition, id: str, title: str, grounding: Value, detected: Sequence[Value]) -> Check:
    """An ungrounded system has a detector of ground faults, in the battery or in the inverter: 250.167.

    Args:
        book: the code.
        id: of the check.
        title: of the check.
        grounding: how the system stands to ground.
        detected: yes where one of the parts detects and shows a ground fault; one of them is enough.
    """
    clause = book.clause("dc_ground_fault")
    if not grounding.missing and grounding.word != UNGROUNDED:
        return not_applicable(id, title, clause, f"{grounding.word}: detection is permitted, not asked")
    needed = chosen("needed", True, "", "neither conductor is grounded", clause, grounding)
    return is_(id, title, clause, any_of("detected", detected), needed)


def any_of(symbol: str, facts: Sequence[Value]) -> Value:
    """Yes where one of some facts is yes; no only where all are known to be no."""
    found = next((each for each in facts if not each.missing and each.yes), None)
    if found is not None:
        return chosen(symbol, True, "", "one of them does", None, found)
    return chosen(symbol, False, "", "none of them does", None, *facts)


def voltage(book: Edition, id: str, title: str, rated: Value, highest: Value) -> Check:
    """A device is rated for direct current of the highest voltage, in V: while the battery is charged, not nominal."""
    return at_least(id, title, book.clause("storage_overcurrent_dc"), rated, highest)


def interrupting(book: Edition, id: str, title: str, available: Value, rating: Value) -> Check:
    """A device can break, as direct current, what the battery drives into a fault; both in kA."""
    return at_most(id, title, book.clause("storage_overcurrent_dc"), available, rating)
