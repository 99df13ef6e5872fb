"""What belongs together over a night: steps of which none is done on a day without the others.

Nobody goes home while a cover is off, a circuit of the house is dark, a proof of dead is still relied on, a load hangs
half put up or half taken down, or what has power was not tested. Each of these ties one step to a later one. With
precedence the ties make rings; a ring is a block, and the work can rest between blocks and nowhere else.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from standfast.fieldwork.crew.off import Off
from standfast.fieldwork.order.acts import Acts
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.steps import WorkStep

Tie = tuple[str, str]
"""Ids of two steps: who does the first does the second on the same day."""


def ties(steps: Sequence[WorkStep], acts: Acts, off: Iterable[Off], darkening: Iterable[str]) -> list[Tie]:
    """What ties steps together.

    Args:
        steps: of the work.
        acts: of the same steps.
        off: stretches without power in a schedule of them.
        darkening: gates whose opening alone leaves a circuit without power.
    """
    gates = set(darkening)
    found = [*_covers(acts), *_proofs(acts), *_lifts(steps), *_power(steps)]
    found += [tie for gate, chain in acts.of_gate.items() if gate in gates for tie in _opened(acts, chain)]
    return [*found, *((each.by, each.back) for each in off if each.back)]


def _covers(acts: Acts) -> Iterator[Tie]:
    """A cover that comes off goes on again."""
    for chain in acts.of_cover.values():
        for place, later in pairwise(chain):
            if acts.all[place].uncovers and acts.all[later].covers:
                yield step_of(acts.all[place].id), step_of(acts.all[later].id)


def _opened(acts: Acts, chain: Sequence[int]) -> Iterator[Tie]:
    for place, later in enumerate(chain):
        if acts.all[later].change == "open":
            closes = [each for each in chain[place + 1 :] if acts.all[each].change == "close"][:1]
            yield from ((step_of(acts.all[later].id), step_of(acts.all[each].id)) for each in closes)


def _proofs(acts: Acts) -> Iterator[Tie]:
    """A proof of dead is worth nothing on the next morning."""
    proofs = [(place, set(act.proves)) for place, act in enumerate(acts.all) if act.proves]
    for later, act in enumerate(acts.all):
        for place, proved in proofs:
            if proved & set(act.touches) and acts.precedes(place, later):
                yield step_of(acts.all[place].id), step_of(act.id)


def _lifts(steps: Sequence[WorkStep]) -> Iterator[Tie]:
    """What two people lift is held by its last joint on the same day; what is taken down is put aside."""
    for stage in ("hang", "put in", "take down"):
        of_device: dict[str, list[WorkStep]] = {}
        for step in steps:
            device = _device(step)
            if step.stage == stage and device:
                of_device.setdefault(device, []).append(step)
        for own in of_device.values():
            lifted = next((place for place, step in enumerate(own) if _lifts_a_load(step)), None)
            if lifted is not None:
                yield from ((step.id, own[-1].id) for step in own[lifted:])
                yield from ((own[lifted].id, step.id) for step in own[lifted:])


def _device(step: WorkStep) -> str:
    """The device whose part a step fits or takes down; empty where it is of none."""
    if step.id.startswith("undo."):
        return step.id.split(".")[1]
    if step.id.startswith("aside."):
        return step.id.removeprefix("aside.")
    return step.id.partition(".")[0] if step.source == "data sheet" else ""


def _lifts_a_load(step: WorkStep) -> bool:
    return step.people.isdecimal() and int(step.people) > 1


def _power(steps: Sequence[WorkStep]) -> Iterator[Tie]:
    """What has power is tested on the same day: the house after its supply came back, a unit after it was started."""
    tests = [step for step in steps if step.stage == "prove"]
    live = [step for step in tests if "live tests" in step.groups]
    for step in steps:
        if step.stage == "power":
            due = tests if "supply" not in step.groups else [] if "live tests" in step.groups else live
            yield from ((step.id, each.id) for each in due)


def blocks(steps: Sequence[WorkStep], tied: Iterable[Tie]) -> list[tuple[str, ...]]:
    """The steps in blocks, each with its steps in their order; a block comes after those that it waits for.

    Args:
        steps: of the work, in an order that respects what they wait for.
        tied: what ties them.
    """
    ways: dict[str, list[str]] = {step.id: list(step.after) for step in steps}
    for first, then in tied:
        ways[first].append(then)
    ring = _rings(ways)
    found: dict[int, list[str]] = {}
    for step in steps:
        found.setdefault(ring[step.id], []).append(step.id)
    # a ring gets its number when all rings that it waits for have theirs
    return [tuple(found[number]) for number in sorted(found)]


def _rings(ways: Mapping[str, Sequence[str]]) -> dict[str, int]:
    """The number of the ring of each step: those that reach each other have one. (Tarjan, without recursion.)"""
    place, low, ring = dict[str, int](), dict[str, int](), dict[str, int]()
    held = list[str]()
    for start in ways:
        if start in place:
            continue
        place[start] = low[start] = len(place)
        held.append(start)
        trail = [(start, iter(ways[start]))]
        while trail:
            here, rest = trail[-1]
            there = next(rest, None)
            if there is None:
                trail.pop()
                if trail:
                    low[trail[-1][0]] = min(low[trail[-1][0]], low[here])
                if low[here] == place[here]:
                    number = len(set(ring.values()))
                    while here not in ring:
                        ring[held.pop()] = number
            elif there not in place:
                place[there] = low[there] = len(place)
                held.append(there)
                trail.append((there, iter(ways[there])))
            elif there not in ring:
                low[here] = min(low[here], place[there])
    return ring
