"""A store of lithium-ion batteries: when it needs a permit, and which batteries the section leaves out."""

from standfast.sheet import Value, chosen, missing
from standfast.shelf import Edition


def permit_required(book: Edition, volume: Value) -> Value:
    """Yes or no for a volume of stored batteries in ft3; what the section leaves out is not counted in."""
    if volume.missing:
        return missing("permit", "", volume.how, volume)
    limit, clause = book.number("lithium_permit_volume"), book.clause("lithium_permit")
    return chosen("permit", volume.quantity > limit.quantity, "", "volume above the limit", clause, volume, limit)


def exempt(book: Edition, energy: Value, retail: Value) -> Value:
    """Whether the section leaves out a battery of a rated energy in Wh, in its original retail packaging or not."""
    lacking = [each for each in (energy, retail) if each.missing]
    if lacking:
        return missing("exempt", "", "; ".join(each.how for each in lacking), *lacking)
    limit, clause = book.number("lithium_exempt_energy"), book.clause("lithium_exempt")
    left_out = retail.yes and energy.quantity <= limit.quantity
    return chosen("exempt", left_out, "", "small, and in its retail packaging", clause, energy, retail, limit)
