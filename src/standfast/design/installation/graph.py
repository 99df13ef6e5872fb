"""Parts, links and the walks over them. Plain search; knows no rule."""

import itertools
from collections import deque
from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple

from standfast.faults import BadFormula
from standfast.sheet import Value

PartKind = Literal[
    "utility",
    "meter",
    "busbar",
    "breaker",
    "disconnect",
    "transfer equipment",
    "inverter",
    "generator",
    "battery",
    "fuse",
    "array",
    "load",
    "electrode",
    "shutdown switch",
]
LinkKind = Literal["conductor", "busbar", "internal", "bond"]

SOURCES: frozenset[PartKind] = frozenset({"utility", "inverter", "generator", "battery", "array"})
"""Parts that can put power on the conductors joined to them. None reaches beyond an inverter: that is itself one."""

SWITCHES: frozenset[PartKind] = frozenset({"breaker", "disconnect", "transfer equipment"})
"""Parts that a person can open."""


class Part(NamedTuple):
    """One thing of the installation.

    Attributes:
        id: unique, in trade words: ``panel-main``, ``battery-1/breaker``.
        kind: what it is.
        name: the one name that drawings, labels and lists use.
        facts: its ratings as values of the sheet, for instance ``rating``, ``interrupting``, ``busbar``.
        existing: true where it is there before the work begins.
        role: the word of ``[equipment]`` whose data sheet tells about it; empty where none does.
    """

    id: str
    kind: PartKind
    name: str
    facts: Mapping[str, Value]
    existing: bool
    role: str = ""


class Link(NamedTuple):
    """What joins two parts.

    Attributes:
        id: unique; a conductor's is the name of its route.
        a: the part on the utility's side.
        b: the part on the other side.
        kind: a conductor run, a tap on a busbar, a joint inside an enclosure, or a bond to earth.
    """

    id: str
    a: str
    b: str
    kind: LinkKind


class Installation:
    """The graph. Parts keep the order in which they were entered, so everything derived from it is in one order."""

    def __init__(self, parts: Iterable[Part], links: Iterable[Link]) -> None:
        self.parts: dict[str, Part] = {}
        for part in parts:
            if part.id in self.parts:
                raise BadFormula(f"two parts of the installation have the id {part.id}")
            self.parts[part.id] = part
        self.links: list[Link] = list(links)
        self._joined: dict[str, list[tuple[str, Link]]] = {id: [] for id in self.parts}
        for link in self.links:
            for here, there in ((link.a, link.b), (link.b, link.a)):
                if here not in self.parts:
                    raise BadFormula(f"{link.id} joins {here}, which is no part of the installation")
                self._joined[here].append((there, link))

    def of_kind(self, *kinds: PartKind) -> list[Part]:
        """The parts of these kinds, in order."""
        return [part for part in self.parts.values() if part.kind in kinds]

    def beside(self, id: str) -> list[tuple[Part, Link]]:
        """What is joined to a part, bonds to earth left out."""
        return [(self.parts[there], link) for there, link in self._joined[id] if link.kind != "bond"]

    def path(self, start: str, end: str) -> list[Part]:
        """The parts from one to another, both included, by the fewest links; empty where they are not joined."""
        came: dict[str, str] = {start: ""}
        queue = deque([start])
        while queue:
            here = queue.popleft()
            if here == end:
                found = [here]
                while came[found[-1]]:
                    found.append(came[found[-1]])
                return [self.parts[id] for id in reversed(found)]
            for there, _ in self.beside(here):
                if there.id not in came:
                    came[there.id] = here
                    queue.append(there.id)
        return []

    def conductors(self, start: str, end: str) -> list[Link]:
        """The links on the way from one part to another, in order."""
        way = self.path(start, end)
        pairs = [{here.id, there.id} for here, there in itertools.pairwise(way)]
        return [next(link for link in self.links if {link.a, link.b} == pair) for pair in pairs]

    def reached(self, start: str, opened: frozenset[str] = frozenset()) -> set[str]:
        """The parts that are joined to `start` while the switches named in `opened` are open.

        An open switch and an inverter are themselves reached, from the side they are fed, and nothing beyond them.
        """
        found = {start}
        queue = deque([start])
        while queue:
            here = queue.popleft()
            if here != start and (here in opened or self.parts[here].kind == "inverter"):
                continue
            for there, _ in self.beside(here):
                if there.id not in found:
                    found.add(there.id)
                    queue.append(there.id)
        return found

    def feeding(self, id: str, opened: frozenset[str] = frozenset()) -> list[Part]:
        """Every source that can feed a part while the switches named in `opened` are open."""
        return [source for source in self.of_kind(*SOURCES) if id in self.reached(source.id, opened)]

    def switch_to_utility(self, id: str) -> Part | None:
        """The switch nearest to a part on its way to the utility; None where none stands between them."""
        for utility in self.of_kind("utility"):
            between = (part for part in self.path(id, utility.id)[1:] if part.kind in SWITCHES)
            return next(between, None)
        return None

    def busbars_to_utility(self, id: str) -> list[Part]:
        """The busbars between a part and the utility, nearest to the part first."""
        return [
            part for utility in self.of_kind("utility") for part in self.path(id, utility.id) if part.kind == "busbar"
        ]
