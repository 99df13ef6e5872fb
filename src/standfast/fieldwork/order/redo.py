"""What has to be done again where something that was done is opened, exchanged or altered.

Who opens a terminal again makes its proof of dead, its torque and the tests of its conductors worth nothing, and with
them the check, the functional tests and the signature. Common practice of commissioning; no standard has the table.
"""

from collections.abc import Iterable, Sequence

from standfast.fieldwork.order.acts import Act, Acts, Group
from standfast.fieldwork.order.from_steps import step_of

ALWAYS: frozenset[Group] = frozenset({"check", "hand over"})
"""Looked at and signed again whatever was opened."""
WIRED: frozenset[Group] = ALWAYS | {"functional"}
"""Besides where hands were at a terminal."""
EXCHANGED: frozenset[Group] = WIRED | {"settings"}
"""Besides where a part of a device is another one: it has the maker's settings."""


def done_again(acts: Acts, steps: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """Of each step that opens, lands or exchanges something: the steps that count no longer where it is done again.

    Args:
        acts: the acts of the work; those of one step begin with its id.
        steps: ids of the steps, in their order.
    """
    everything, place = [act.id for act in acts.all], {id: number for number, id in enumerate(steps)}
    found: dict[str, set[str]] = {}
    for act in acts.all:
        if (act.touches or act.tightens or act.uncovers or act.fits) and not act.clears:
            lapsed = {step_of(each) for each in invalidated(acts, everything, act.id)} - {step_of(act.id)}
            found.setdefault(step_of(act.id), set()).update(lapsed)
    return {id: tuple(sorted(lapsed, key=place.__getitem__)) for id, lapsed in found.items() if lapsed}


def invalidated(acts: Acts, done: Iterable[str], event: str) -> tuple[str, ...]:
    """The acts that count no longer.

    Args:
        acts: the acts of the work.
        done: ids of those that are done.
        event: id of the act that is done once more: a cover off, a terminal opened, a part exchanged, a conductor
            altered.

    Returns:
        Ids of done acts that have to be done again besides, in their order: proofs of dead of what hands reach, the
        cover over it, joints of an exchanged part and every test, check and signature that came after the event.
    """
    places = {acts.number[id] for id in done} - {acts.number[event]}
    found, events = set[int](), [acts.number[event]]
    while events:
        again = acts.all[events.pop()]
        lapsed = {place for place in places - found if _lapses(acts, again, place)}
        found |= lapsed
        events += sorted(lapsed)  # what is done again is an event in its turn
    return tuple(acts.all[each].id for each in sorted(found, key=lambda one: (acts.before[one].bit_count(), one)))


def _lapses(acts: Acts, again: Act, place: int) -> bool:
    act = acts.all[place]
    if set(act.proves) & set(again.touches):
        return True  # also where it came before: it was fed since
    if again.clears or again.proves:
        return False  # a test alters nothing
    if not acts.precedes(acts.number[again.id], place):
        return False
    if act.covers and act.covers in (again.uncovers, *again.reaches, *(cover for _, cover in again.tightens)):
        return True
    if set(act.clears) & set(again.touches):
        return True
    if again.fits and any(joint.partition("/")[0] == again.fits for joint, _ in act.tightens):
        return True
    return bool(set(act.groups) & _groups(again))


def _groups(again: Act) -> frozenset[Group]:
    if again.fits:
        return EXCHANGED
    if again.touches or again.tightens:
        return WIRED
    return ALWAYS if again.uncovers else frozenset()
