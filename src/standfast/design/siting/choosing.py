"""The cheapest free place of a unit on one wall, among the exact vertices of its free space.

Several units together, or one on several walls, are placed by `siting.search`.
"""

from collections.abc import Iterator, Sequence

from standfast.design.siting.keepouts import Keepout
from standfast.design.siting.layout import Unit
from standfast.design.siting.question import Question, Spot, bottom_lines, left_lines, on_arcs
from standfast.design.siting.solid import Span, tenths
from standfast.design.siting.stand import Stand

__all__ = ["Question", "Spot", "cheapest", "framed", "in_order", "least_bad", "nearest", "question", "span_of_free"]


def question(unit: Unit, keepouts: Sequence[Keepout], target: tuple[int, int] | None, lift_cost: int = 0) -> Question:
    """The question for a unit without studs or fixed edges."""
    height = 0 if unit.solid.z is None else unit.solid.z.high - unit.solid.z.low
    return Question(unit.width, height, keepouts, target, lift_cost=lift_cost)


def framed(
    ask: Question, unit: Unit, studs: tuple[int, ...], off_allowed_mm: float, off_cost: int, stray_cost: int
) -> Question:
    """The question on a framed wall: columns of holes want the middles of studs."""
    if unit.maker is None:
        return ask
    allowed = tenths(off_allowed_mm) + unit.maker.slot
    return ask._replace(
        studs=tuple(sorted(studs)),
        columns=tuple(unit.maker.columns),
        off_allowed=allowed,
        off_cost=off_cost,
        stray_cost=stray_cost,
    )


def cheapest(ask: Question) -> Spot | None:
    """The free place of least cost; of two that cost the same the one further left, then the lower one."""
    stand, best = Stand(ask), None
    lefts = list(stand.lefts())
    least = stand.ranked[0][0] if stand.ranked else 0
    for run, left in sorted(zip(map(ask.run_across, lefts), lefts, strict=True)):
        if best is not None and run + least > best.cost:
            break
        for up, bottom in stand.cheapest(left):
            if best is None or run + up <= best.cost:
                spot = Spot(run + ask.off_studs(left) + up, left, bottom, ask.wall)
                best = spot if best is None else min(best, spot)
    return best


def in_order(ask: Question) -> Iterator[Spot]:
    """The free places at vertices, from the cheapest."""
    return (spot for spot in sorted(set(_spots(ask))) if ask.free(spot.left, spot.bottom))


def span_of_free(ask: Question) -> tuple[Span, Span] | None:
    """Between which left edges and which lower edges all free places lie; None where there is none."""
    free = list(in_order(ask))
    if not free:
        return None
    lefts, bottoms = [each.left for each in free], [each.bottom for each in free]
    return Span(min(lefts), max(lefts)), Span(min(bottoms), max(bottoms))


def least_bad(ask: Question) -> Spot | None:
    """Where no place is free: the one that the fewest rules refuse, then the cheapest."""
    spots = set(_spots(ask))
    return min(
        spots, key=lambda each: (len({k.rule for k in ask.refusing(each.left, each.bottom)}), each), default=None
    )


def nearest(ask: Question, left: int, bottom: int, *, along: bool = True, up: bool = True) -> Spot | None:
    """The free place to which a unit has the least way to move: along the wall, up or down, or both."""
    middle = (left + ask.width // 2, bottom + ask.height // 2)
    kept = ask._replace(left=None if along else left, bottom=None if up else bottom)
    return cheapest(kept._replace(target=middle, lift_cost=0))


def _spots(ask: Question) -> Iterator[Spot]:
    lefts, bottoms = sorted(set(left_lines(ask))), sorted(set(bottom_lines(ask)))
    ups = [(ask.cost_up(bottom), bottom) for bottom in bottoms]
    for left in lefts:
        across = ask.cost_across(left)
        yield from (Spot(across + up, left, bottom, ask.wall) for up, bottom in ups)
    if ask.left is None and ask.bottom is None:
        for left, bottom in on_arcs(ask, lefts, bottoms):
            yield Spot(ask.cost(left, bottom), left, bottom, ask.wall)
    elif ask.left is None or ask.bottom is None:
        fixed = [ask.left] if ask.left is not None else []
        for left, bottom in on_arcs(ask, fixed or [], [ask.bottom] if ask.bottom is not None else []):
            if ask.left in (None, left) and ask.bottom in (None, bottom):
                yield Spot(ask.cost(left, bottom), left, bottom, ask.wall)
