"""Small invented installations for the laws of neutrals: parts, links, states, and counting by hand."""

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.design.wiring.neutral import Island, Joint
from standfast.sheet import Value, given, missing


class State(NamedTuple):
    """A state as the walk over neutrals needs it."""

    opened: frozenset[str] = frozenset()
    idle: frozenset[str] = frozenset()
    id: str = "state"
    name: str = "the state"
    hangs_on: tuple[Value, ...] = ()


def part(id: str, kind: str) -> Part:
    """A part that is named like its id."""
    return Part(id, kind, id, {}, True)  # type: ignore[arg-type]


def graph(kinds: Mapping[str, str], pairs: Iterable[tuple[str, str]]) -> Installation:
    """An installation of parts by kind, and what joins them."""
    links = [Link(f"{a}-{b}", a, b, "conductor") for a, b in pairs]
    return Installation([part(id, kind) for id, kind in kinds.items()], links)


def said(symbol: str, answer: bool | None) -> Value:
    """A yes or no, or a missing one that asks for its symbol."""
    return missing(symbol, "", f"say {symbol}") if answer is None else given(symbol, answer, "", "a test")


def by_hand(
    house: Installation, state: State, island: Island, joints: Sequence[Joint], opens: Mapping[str, bool]
) -> int:
    """Joints on the neutral of an island by merging sets, everything known; every joint is of the kind ``always``."""
    label = {id: id for id in house.parts}

    def root(id: str) -> str:
        while label[id] != id:
            id = label[id]
        return id

    cut = {id for id in state.opened if opens.get(id)}
    inverters = {each.id for each in house.of_kind("inverter")}
    for link in house.links:
        if link.a in cut or link.b in cut:
            continue
        ends = {link.a, link.b} & inverters
        if not ends or ends == {island.sources[0]}:
            label[root(link.a)] = root(link.b)
    reached = {id for id in house.parts if root(id) == root(island.sources[0])}
    start = island.sources[0]
    for link in house.links:  # an inverter is an end: it hangs on a neutral, and nothing beyond it does
        for near, end in ((link.a, link.b), (link.b, link.a)):
            through = near == start or near not in inverters | cut
            if end in inverters and through and root(near) == root(start):
                reached.add(end)
    return sum(bool(joint.joined.yes) for joint in joints if joint.part in reached)


def answers(values: Mapping[str, bool | None]) -> Iterator[dict[str, bool]]:
    """Every way of answering what is not known."""
    open_ = [id for id, value in values.items() if value is None]
    for way in itertools.product((True, False), repeat=len(open_)):
        yield {id: value for id, value in values.items() if value is not None} | dict(zip(open_, way, strict=True))
