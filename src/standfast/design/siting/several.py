"""Several units of one job: what they keep from each other and leave free together, and their places."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.siting import choosing
from standfast.design.siting.asking import Ask
from standfast.design.siting.choosing import Question, Spot
from standfast.design.siting.frames import Frame, exact, frame
from standfast.design.siting.ground import Ground, fixed, put, question, seen_from, wish_of
from standfast.design.siting.keepouts import END
from standfast.design.siting.layout import Facts, Layout, Unit
from standfast.design.siting.openings import spacing
from standfast.design.siting.search import Apart, Corner, Strip, Together, cheapest
from standfast.design.siting.solid import Span, tenths
from standfast.design.siting.things import same_room
from standfast.design.siting.working_space import blockers, serviced, tall, width_needed
from standfast.shelf import Adoption

Grounds = Mapping[str, Ground]


class Standing(NamedTuple):
    """A unit at its place, and the wall that it is on."""

    wall: str
    unit: Unit
    question: Question
    spot: Spot


class Chosen(NamedTuple):
    """The places of all units.

    Attributes:
        units: each at its place, in the order of their names.
        bound: no placement costs less, halves of a tenth of run; None where none is allowed.
        proven: it is proven that no placement is cheaper, or that none is allowed.
        need: what would prove it.
    """

    units: tuple[Standing, ...]
    bound: int | None
    proven: bool
    need: str = ""


def choose(adoption: Adoption, grounds: Grounds, units: Sequence[str], walls: Sequence[Sequence[str]]) -> Chosen:
    """The cheapest places of several units together.

    Args:
        adoption: the books in force.
        grounds: the walls, by their ids.
        units: the names of the units.
        walls: for each of them the walls that it may stand on.

    Returns:
        A placement that breaks no rule. Where there is none: one with the smaller spacing of a fire test report on
        which the authority has not answered yet; else each unit where the fewest rules refuse it, one by one.
    """
    if len(units) == 1:
        (alone,) = _one_by_one(adoption, grounds, units, walls)
        free = alone.question.free(alone.spot.left, alone.spot.bottom)
        return Chosen((alone,), alone.spot.cost if free else None, True)
    for by_test in (False, True):
        asked = together(adoption, grounds, units, walls, by_test=by_test)
        answer = cheapest(asked)
        if answer.spots:
            found = tuple(
                _stands(grounds[spot.wall], unit, _of(asked, number, spot), spot)
                for number, (unit, spot) in enumerate(zip(units, answer.spots, strict=True))
            )
            if by_test or not _in_each_others_way(adoption, grounds, found):
                return Chosen(found, answer.bound, answer.proven and not by_test, answer.need)
            turned = tuple(_one_by_one(adoption, grounds, units, walls))
            return Chosen(turned, answer.bound, False, ACROSS)
        if not _awaits(grounds):
            break
    return Chosen(tuple(_one_by_one(adoption, grounds, units, walls)), answer.bound, answer.proven, answer.need)


ACROSS = "units on different walls were in each other's way: they were placed one by one"


def _in_each_others_way(adoption: Adoption, grounds: Grounds, placed: Sequence[Standing]) -> bool:
    """True where units on different walls break a rule together, as where they face each other in a narrow room."""
    if len({each.wall for each in placed}) == 1:
        return False
    for each in placed:
        layout = with_units(grounds, each.wall, [other for other in placed if other != each])
        asked = question(adoption, grounds[each.wall], layout, each.unit)
        if not asked.free(each.spot.left, each.spot.bottom):
            return True
    return False


def _stands(at: Ground, unit: str, asked: Question, spot: Spot) -> Standing:
    return Standing(at.wall.id, put(at.unit(unit), spot.left, spot.bottom), asked, spot)


def _of(asked: Together, number: int, spot: Spot) -> Question:
    return next(each for each in asked.units[number] if each.wall == spot.wall)


def _awaits(grounds: Grounds) -> bool:
    """True where a smaller spacing hangs on an answer of the authority that is not there."""
    facts = _any(grounds).bare.facts
    return facts.listed_spacing is not None and facts.spacing_test_accepted is None


def _any(grounds: Grounds) -> Ground:
    return next(iter(grounds.values()))


def together(
    adoption: Adoption, grounds: Grounds, units: Sequence[str], walls: Sequence[Sequence[str]], *, by_test: bool
) -> Together:
    """What is asked for the units together; `by_test` takes the spacing of the fire test report as accepted."""
    asked = tuple(
        tuple(
            fixed(
                question(adoption, grounds[wall], grounds[wall].bare, grounds[wall].unit(unit)),
                wish_of(grounds[wall].seen.job, unit),
            )
            for wall in allowed
        )
        for unit, allowed in zip(units, walls, strict=True)
    )
    used = [grounds[wall] for wall in dict.fromkeys(wall for allowed in walls for wall in allowed)]
    unit = used[0].unit(units[0])
    along, up = apart(used[0], unit, by_test=by_test)
    corners = tuple(corner for one in used for other in used for corner in _corners(one, other, along, unit))
    strips = tuple(strip for each in used for strip in _strips(each, unit))
    return Together(asked, Apart(along, up, corners), strips)


def apart(at: Ground, unit: Unit, *, by_test: bool = False) -> tuple[int, int]:
    """What two units keep from each other along the wall and up it, with the placing tolerance, tenths."""
    along = up = 0
    ask, facts = at.asks.get("unit-spacing"), at.bare.facts
    slack = next((each.slack for each in at.asks.values()), 0)
    if ask is not None:
        along = up = tenths(spacing(ask, _taken(facts) if by_test else facts).quantity)
    maker = unit.maker
    if maker is not None and maker.between is not None:
        along, up = (max(each, tenths(maker.between.quantity)) for each in (along, up))
    elif maker is not None:
        free = {side: 0 if each.missing else tenths(each.quantity) for side, each in maker.clearances.items()}
        along, up = max(along, free["left"], free["right"]), max(up, free["above"], free["below"])
    return along + slack, up + slack


def _taken(facts: Facts) -> Facts:
    return facts._replace(spacing_test_accepted=True)


def _corners(one: Ground, other: Ground, along: int, unit: Unit) -> Iterator[Corner]:
    """Where two walls of a room meet: a unit within reach of the corner on the one, or on the other, not both."""
    here, there = frame(one.wall), frame(other.wall)
    if one.wall.id >= other.wall.id or not same_room(one.seen, other.wall) or here is None or there is None:
        return
    reach = along + (0 if unit.solid.y is None else unit.solid.y.high)
    ends = ((exact(one.wall.length), here), (exact(other.wall.length), there))
    for at, near in _ends(*ends[0], reach):
        for at_other, near_other in _ends(*ends[1], reach):
            if (at[0] - at_other[0]) ** 2 + (at[1] - at_other[1]) ** 2 <= reach * reach:
                yield Corner(one.wall.id, near, other.wall.id, near_other)


def _ends(length: int, own: Frame, reach: int) -> list[tuple[tuple[float, float], Span]]:
    """Both ends of a wall in plan, with the stretch that is within reach of each."""
    return [(own.plan(0, 0), Span(0, reach)), (own.plan(length, 0), Span(length - reach, length))]


def _strips(at: Ground, unit: Unit) -> Iterator[Strip]:
    """Working space of the equipment of a wall, which the units leave free together.

    Equipment that has too little without any unit is left to its check, and what stands out as far as a unit is not in
    its way.
    """
    ask, bare = at.asks.get("working-width"), at.bare
    for thing in serviced(bare) if ask is not None else []:
        x, y, out = thing.solid.x, thing.solid.y, unit.solid.y
        if ask is None or x is None or y is None or out is None or y.high >= out.high:
            continue
        strip = _strip(at, ask, bare, thing.id, x)
        if strip.high - strip.low >= strip.width and strip.lefts.low <= strip.lefts.high:
            yield strip._replace(z=Span(-END, tall(ask, thing)))


def _strip(at: Ground, ask: Ask, bare: Layout, id: str, x: Span) -> Strip:
    thing = next(each for each in bare.things if each.id == id)
    bodies = blockers(ask, bare, thing)
    lefts = [each.high for each in bodies if each.high <= x.low]
    rights = [each.low for each in bodies if each.low >= x.high]
    inside = any(each.overlaps(x) for each in bodies)
    low = max([*lefts, -END if bare.facts.wall_from is None else bare.facts.wall_from])
    high = min([*rights, END if bare.facts.wall_to is None else bare.facts.wall_to])
    width = tenths(width_needed(ask, x, bare).quantity) + ask.slack
    return Strip(at.wall.id, x, width, Span(0, 0), low if not inside else END, high)


def _one_by_one(
    adoption: Adoption, grounds: Grounds, units: Sequence[str], walls: Sequence[Sequence[str]]
) -> Iterator[Standing]:
    """Each unit after the other, where it is free or else where the fewest rules refuse it."""
    placed: list[Standing] = []
    for unit, allowed in zip(units, walls, strict=True):
        found = min(
            (_alone(adoption, grounds, unit, wall, placed) for wall in allowed),
            key=lambda each: (len(each.question.refusing(each.spot.left, each.spot.bottom)), each.spot.cost),
        )
        placed.append(found)
        yield found


def _alone(adoption: Adoption, grounds: Grounds, unit: str, wall: str, placed: Sequence[Standing]) -> Standing:
    """The best place of a unit on a wall beside those that stand already."""
    at = grounds[wall]
    asked = question(adoption, at, with_units(grounds, wall, placed), at.unit(unit))
    asked = fixed(asked, wish_of(at.seen.job, unit))
    spot = choosing.cheapest(asked) or choosing.least_bad(asked) or Spot(0, 0, 0, wall)
    return _stands(at, unit, asked, spot)


def with_units(grounds: Grounds, wall: str, placed: Sequence[Standing]) -> Layout:
    """A wall with the units that stand on it, and those on other walls as they are seen from it."""
    at = grounds[wall]
    here = tuple(each.unit for each in placed if each.wall == wall)
    others = tuple(seen_from(at, each.unit, grounds[each.wall].wall) for each in placed if each.wall != wall)
    return at.bare._replace(units=here, others=others)
