"""What can arrive at a place of the house in one switch state: the sources beyond it, as far as devices let them.

Steady currents: an inverter and a generator give what they are rated for, the utility whatever the first device on its
way lets through. Loads take nothing away from it, so that what is found is never less than what can flow.
"""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.graph import Installation, Link, Part
from standfast.design.installation.states import State
from standfast.sheet import Value, total, worst

DEVICES = frozenset({"breaker", "fuse"})
"""Parts that clear a fault by themselves."""


class Arrival(NamedTuple):
    """What arrives from one side.

    Attributes:
        sources: ids of the sources, in order.
        current: their sum in A; None where nothing ahead limits the utility, and where no source is there.
    """

    sources: tuple[str, ...]
    current: Value | None


NOTHING = Arrival((), None)


class Arrivals:
    """One state of a house, asked from any link of its graph; what was found once is kept."""

    def __init__(self, house: Installation, state: State, ratings: Mapping[str, Value]) -> None:
        """The state of a house; `ratings` names the devices in A of parts whose facts do not state a rating."""
        self.house, self.state, self.ratings = house, state, ratings
        self._kept: dict[tuple[str, str], Arrival] = {}

    def over(self, link: Link, end: str) -> Arrival:
        """What comes out of one end of a link from beyond it.

        Args:
            link: the link.
            end: the part at that end.
        """
        key = (link.id, end)
        if key not in self._kept:
            self._kept[key] = NOTHING  # a way that leads back here brings nothing more
            self._kept[key] = self._beyond(link, end)
        return self._kept[key]

    def at(self, busbar: str, link: Link, there: str) -> Arrival:
        """What arrives at a busbar over one of the links joined to it, its own main counted."""
        found = self.over(link, there)
        main = main_of(self.house.parts[busbar], link)
        return found if main is None else _held(found, main)

    def _beyond(self, came: Link, id: str) -> Arrival:
        part = self.house.parts[id]
        if id in self.state.opened:
            return NOTHING
        if part.kind in ("utility", "inverter", "generator"):
            runs = id not in self.state.idle
            current = part.facts.get("output_current") if part.kind != "utility" else None
            return Arrival((id,), current) if runs else NOTHING
        ways = [(link, self.at(id, link, there.id)) for there, link in self.house.beside(id) if link is not came]
        device = self._device(part, came)
        if device is None:
            return joined([each for _, each in ways if each.sources])
        beside = [each for link, each in ways if each.sources and _past(part, came, link)]
        held = joined([each for link, each in ways if each.sources and not _past(part, came, link)])
        return joined([each for each in (_held(held, device), *beside) if each.sources])

    def _device(self, part: Part, link: Link) -> Value | None:
        """The device of a part towards a link: a breaker is one, a panel has its main where its feed arrives."""
        if part.kind in DEVICES:
            return self.ratings.get(part.id, part.facts.get("rating"))
        return main_of(part, link)


def _past(part: Part, one: Link, other: Link) -> bool:
    """Whether a way from one link to another passes a breaker by: both hang on its load side, as a tap does."""
    return part.kind in DEVICES and one.a == part.id and other.a == part.id


def passes(part: Part, one: Link | None, other: Link | None) -> bool:
    """Whether a way over two links goes through a device: not where both hang on its load side."""
    return part.kind in DEVICES and (one is None or other is None or not _past(part, one, other))


def main_of(part: Part, link: Link) -> Value | None:
    """The main of a panel in A, where a link is its feed; None for other links, other parts and main lugs."""
    if part.kind != "busbar" or link.b != part.id:
        return None
    lugs = part.facts.get("main_lugs")
    return None if lugs is not None and lugs.number is True else part.facts.get("main")


def joined(found: list[Arrival]) -> Arrival:
    """Several arrivals together; one that nothing limits leaves their sum without a limit."""
    if not found:
        return NOTHING
    if len(found) == 1:
        return found[0]
    ids = tuple(dict.fromkeys(id for each in found for id in each.sources))
    currents = [each.current for each in found if each.current is not None]
    return Arrival(ids, total("I_sources", currents, "A") if len(currents) == len(found) else None)


def _held(found: Arrival, device: Value) -> Arrival:
    if not found.sources:
        return found
    if found.current is None:
        return Arrival(found.sources, device)
    if found.current.missing and not device.missing:
        return Arrival(found.sources, device)  # whatever the sources give, the device lets no more through
    return Arrival(found.sources, worst("I_through", [found.current, device], "min"))
