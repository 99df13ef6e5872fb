"""Room for a second unit: where a first one may stand so that it has a place, and where it may stand later."""

from standfast.design.siting.choosing import span_of_free
from standfast.design.siting.keepouts import ALL, Keepout
from standfast.design.siting.question import Question, Spot
from standfast.design.siting.search.asked import Apart
from standfast.design.siting.solid import Span

RULE = "room-for-another"
"""The name of the keep-outs that are made here."""


def room_for_another(first: Question, second: Question, apart: Apart) -> Keepout | None:
    """Where a first unit may not stand if a second one on the same wall shall still have a place.

    A first unit leaves no place where all places of the second are too near to it, so where it is too near to all four
    ends of them at once: that is one rectangle.

    Args:
        first: of the unit that is placed.
        second: of the unit that shall fit afterwards.
        apart: what they keep from each other.

    Returns:
        The keep-out to add to those of the first unit, for which it may be upside down (its outline may not hold it);
        of everything, where the second has no place anyhow; None where it has one wherever the first stands.
    """
    free = span_of_free(second)
    if free is None:
        return Keepout(RULE, "second unit", ALL, ALL)
    across, up = free
    x = Span(across.high - apart.along, across.low + second.width + apart.along)
    z = Span(up.high - apart.up, up.low + second.height + apart.up)
    if x.high <= x.low - first.width or z.high <= z.low - first.height:
        return None
    return Keepout(RULE, "second unit", x, z)


def beside(first: Question, spot: Spot, second: Question, apart: Apart) -> Keepout | None:
    """Where a second unit may not stand once a first one does; None where it is asked for on another wall."""
    if spot.wall != second.wall:
        return None
    x = Span(spot.left, spot.left + first.width).grown(apart.along, apart.along)
    z = Span(spot.bottom, spot.bottom + first.height).grown(apart.up, apart.up)
    return Keepout(RULE, "first unit", x, z)
