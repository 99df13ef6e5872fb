"""Acts, gates and sources: what the order of the work is decided on. Knows no house, no data sheet and no rule.

A zone is a piece of conductor that is live all over or nowhere. Gates join zones: a switch, breaker, connector or fuse.
A gate isolates only while it is open and locked, or pulled; a setting never does. Everything that can put power on a
zone without a person is a source, and it always runs: whoever works does not know when it starts.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple, get_args

from standfast.faults import BadFormula

Change = Literal["open", "close", "lock", "unlock"]
Group = Literal["dead tests", "check", "supply", "live tests", "direct current", "settings", "functional", "hand over"]
"""Parts of putting into service, in the order in which they come."""
GROUPS: tuple[Group, ...] = get_args(Group)


class Turn(NamedTuple):
    """One change of one gate."""

    gate: str
    change: Change


class Act(NamedTuple):
    """One step, as far as it matters for power.

    Attributes:
        id: unique.
        after: ids of acts that are done before.
        gate: the gate that it changes; empty where it changes none.
        change: what it does to that gate.
        touches: terminals that hands reach while it is done.
        proves: terminals that it proves dead; a proof at one end of a conductor is none at the other.
        waits: terminals whose stored charge has gone when it is done, and with it that of everything joined to them.
        uncovers: cover that it takes off; empty where none.
        covers: cover that it fits; empty where none.
        reaches: covers that must be off while it is done.
        shut: covers that must be on while it is done.
        clears: terminals whose conductors it tests, dead, before they are first fed.
        groups: parts of putting into service that it belongs to.
        tightens: joints that it tightens, each with the cover that hides it; empty where none does.
        fits: device of which it fits a part; empty where none.
    """

    id: str
    after: tuple[str, ...] = ()
    gate: str = ""
    change: Change | None = None
    touches: tuple[str, ...] = ()
    proves: tuple[str, ...] = ()
    waits: tuple[str, ...] = ()
    uncovers: str = ""
    covers: str = ""
    reaches: tuple[str, ...] = ()
    shut: tuple[str, ...] = ()
    clears: tuple[str, ...] = ()
    groups: tuple[Group, ...] = ()
    tightens: tuple[tuple[str, str], ...] = ()
    fits: str = ""


class Sensor(NamedTuple):
    """A measuring transformer whose open secondary makes a dangerous voltage while its primary carries current.

    Its secondary and its seat round the conductor are changed as covers are: the secondary is joined where it is on,
    and the transformer sits round its conductor where that is on.

    Attributes:
        secondary: id of its secondary.
        around: id of its seat.
        zone: the zone of the conductor that it measures.
        shorting: id of the link that shorts its secondary while it is in; empty where it has none.
    """

    secondary: str
    around: str
    zone: str
    shorting: str = ""


class Gate(NamedTuple):
    """What joins two zones.

    Attributes:
        id: unique.
        a, b: the zones.
        closed: true where it is closed before the work begins.
        locks: true where open alone does not isolate: it takes a lock too. A pulled connector or fuse takes none.
        locked: true where it is locked before the work begins.
    """

    id: str
    a: str
    b: str
    closed: bool
    locks: bool = True
    locked: bool = False


class Site(NamedTuple):
    """Everything that power can flow through.

    Attributes:
        gates: all of them.
        sources: zone of each source, by its name.
        charged: zones that stay live after they are parted from every source, until somebody has waited.
        covers: ids of covers that are on before the work begins; every other one is off.
        terminals: the zone of each terminal that has another name than its zone.
        temporary: ids, among those of covers, of what must not stay: spacers, caps, transport locks.
        joined: gates that must be closed when everything is done: connectors.
        sensors: measuring transformers with a current output.
    """

    gates: tuple[Gate, ...]
    sources: Mapping[str, str]
    charged: frozenset[str] = frozenset()
    covers: frozenset[str] = frozenset()
    terminals: Mapping[str, str] = {}
    temporary: frozenset[str] = frozenset()
    joined: frozenset[str] = frozenset()
    sensors: tuple[Sensor, ...] = ()

    def zone(self, terminal: str) -> str:
        """The zone that a terminal is in."""
        return self.terminals.get(terminal, terminal)


class Acts:
    """The acts of a job with their precedence, closed.

    Raises:
        BadFormula: where two acts have one id, one waits for what is no act, acts wait for each other, or two changes
            of one gate or of one cover are not ordered among themselves.
    """

    def __init__(self, acts: Iterable[Act]) -> None:
        self.all: tuple[Act, ...] = tuple(acts)
        self.number = {act.id: place for place, act in enumerate(self.all)}
        if len(self.number) != len(self.all):
            raise BadFormula("two steps of the work have one id")
        self.before = self._closed()
        self.of_gate = self._chains({place: act.gate for place, act in enumerate(self.all)})
        self.of_cover = self._chains({place: act.uncovers or act.covers for place, act in enumerate(self.all)})

    def __len__(self) -> int:
        return len(self.all)

    def precedes(self, first: int, second: int) -> bool:
        """True where one act is done before another in every order."""
        return bool(self.before[second] >> first & 1)

    def whole(self, set_: int) -> int:
        """A set of acts, as bits, with everything that each of them waits for."""
        found = set_
        for place in members(set_):
            found |= self.before[place]
        return found

    def in_order(self, set_: int) -> list[str]:
        """The acts of a set in an order that respects what they wait for."""
        places = sorted(members(set_), key=lambda one: (self.before[one].bit_count(), one))
        return [self.all[place].id for place in places]

    def _closed(self) -> list[int]:
        """For each act the set of all that are before it, as bits."""
        known: dict[int, int] = {}
        for start in range(len(self.all)):
            way = [start]
            while way:
                here = way[-1]
                waits = [self._place(here, id) for id in self.all[here].after]
                due = [each for each in waits if each not in known]
                if not due:
                    known[here] = 0
                    for each in waits:
                        known[here] |= known[each] | 1 << each
                    way.pop()
                elif due[0] in way:
                    ring = [self.all[each].id for each in (*way[way.index(due[0]) :], due[0])]
                    raise BadFormula(f"these steps wait for each other: {' ← '.join(ring)}")
                else:
                    way.append(due[0])
        return [known[place] for place in range(len(self.all))]

    def _place(self, here: int, id: str) -> int:
        if id not in self.number:
            raise BadFormula(f"step {self.all[here].id} waits for {id}, which is no step")
        return self.number[id]

    def _chains(self, changed: Mapping[int, str]) -> dict[str, list[int]]:
        """The changes of each gate, or of each cover, in their order."""
        found: dict[str, list[int]] = {}
        for place, what in changed.items():
            if what:
                found.setdefault(what, []).append(place)
        for what, chain in found.items():
            chain.sort(key=lambda one: self.before[one].bit_count())
            for first, second in pairwise(chain):
                if not self.precedes(first, second):
                    names = f"{self.all[first].id} and {self.all[second].id}"
                    raise BadFormula(f"{names} both change {what}, and nothing says which of them is first")
        return found


def members(set_: int) -> Sequence[int]:
    """The places of the bits of a set."""
    found = []
    while set_:
        low = set_ & -set_
        found.append(low.bit_length() - 1)
        set_ ^= low
    return found


def set_of(places: Iterable[int]) -> int:
    """A set of acts, as bits, from their places."""
    found = 0
    for place in places:
        found |= 1 << place
    return found
