"""When two choices are two for a person, what differs between them, and the runner-up of a choice."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from standfast.design.anchorage.held import Anchorage, Tried
from standfast.design.choice.built import Option, Ways
from standfast.design.siting.choosing import Spot
from standfast.design.siting.placed import PlacedUnit
from standfast.design.siting.solid import mm
from standfast.design.wiring.whole import Wiring
from standfast.sheet import Value
from standfast.units import feet_inches


class Other(NamedTuple):
    """The runner-up: how much dearer it is, and what differs, in words."""

    more: float
    differs: tuple[str, ...]


def apart_by(near: Value | None) -> float:
    """How far apart two places are two, mm: each can be off by the placing tolerance of the survey."""
    return 0.0 if near is None or near.missing else 2 * near.quantity


def differs_by(apart: float) -> Callable[[Option, Option], bool]:
    """Whether two choices are two: nothing else being different, their places lie farther apart than some mm."""

    def differ(one: Option, other: Option) -> bool:
        return any(_in_words(one, other, apart))

    return differ


def alike_by(apart: float) -> Callable[[Option, Sequence[Spot]], bool]:
    """Whether places that are not worked out are those of a choice, but for some mm."""

    def alike(one: Option, spots: Sequence[Spot]) -> bool:
        pairs = zip(one.siting.places, spots, strict=True)
        return not any(
            here.wall != spot.wall or _far(here.left, mm(spot.left), apart) or _far(here.bottom, mm(spot.bottom), apart)
            for here, spot in pairs
        )

    return alike


def told(best: Option, other: Option) -> Other:
    """Another whole choice as the runner-up."""
    return Other(other.price - best.price, tuple(_in_words(best, other, 0.0)))


def others(best: Option, ways: Ways) -> Iterator[Other]:
    """The runners-up at the chosen place: circuits built in another way, another fixing."""
    second = ways.runner_up
    if second is not None:
        yield Other(second.price - best.wired.price, tuple(_circuits(best.wired.wiring, second.wiring)))
    for held in best.anchorages:
        for each in _fixings(held):
            if each.cost is not None and held.cost is not None:
                yield Other(each.cost - held.cost, (f"{each.sheet.content.name} hold {held.unit}",))


def _fixings(held: Anchorage) -> Sequence[Tried]:
    """The other fixings of a unit that leave no more open than the chosen one."""
    chosen = next((each for each in held.tried if each.sheet is held.fixing), None)
    if chosen is None:
        return ()
    return [each for each in held.tried if each is not chosen and each.open == chosen.open]


def _in_words(one: Option, other: Option, apart: float) -> Iterator[str]:
    for here, there in zip(one.siting.places, other.siting.places, strict=True):
        if _moved(here, there, apart):
            left, bottom = (feet_inches(each.quantity) for each in (there.left, there.bottom))
            yield f"{there.id} stands on {there.wall}, {left} from its left end and {bottom} up"
    yield from _circuits(one.wired.wiring, other.wired.wiring)
    for held, instead in zip(one.anchorages, other.anchorages, strict=True):
        if instead.fixing is not None and held.fixing is not instead.fixing:
            yield f"{instead.fixing.content.name} hold {instead.unit}"


def _moved(one: PlacedUnit, other: PlacedUnit, apart: float) -> bool:
    if one.wall != other.wall:
        return True
    return _far(one.left, other.left.quantity, apart) or _far(one.bottom, other.bottom.quantity, apart)


def _far(one: Value, other: float, apart: float) -> bool:
    return max(one.quantity - other, other - one.quantity) > apart


def _circuits(one: Wiring, other: Wiring) -> Iterator[str]:
    for here, there in zip(one.circuits, other.circuits, strict=True):
        if here.conductor.size.number != there.conductor.size.number and not there.conductor.size.missing:
            yield f"{there.title} in size {there.conductor.size.word}"
        if here.need.device.number != there.need.device.number and not there.need.device.missing:
            yield f"{there.title} on a breaker of {there.need.device.quantity:g} A"
        for tube, instead in zip(here.raceways, there.raceways, strict=True):
            if tube.kind.number != instead.kind.number and not instead.kind.missing:
                yield f"{instead.run.id} in {instead.kind.word}"
