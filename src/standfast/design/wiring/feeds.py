"""Who can feed this conductor: for every AC conductor and busbar the worst sum of sources in every switch state.

A result of it belongs to one link of the graph or to one busbar: what can arrive from the utility's side and from the
other side, in which state, and which device clears each source. Direct-current conductors are not here: both their ends
are asked where their own circuit is worked out.
"""

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation.graph import Installation, Link, Part
from standfast.design.installation.states import State
from standfast.design.wiring.arrivals import Arrival, Arrivals, joined, main_of, passes
from standfast.sheet import Value, missing

Ways = Mapping[str, Mapping[str, Link]]
"""By source, by part: the link that leads towards the source."""


class Side(NamedTuple):
    """What can arrive from one side of a conductor at worst.

    Attributes:
        sources: ids of the sources that can feed it from there, in any reachable state.
        current: the worst sum in A; None where nothing limits the utility or nothing arrives.
        state: the state of that sum; None where nothing arrives.
    """

    sources: tuple[str, ...]
    current: Value | None
    state: State | None


class Clearing(NamedTuple):
    """A source that can feed a conductor, and the device nearest to the conductor that clears it; empty where none."""

    source: str
    device: str


class Feed(NamedTuple):
    """A conductor or a busbar with everything that can feed it.

    Attributes:
        id: of the link, or of the busbar.
        a: the part on the utility's side; of a busbar itself.
        b: the part on the other side; of a busbar itself.
        from_utility: what arrives from the utility's side.
        from_other: what arrives from the other side.
        through: of a conductor the greater of both, of a busbar all that arrives at one time, in A; None where nothing
            limits it.
        state: the state of `through`; None where nothing feeds it.
        clearing: every source that can feed it with its device.
    """

    id: str
    a: str
    b: str
    from_utility: Side
    from_other: Side
    through: Value | None
    state: State | None
    clearing: tuple[Clearing, ...]


def feeds(house: Installation, states: Sequence[State], ratings: Mapping[str, Value]) -> list[Feed]:
    """Everything that can feed every AC conductor and busbar.

    Args:
        house: the graph of the job.
        states: the states that it can be in; those that hang on facts make a sum *missing* where they would raise it.
        ratings: devices in A of parts whose facts state no rating, by part: the breakers that the design chose.
    """
    arrivals = [Arrivals(house, each, ratings) for each in states]
    ways = _ways(house)
    found = [_conductor(house, link, arrivals, ways) for link in ac_conductors(house)]
    return found + [_busbar(house, part, arrivals, ways) for part in house.of_kind("busbar")]


def ac_conductors(house: Installation) -> Iterator[Link]:
    """The conductors on the AC side: every one that is not beyond an inverter."""
    live = set[str]()
    for source in house.of_kind("utility", "generator"):
        live |= house.reached(source.id)
    for link in house.links:
        both = link.a in live and link.b in live and house.parts[link.a].kind != "inverter"
        if link.kind == "conductor" and both:
            yield link


def has_loop(house: Installation) -> bool:
    """Whether conductors lead back to where they come from: what arrives can then not be told from one side."""
    links = [link for link in house.links if link.kind != "bond"]
    parent = {id: id for id in house.parts}

    def root(id: str) -> str:
        while parent[id] != id:
            id = parent[id]
        return id

    for link in links:
        one, other = root(link.a), root(link.b)
        if one == other:
            return True
        parent[one] = other
    return False


def _conductor(house: Installation, link: Link, arrivals: Sequence[Arrivals], ways: Ways) -> Feed:
    near = [(each.state, each.over(link, link.a)) for each in arrivals]
    far = [(each.state, each.over(link, link.b)) for each in arrivals]
    one, other = _worst(near), _worst(far)
    through, state = _greater(one, other)
    clearing = tuple(
        Clearing(source, _nearest(house, ways[source], link, at))
        for side, at in ((one, link.a), (other, link.b))
        for source in side.sources
    )
    return Feed(link.id, link.a, link.b, one, other, through, state, clearing)


def _busbar(house: Installation, part: Part, arrivals: Sequence[Arrivals], ways: Ways) -> Feed:
    links = [(there.id, link) for there, link in house.beside(part.id)]
    above, below = [pair for pair in links if pair[1].b == part.id], [pair for pair in links if pair[1].a == part.id]
    near = [(each.state, _all(each, above)) for each in arrivals]
    far = [(each.state, _all(each, below)) for each in arrivals]
    whole = _worst([(each.state, _all(each, links)) for each in arrivals])
    clearing = tuple(Clearing(id, _nearest(house, ways[id], None, part.id)) for id in whole.sources)
    return Feed(part.id, part.id, part.id, _worst(near), _worst(far), whole.current, whole.state, clearing)


def _all(arrivals: Arrivals, links: Sequence[tuple[str, Link]]) -> Arrival:
    found = [arrivals.at(link.b if there == link.a else link.a, link, there) for there, link in links]
    return joined([each for each in found if each.sources])


def _worst(found: Sequence[tuple[State, Arrival]]) -> Side:
    """The worst of all states. One that hangs on a fact counts only as a question where it would be worse."""
    live = [(state, each) for state, each in found if each.sources]
    sources = tuple(dict.fromkeys(id for _, each in live for id in each.sources))
    if not live:
        return Side((), None, None)
    certain = [pair for pair in live if not pair[0].hangs_on]
    worst, state = _most(certain or live)
    perhaps, maybe = _most(live)
    if certain and not _more(perhaps, worst):
        return Side(sources, worst, state)
    facts = dict.fromkeys(fact for fact in maybe.hangs_on)
    need = "; ".join(each.how for each in facts)
    return Side(sources, missing("I_sources", "A", need, *facts), maybe)


def _most(found: Sequence[tuple[State, Arrival]]) -> tuple[Value | None, State]:
    """The greatest current; without a limit before a missing one before a number."""
    best_state, best = found[0][0], found[0][1].current
    for state, each in found[1:]:
        if _more(each.current, best):
            best_state, best = state, each.current
    return best, best_state


def _more(one: Value | None, other: Value | None) -> bool:
    if other is None:
        return False
    if one is None:
        return True
    if one.missing or other.missing:
        return one.missing and not other.missing
    return one.quantity > other.quantity


def _greater(one: Side, other: Side) -> tuple[Value | None, State | None]:
    """The greater of what arrives at both ends: it goes in at one and out at the other."""
    sides = [each for each in (one, other) if each.state is not None]
    if not sides:
        return None, None
    found = sides[0]
    for each in sides[1:]:
        if _more(each.current, found.current):
            found = each
    return found.current, found.state


def _ways(house: Installation) -> Ways:
    found = dict[str, dict[str, Link]]()
    for source in house.of_kind("utility", "inverter", "generator"):
        toward, queue = dict[str, Link](), deque([source.id])
        while queue:
            here = queue.popleft()
            for there, link in house.beside(here):
                if there.id not in toward and there.id != source.id:
                    toward[there.id] = link
                    queue.append(there.id)
        found[source.id] = toward
    return found


def _nearest(house: Installation, toward: Mapping[str, Link], came: Link | None, start: str) -> str:
    """The device on the way from a conductor to a source that comes first; empty where none stands between them."""
    here: str | None = start
    while here is not None:
        part, on = house.parts[here], toward.get(here)
        if passes(part, came, on):
            return part.id
        for link in (came, on):
            main = None if link is None or link.kind != "conductor" else main_of(part, link)
            if main is not None and not main.missing:
                return f"{part.id}/main"
        came, here = on, None if on is None else (on.a if on.b == here else on.b)
    return ""
