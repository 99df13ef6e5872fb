"""Whether a zone can be fed in some order that the steps allow, without walking the orders.

A state of the work is a set of acts that holds everything its acts wait for. All changes of one gate are ordered, so a
gate lets power through in windows between its own changes. A zone is fed where every gate of a way from a source is in
such a window. The least state that has a given set of acts done and all these windows open is found by adding what each
window needs and going on to the next window of a gate that is past its end: sets only grow, so the first that fits is
the least, and none exists where an act would be needed that must not be done yet.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.fieldwork.order.acts import Acts, Gate, Site

NEVER = -1


class Window(NamedTuple):
    """Between two acts, by their places: the one that begins it and the one that ends it; `NEVER` for none."""

    begins: int
    ends: int


class Fed(NamedTuple):
    """How a zone comes to be fed: the acts done in the least such state, as bits, the source, and the gates between."""

    done: int
    source: str
    gates: tuple[str, ...]


class Power:
    """What can be live when."""

    def __init__(self, site: Site, acts: Acts) -> None:
        self.site, self.acts = site, acts
        self._windows = {gate.id: _conducting(gate, acts) for gate in site.gates}
        self._ways: dict[str, list[tuple[str, tuple[Gate, ...]]]] = {}

    def feeds(self, zone: str, done: int, not_yet: int) -> Fed | None:
        """The smallest state in which a zone is fed.

        Args:
            zone: the zone.
            done: acts that are done in it, as bits.
            not_yet: acts that are not.

        Returns:
            None where no order leads to such a state.
        """
        best: Fed | None = None
        for source, gates in self.ways(zone):
            state = least(self.acts, [self._windows[gate.id] for gate in gates], done, not_yet)
            if state is not None and (best is None or state.bit_count() < best.done.bit_count()):
                best = Fed(state, source, tuple(gate.id for gate in gates))
        return best

    def windows_of(self, gate: str) -> list[Window]:
        """When a gate conducts, in order."""
        return self._windows[gate]

    def ways(self, zone: str) -> list[tuple[str, tuple[Gate, ...]]]:
        """Every way without a detour from a source to a zone, as far as each of its gates conducts at some time."""
        if zone not in self._ways:
            self._ways[zone] = list(self._found(zone))
        return self._ways[zone]

    def _found(self, zone: str) -> Iterator[tuple[str, tuple[Gate, ...]]]:
        at: dict[str, list[str]] = {}
        for name, place in self.site.sources.items():
            at.setdefault(place, []).append(name)
        beside: dict[str, list[tuple[str, Gate]]] = {}
        for gate in self.site.gates:
            if self._windows[gate.id]:
                beside.setdefault(gate.a, []).append((gate.b, gate))
                beside.setdefault(gate.b, []).append((gate.a, gate))
        waiting: list[tuple[str, tuple[Gate, ...], frozenset[str]]] = [(zone, (), frozenset({zone}))]
        while waiting:
            here, gates, seen = waiting.pop()
            for name in at.get(here, ()):
                yield name, tuple(reversed(gates))
            if here not in at:  # a way through another source is no shorter than that source's own
                waiting += [
                    (there, (*gates, gate), seen | {there}) for there, gate in beside.get(here, ()) if there not in seen
                ]


def least(acts: Acts, needed: Sequence[Sequence[Window]], done: int, not_yet: int) -> int | None:
    """The smallest state with some acts done, some not, and in a window of each of several lists; None where none is.

    Args:
        acts: the acts.
        needed: for each gate or cover its windows, in order.
        done: acts that are done in it, as bits.
        not_yet: acts that are not.
    """
    state, at = acts.whole(done), [0] * len(needed)
    while True:
        for place, windows in enumerate(needed):
            while at[place] < len(windows) and _over(windows[at[place]], state):
                at[place] += 1
            if at[place] == len(windows):
                return None
        wanted = 0
        for place, windows in enumerate(needed):
            begins = windows[at[place]].begins
            wanted |= 0 if begins == NEVER else 1 << begins
        grown = state | acts.whole(wanted)
        if grown & not_yet:
            return None
        if grown == state:
            return state
        state = grown


def _over(window: Window, state: int) -> bool:
    return window.ends != NEVER and bool(state >> window.ends & 1)


def windows(changes: Sequence[tuple[int, bool]], before: bool) -> list[Window]:
    """The windows in which something holds.

    Args:
        changes: place of each act that changes it, in order, and whether it holds after that act.
        before: whether it holds before the first.
    """
    found, begins, holds = list[Window](), NEVER, before
    for place, after in changes:
        if holds and not after:
            found.append(Window(begins, place))
        if after and not holds:
            begins = place
        holds = after
    return [*found, Window(begins, NEVER)] if holds else found


def _conducting(gate: Gate, acts: Acts) -> list[Window]:
    """When a gate does not isolate: while it is closed, and while it is open without the lock that it takes."""
    closed, locked, changes = gate.closed, gate.locked, list[tuple[int, bool]]()
    before = closed or (gate.locks and not locked)
    for place in acts.of_gate.get(gate.id, ()):
        change = acts.all[place].change
        closed = {"open": False, "close": True}.get(change or "", closed)
        locked = {"lock": True, "unlock": False}.get(change or "", locked)
        changes.append((place, closed or (gate.locks and not locked)))
    return windows(changes, before)
