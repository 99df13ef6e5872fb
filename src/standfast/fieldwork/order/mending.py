"""The smallest extra precedence that makes an unsafe act safe: one more *after*, or two, each tried."""

from collections.abc import Iterator
from itertools import combinations

from standfast.faults import BadFormula
from standfast.fieldwork.order.acts import Acts, Site
from standfast.fieldwork.order.decide import Unsafe
from standfast.fieldwork.order.sequence import proven

Wait = tuple[str, str]
"""An act, and the one that it has to wait for besides."""
PAIRS = 60
"""Pairs that are tried where no single one is enough, at most."""


def mending(site: Site, acts: Acts, found: Unsafe) -> tuple[Wait, ...]:
    """What an unsafe act, or another, has to wait for besides.

    Args:
        site: where power can flow.
        acts: the acts.
        found: what is unsafe.

    Returns:
        One more wait, or two, after which this is safe and nothing is unsafe that was not; empty where there is none.
    """
    if not found.act:
        return ()
    single = list(dict.fromkeys(_candidates(site, acts, found)))
    known = {(each.act, each.what) for each in proven(site, acts)}
    for waits in (*((each,) for each in single), *list(combinations(single, 2))[:PAIRS]):
        try:
            after = {(each.act, each.what) for each in proven(site, with_waits(acts, waits))}
        except BadFormula:
            continue
        if (found.act, found.what) not in after and after <= known:
            return waits
    return ()


def with_waits(acts: Acts, waits: tuple[Wait, ...]) -> Acts:
    """The acts with more precedence.

    Raises:
        BadFormula: where they would wait for each other.
    """
    more: dict[str, tuple[str, ...]] = {}
    for act, before in waits:
        more[act] = (*more.get(act, ()), before)
    return Acts(each._replace(after=(*each.after, *more.get(each.id, ()))) for each in acts.all)


def _candidates(site: Site, acts: Acts, found: Unsafe) -> Iterator[Wait]:
    """Single waits that could help, the likeliest first."""
    here = acts.number[found.act]
    if found.why == "before its turn":
        yield found.act, found.what
        return
    if found.why == "joint not tight":
        yield from ((found.act, each.id) for each in acts.all if found.what in (joint for joint, _ in each.tightens))
        return
    if found.why == "sensor open":
        yield from _for_sensor(site, acts, found)
        return
    proofs = [each.id for each in acts.all if found.what in each.proves]
    if found.why in ("cover on", "cover off"):
        for place in acts.of_cover.get(found.what, ()):
            fitted = bool(acts.all[place].covers) == (found.why == "cover on")
            yield (acts.all[place].id, found.act) if fitted else (found.act, acts.all[place].id)
        return
    changes = [acts.all[place] for gate in found.gates for place in acts.of_gate.get(gate, ())]
    off = [each.id for each in changes if each.change in ("open", "lock")]
    on = [each.id for each in changes if each.change in ("close", "unlock")]
    before = {acts.all[place].id for place in range(len(acts)) if acts.precedes(place, here)}
    yield from ((each, found.act) for each in on if each not in before)
    yield from ((found.act, each) for each in (*off, *proofs) if each not in before and each != found.act)
    yield from ((proof, each) for proof in proofs for each in off)
    waits = [each.id for each in acts.all if found.what in each.waits]
    yield from ((proof, each) for proof in proofs for each in waits)
    yield from ((wait, each) for wait in waits for each in off)


def _for_sensor(site: Site, acts: Acts, found: Unsafe) -> Iterator[Wait]:
    """The secondary is joined before the transformer is fitted, or before power comes; parted after power went."""
    sensor = next(each for each in site.sensors if each.secondary == found.what)
    joins = [acts.all[place].id for place in acts.of_cover.get(sensor.secondary, ()) if acts.all[place].covers]
    parts = [acts.all[place].id for place in acts.of_cover.get(sensor.secondary, ()) if acts.all[place].uncovers]
    fitted = [acts.all[place].id for place in acts.of_cover.get(sensor.around, ()) if acts.all[place].covers]
    taken = [acts.all[place].id for place in acts.of_cover.get(sensor.around, ()) if acts.all[place].uncovers]
    changes = [acts.all[place] for gate in found.gates for place in acts.of_gate.get(gate, ())]
    on = [each.id for each in changes if each.change in ("close", "unlock")]
    off = [each.id for each in changes if each.change in ("open", "lock")]
    yield from ((late, early) for early in joins for late in (*fitted, *on))
    yield from ((late, early) for late in parts for early in (*taken, *off))
    yield from ((late, early) for late in fitted for early in off)
