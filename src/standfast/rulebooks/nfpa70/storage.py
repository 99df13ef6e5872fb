"""Energy storage systems: scope, circuit current, disconnecting means."""

from standfast.sheet import Check, Value, at_most, chosen, missing, none_of, work
from standfast.shelf import Edition

NOWHERE = "none of them"


def in_scope(book: Edition, energy: Value) -> Value:
    """Whether Article 706 applies: more than 1 kWh, yes or no."""
    limit, clause = book.number("storage_scope"), book.clause("storage_scope")
    holds = not energy.missing and energy.quantity > limit.quantity
    return chosen("in_scope", holds, "", "energy against the scope of the article", clause, energy, limit)


def circuit_ampacity(book: Edition, rated: Value) -> Value:
    """Current in A that conductors and device of the output circuit are sized for: 125 % of the rated current.

    The output of an inverter and the input of a charger are always continuous.
    """
    clause, factor = book.clause("storage_circuit_ampacity"), book.number("source_circuit_factor")
    return work("I_req", "k_source * I_rated", "A", clause, factor, I_rated=rated)


def disconnect_place(book: Edition, inside: Value, in_sight: Value, distance: Value, lockable: Value) -> Value:
    """Which of the three places a disconnecting means stands in, or ``none of them``.

    Args:
        book: the code.
        inside: yes where it is inside the unit.
        in_sight: yes where it can be seen from the unit.
        distance: from the unit in ft.
        lockable: yes where it can be locked open as 110.25 asks.

    Returns:
        A word. Missing only where a fact that could still decide it is missing.
    """
    limit, clause = book.number("disconnect_distance"), book.clause("storage_disconnect_place")
    if _holds(inside):
        return chosen("place", "inside the unit", "", "within the storage system", clause, inside)
    near = not distance.missing and distance.quantity <= limit.quantity
    if _holds(in_sight) and near:
        return chosen("place", "in sight and near", "", "in sight, within 10 ft", clause, in_sight, distance, limit)
    if _holds(lockable):
        return chosen("place", "lockable open", "", "can be locked open", clause, lockable)
    return chosen("place", NOWHERE, "", "no place of the three", clause, inside, in_sight, distance, lockable)


def disconnect(book: Edition, id: str, inside: Value, in_sight: Value, distance: Value, lockable: Value) -> Check:
    """A disconnecting means stands in one of the three places. Arguments as for the place."""
    clause = book.clause("storage_disconnect_place")
    refused = chosen("refused", (NOWHERE,), "", "places that do not serve", clause)
    place = disconnect_place(book, inside, in_sight, distance, lockable)
    return none_of(id, "Place of the disconnecting means", clause, place, refused)


def dc_voltage(book: Edition, id: str, voltage: Value, accessible: Value) -> Check:
    """The DC voltage inside a storage system of a one- or two-family dwelling.

    Args:
        book: the code.
        id: of the check.
        voltage: the highest, between conductors or to ground, in V.
        accessible: yes where live parts can be reached during routine maintenance.
    """
    title, clause = "DC voltage inside the unit, in a dwelling", book.clause("storage_dc_voltage")
    low, high = book.number("storage_dc_dwelling"), book.number("storage_dc_closed")
    if voltage.missing or voltage.quantity <= low.quantity:
        return at_most(id, title, clause, voltage, low)
    if accessible.missing:
        return at_most(id, title, clause, voltage, missing("U_limit", "V", accessible.how, accessible))
    met = "live parts can be reached" if accessible.yes else "live parts are out of reach during routine maintenance"
    limit = chosen("U_limit", (low if accessible.yes else high).quantity, "V", met, clause, accessible, low, high)
    return at_most(id, title, clause, voltage, limit)


def _holds(fact: Value) -> bool:
    return not fact.missing and fact.yes
