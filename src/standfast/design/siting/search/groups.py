"""Units that can change places make one group; a strip that must stay free is a group of its own, at no cost."""

from typing import NamedTuple

from standfast.design.siting.keepouts import END
from standfast.design.siting.question import Question
from standfast.design.siting.search.asked import Apart, Strip, Together
from standfast.design.siting.solid import Span

TOUCHING = Apart(0, 0)


class Group(NamedTuple):
    """What is placed alike.

    Attributes:
        asks: one question per wall; for a strip, a body without cost that fills it.
        units: numbers of its units; none for a strip.
        strip: the strip.
    """

    asks: tuple[Question, ...]
    units: tuple[int, ...]
    strip: Strip | None = None


def groups(asked: Together) -> list[Group]:
    """The units by group, then the strips."""
    named = {number for pair in asked.pairs for number in pair}
    found: list[Group] = []
    for number, asks in enumerate(asked.units):
        mine = tuple(asks)
        for at, group in enumerate(found):
            if _same(asked, named, group, mine, number):
                found[at] = group._replace(units=(*group.units, number))
                break
        else:
            found.append(Group(mine, (number,)))
    return [*found, *(_strip(strip) for strip in asked.strips)]


def _same(asked: Together, named: set[int], group: Group, asks: tuple[Question, ...], number: int) -> bool:
    first = group.units[0]
    alike = all(each.units is None or (first in each.units) == (number in each.units) for each in asked.strips)
    return alike and group.asks == asks and not {first, number} & named


def _strip(strip: Strip) -> Group:
    body = Question(strip.width, strip.z.high - strip.z.low, (), None, bottom=strip.z.low, wall=strip.wall)
    return Group((body,), (), strip)


def between(asked: Together, one: Group, other: Group) -> Apart | None:
    """What two groups keep from each other; None where they do not mind each other."""
    if one.units and other.units:
        return asked.between(one.units[0], other.units[-1])
    strip, units = (one.strip, other.units) if one.strip else (other.strip, one.units)
    if strip is None or not units or (strip.units is not None and units[0] not in strip.units):
        return None
    return TOUCHING


def stackable(asked: Together, found: list[Group]) -> bool:
    """True where floors and ceilings leave two units room above one another."""
    pairs = [
        (one, other, between(asked, one, other))
        for one in found
        for other in found
        if one.units and other.units and (one is not other or len(one.units) > 1)
    ]
    return any(
        apart is not None and heights(below).low + below.height + apart.up <= heights(above).high
        for one, other, apart in pairs
        for below in one.asks
        for above in other.asks
    )


def heights(ask: Question) -> Span:
    """Between which lower edges the keep-outs all along a wall leave a unit."""
    if ask.bottom is not None:
        return Span(ask.bottom, ask.bottom)
    far = END // 2
    wide = [each for each in ask.keepouts if each.x.low <= -far and each.x.high >= far and not each.reach2]
    low = max([0, *(each.z.high for each in wide if each.z.low <= -far)])
    return Span(low, min([END, *(each.z.low - ask.height for each in wide if each.z.high >= far)]))
