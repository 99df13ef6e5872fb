"""The oracle: every state that some order of the acts leads to, walked one by one."""

from collections import deque
from typing import NamedTuple

from standfast.fieldwork.order.acts import Acts, Site

Broken = set[tuple[str, str, bool]]
"""Act, zone or cover, and whether the zone is live just then."""


class Step(NamedTuple):
    """A state of the work: acts done, terminals proved dead since they were last fed, zones charged."""

    done: int
    proved: frozenset[str]
    charged: frozenset[str]


def walk(site: Site, acts: Acts, most: int = 10**9) -> tuple[Broken, int]:
    """What is unsafe in some order, and how many states were walked: all of them, or `most` and no further."""
    start = _seen(site, acts, Step(0, frozenset(), frozenset()))
    queue, known, broken = deque([start]), {start}, Broken()
    while queue and len(known) < most:
        here = queue.popleft()
        live = fed(site, acts, here.done)
        for place, act in enumerate(acts.all):
            if here.done >> place & 1 or acts.before[place] & ~here.done:
                continue
            for terminal in act.touches:
                zone = site.zone(terminal)
                if reachable(site, acts, zone) and (zone in live or terminal not in here.proved):
                    broken.add((act.id, terminal, zone in live))
            for cover in act.reaches:
                if on(site, acts, here.done, cover):
                    broken.add((act.id, cover, False))
            for cover in act.shut:
                if not on(site, acts, here.done, cover):
                    broken.add((act.id, cover, False))
            waited = here.charged - (set(map(site.zone, act.waits)) - live)
            dead = {each for each in act.proves if site.zone(each) not in live | waited}
            proved = here.proved | dead
            there = _seen(site, acts, Step(here.done | 1 << place, proved, waited))
            if there not in known:
                known.add(there)
                queue.append(there)
    return broken, len(known)


def _seen(site: Site, acts: Acts, step: Step) -> Step:
    """What being live does: no proof counts any more, and charges fill."""
    live = fed(site, acts, step.done)
    again = {each for each in step.proved if site.zone(each) in live}
    return step._replace(proved=step.proved - again, charged=step.charged | (live & site.charged))


def fed(site: Site, acts: Acts, done: int) -> frozenset[str]:
    """The zones that are live in a state."""
    found = set(site.sources.values())
    grown = True
    while grown:
        grown = False
        for gate in site.gates:
            if conducts(acts, gate.id, site, done) and (gate.a in found) != (gate.b in found):
                found |= {gate.a, gate.b}
                grown = True
    return frozenset(found)


def conducts(acts: Acts, id: str, site: Site, done: int) -> bool:
    """Whether a gate lets power through in a state."""
    gate = next(each for each in site.gates if each.id == id)
    closed, locked = gate.closed, gate.locked
    for place in sorted(acts.of_gate.get(id, ()), key=lambda one: acts.before[one].bit_count()):
        if done >> place & 1:
            change = acts.all[place].change
            closed = {"open": False, "close": True}.get(change or "", closed)
            locked = {"lock": True, "unlock": False}.get(change or "", locked)
    return closed or (gate.locks and not locked)


def reachable(site: Site, acts: Acts, zone: str) -> bool:
    """Whether gates that conduct in some state join a zone to a source."""
    found, grown = set(site.sources.values()), True
    while grown:
        grown = False
        for gate in site.gates:
            chain = acts.of_gate.get(gate.id, [])
            ever = any(conducts(acts, gate.id, site, sum(1 << one for one in chain[:n])) for n in range(len(chain) + 1))
            if ever and (gate.a in found) != (gate.b in found):
                found |= {gate.a, gate.b}
                grown = True
    return zone in found


def on(site: Site, acts: Acts, done: int, cover: str) -> bool:
    """Whether a cover is on in a state."""
    found = cover in site.covers
    for place in acts.of_cover.get(cover, ()):
        if done >> place & 1:
            found = bool(acts.all[place].covers)
    return found
