"""Anchors of two units in one piece of concrete: so near to each other that they break out together (ACI 318 17.5.1.3).

Each unit is worked out by itself. Where the anchors of another one stand within the reach of its own, that is not
enough, and nobody can tell before an engineer has looked at both together.
"""

from collections.abc import Sequence
from math import hypot

from standfast.design.anchorage.held import Anchorage
from standfast.design.anchorage.task import SheetFile
from standfast.sheet import Check, Value, at_least, measured, missing, work
from standfast.shelf import Adoption

TOGETHER = (
    "the anchors of two units are so near that the concrete breaks out round all of them at once, which is not worked "
    "out here: put the units farther apart, or have an engineer look at both together"
)
Spots = list[tuple[Value, Value]]


def apart(held: Sequence[Anchorage], books: Adoption) -> tuple[Anchorage, ...]:
    """The anchorages, each with a check against its neighbours where others have anchors in the same concrete.

    Args:
        held: how every unit of the job is held.
        books: the editions in force.
    """
    return tuple(each._replace(checks=(*each.checks, *_checks(each, held, books))) for each in held)


def _checks(own: Anchorage, held: Sequence[Anchorage], books: Adoption) -> list[Check]:
    others = [each for each in held if each is not own and each.wall == own.wall]
    walls = [spot for each in others for spot in _in_wall(each)]
    floors = [spot for each in others for spot in _in_floor(each)]
    found = []
    if _in_wall(own) and walls and own.fixing is not None:
        found.append(_check(own.unit, own.fixing, _in_wall(own), walls, books))
    if own.foot is not None and own.foot.anchor is not None and floors:
        found.append(_check(f"{own.unit}/foot", own.foot.anchor, _in_floor(own), floors, books))
    return found


def _in_wall(each: Anchorage) -> Spots:
    if each.base != "concrete" or each.fixing is None:
        return []
    return [(hole.x, hole.y) for hole in each.holes]


def _in_floor(each: Anchorage) -> Spots:
    if each.foot is None or each.foot.anchor is None:
        return []
    return [(hole.x, hole.out) for hole in each.foot.holes]


def _check(id: str, sheet: SheetFile, own: Spots, others: Spots, books: Adoption) -> Check:
    aci = books.book("aci318")
    clause, h_ef = aci.clause("group"), sheet.fact("anchor.effective_embedment", "h_ef", "mm")
    least = work("s_group", "2 * k_cr * h_ef", "mm", clause, aci.number("breakout_reach", "k_cr"), h_ef)
    title = "The anchors stand by themselves, beyond those of the next unit"
    check = at_least(f"anchorage.concrete-neighbours/{id}", title, clause, _nearest(own, others), least)
    return check._replace(verdict="cannot tell", reason=TOGETHER) if check.verdict == "fail" else check


def _nearest(own: Spots, others: Spots) -> Value:
    places = [place for spot in (*own, *others) for place in spot]
    lacking = [place for place in places if place.missing]
    if lacking:
        return missing("s_next", "mm", lacking[0].how, lacking[0])
    gaps = (hypot(x.quantity - u.quantity, y.quantity - v.quantity) for x, y in own for u, v in others)
    return measured(
        "s_next", min(gaps), "mm", f"least of {len(own)} × {len(others)} distances, by plain geometry", *places
    )
