"""The oracle: every state that some order of the acts leads to, walked one by one."""

from collections import deque
from typing import NamedTuple

from standfast.fieldwork.order.acts import GROUPS, Act, Acts, Gate, Site

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


def by_position(site: Site) -> Site:
    """The same site, in which a gate parts while it is open, locked or not."""
    return site._replace(gates=tuple(gate._replace(locks=False, locked=False) for gate in site.gates))


def walk_sequence(site: Site, acts: Acts) -> set[tuple[str, str, str]]:
    """What some order does out of sequence: why, act and what; of a sensor without the act."""
    plain, broken = by_position(site), set[tuple[str, str, str]]()
    queue, known = deque([0]), {0}
    while queue:
        done = queue.popleft()
        broken |= {("test", act.id, zone) for act, zone in _fed_untested(plain, acts, done)}
        live = fed(site, acts, done)
        for each in site.sensors:
            shorted = on(site, acts, done, each.secondary) or (each.shorting and on(site, acts, done, each.shorting))
            if each.zone in live and on(site, acts, done, each.around) and not shorted:
                broken.add(("sensor", "", each.secondary))
        for place, act in enumerate(acts.all):
            if done >> place & 1 or acts.before[place] & ~done:
                continue
            broken |= {("turn", act.id, other) for other in _skipped(acts, place, done)}
            broken |= {("joint", act.id, joint) for joint in _loose(acts, place, done)}
            if done | 1 << place not in known:
                known.add(done | 1 << place)
                queue.append(done | 1 << place)
    return broken


def _fed_untested(site: Site, acts: Acts, done: int) -> set[tuple[Act, str]]:
    """Tests that are not done though a way to their conductors goes through a gate that the work closed."""
    found = set[tuple[Act, str]]()
    for place, act in enumerate(acts.all):
        if act.clears and not done >> place & 1:
            for terminal in act.clears:
                if _through_work(site, acts, done, site.zone(terminal)):
                    found.add((act, site.zone(terminal)))
    return found


def _through_work(site: Site, acts: Acts, done: int, zone: str) -> bool:
    """Whether some way from a source to a zone conducts and has a gate that an act of the work closed."""
    ways = [(zone, frozenset({zone}), False)]
    while ways:
        here, seen, worked = ways.pop()
        if here in site.sources.values():
            if worked:
                return True
            continue  # a way through another source is that source's own
        for gate in site.gates:
            there = gate.b if gate.a == here else gate.a if gate.b == here else None
            if there is not None and there not in seen and conducts(acts, gate.id, site, done):
                closed = worked or _closed_by_work(acts, gate, done)
                ways.append((there, seen | {there}, closed))
    return False


def _closed_by_work(acts: Acts, gate: Gate, done: int) -> bool:
    """Whether a gate that conducts was open before one of the acts that are done."""
    closed, by_work = gate.closed, False
    for place in sorted(acts.of_gate.get(gate.id, ()), key=lambda one: acts.before[one].bit_count()):
        if done >> place & 1:
            after = {"open": False, "close": True}.get(acts.all[place].change or "", closed)
            by_work = (by_work or not closed) if after else False
            closed = after
    return by_work


def _skipped(acts: Acts, place: int, done: int) -> set[str]:
    """Acts of an earlier group that are not done when an act begins."""
    own = acts.all[place].groups
    return {
        each.id
        for other, each in enumerate(acts.all)
        if own and each.groups and not done >> other & 1 and other != place
        and max(map(GROUPS.index, each.groups)) < min(map(GROUPS.index, own))
    }  # fmt: skip


def _loose(acts: Acts, place: int, done: int) -> set[str]:
    """Joints that are not tight when the cover over them is fitted for the last time."""
    act = acts.all[place]
    chain = [each for each in acts.of_cover.get(act.covers, ()) if acts.all[each].covers] if act.covers else []
    if not chain or max(chain, key=lambda one: acts.before[one].bit_count()) != place:
        return set()
    return {
        joint
        for other, each in enumerate(acts.all)
        for joint, cover in each.tightens
        if cover == act.covers and other != place and not done >> other & 1
    }
