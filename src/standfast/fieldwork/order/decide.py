"""Which acts are unsafe in some order that the steps allow: hands on what is live, was never proved dead or is hidden.

A zone may be touched where, in every order, it is proved dead after it was last fed. Some order breaks that exactly
where a state is reachable that feeds the zone, in which every proof that the touch waits for is done already and the
touch is not. A zone that keeps a charge is proved dead only after somebody has waited since it was last fed: there each
wait that such a proof waits for takes the place of the proofs. What no source can ever reach needs no proof. Steps that
two people do at one time are covered: while hands are in a zone, every act that does not wait for theirs may be done.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from standfast.fieldwork.order.acts import Act, Acts, Site, members, set_of
from standfast.fieldwork.order.power import Fed, Power, Window, least, windows

Why = Literal[
    "cover off",
    "live",
    "not proved dead",
    "live again after the proof",
    "still charged",
    "cover on",
    "cover off at the end",
    "fed before its test",
    "before its turn",
    "joint not tight",
    "left in at the end",
    "apart at the end",
    "sensor open",
]


class Unsafe(NamedTuple):
    """An act that is unsafe in some order.

    Attributes:
        act: its id; empty for what is wrong at the end.
        what: the terminal or cover.
        why: what is wrong with it.
        order: the shortest order that shows it, the act itself last.
        source: what feeds the zone then; empty where that is not the point.
        gates: through which gates, from the source on.
    """

    act: str
    what: str
    why: Why
    order: tuple[str, ...]
    source: str = ""
    gates: tuple[str, ...] = ()


def unsafe(site: Site, acts: Acts) -> list[Unsafe]:
    """Every act and zone that some allowed order makes unsafe; none where all orders are safe."""
    power = Power(site, acts)
    found = [each for place, act in enumerate(acts.all) for each in _of_act(power, place, act)]
    return [*found, *_left_open(site, acts)]


def _of_act(power: Power, place: int, act: Act) -> Iterator[Unsafe]:
    for terminal in dict.fromkeys(act.touches):
        found = _touch(power, place, terminal)
        if found is not None:
            yield found
    for cover in dict.fromkeys(act.reaches):
        yield from _covered(power, place, cover, "cover on")
    for cover in dict.fromkeys(act.shut):
        yield from _covered(power, place, cover, "cover off")


def _covered(power: Power, place: int, cover: str, why: Why) -> Iterator[Unsafe]:
    """Whether a cover can be on, or off, while an act is done."""
    found = when_on(power.site, power.acts, cover, on=why == "cover on")
    state = least(power.acts, [found], power.acts.before[place], 1 << place) if found else None
    if state is not None:
        yield told(power.acts, place, cover, why, state)


def _touch(power: Power, place: int, terminal: str) -> Unsafe | None:
    acts, own, zone = power.acts, 1 << place, power.site.zone(terminal)
    if not power.ways(zone):
        return None
    before = acts.before[place]
    live = power.feeds(zone, before, own)
    if live is not None:
        return told(acts, place, terminal, "live", live.done, live)
    proofs = [each for each in members(before) if terminal in acts.all[each].proves]
    if not proofs:
        return told(acts, place, terminal, "not proved dead", before)
    again = power.feeds(zone, set_of(proofs), own)
    if again is not None:
        return told(acts, place, terminal, "live again after the proof", again.done, again)
    if zone in power.site.charged:
        counted = set_of(
            each
            for proof in proofs
            for each in members(acts.before[proof])
            if zone in map(power.site.zone, acts.all[each].waits)
        )
        charged = power.feeds(zone, counted, own)
        if charged is not None:
            return told(acts, place, terminal, "still charged", charged.done, charged)
    return None


def told(acts: Acts, place: int, what: str, why: Why, state: int, fed: Fed | None = None) -> Unsafe:
    """An act that is unsafe after a state, with the shortest order that shows it."""
    later = acts.before[place] & ~state
    order = (*acts.in_order(state), *acts.in_order(later), acts.all[place].id)
    source, gates = ("", ()) if fed is None else (fed.source, fed.gates)
    return Unsafe(acts.all[place].id, what, why, order, source, gates)


def when_on(site: Site, acts: Acts, cover: str, *, on: bool = True) -> list[Window]:
    """When a cover is on, or when it is off."""
    changes = [(place, bool(acts.all[place].covers) == on) for place in acts.of_cover.get(cover, ())]
    return windows(changes, (cover in site.covers) == on)


def _left_open(site: Site, acts: Acts) -> Iterator[Unsafe]:
    """Covers that are off when everything is done."""
    for cover in dict.fromkeys((*site.covers, *acts.of_cover)):
        on = when_on(site, acts, cover)
        if cover in acts.of_cover and cover not in site.temporary and not (on and on[-1].ends == -1):
            last = acts.of_cover[cover][-1]
            yield Unsafe("", cover, "cover off at the end", (*acts.in_order(acts.before[last]), acts.all[last].id))
