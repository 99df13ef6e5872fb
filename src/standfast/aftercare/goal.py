"""Whether a removal, done step by step in the model, reaches its goal: nothing of the battery left, the house fed."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.aftercare.removal import Removal
from standfast.design.installation.graph import Installation


class Reached(NamedTuple):
    """The house after some order of the steps.

    Attributes:
        left: parts of the battery that are still there.
        closed: switches of its circuit that are still there and closed.
        unfed: loads of the house that the utility does not feed.
        locked: switches that stay and still carry a lock.
    """

    left: tuple[str, ...]
    closed: tuple[str, ...]
    unfed: tuple[str, ...]
    locked: tuple[str, ...]


def reached(removal: Removal, order: Sequence[str]) -> Reached:
    """Do the steps in an order, and look.

    Args:
        removal: the removal.
        order: ids of its steps, every one after those it waits for.
    """
    state = {gate.id: (gate.closed, gate.locked) for gate in removal.decided.house.site.gates}
    steps = {each.id: each for each in removal.steps}
    done = set[str]()
    for id in order:
        for turn in steps[id].turns:
            closed, locked = state[turn.gate]
            closed = {"open": False, "close": True}.get(turn.change, closed)
            locked = {"lock": True, "unlock": False}.get(turn.change, locked)
            state[turn.gate] = (closed, locked)
        done.add(id)
    stays = removal.leaves.graph
    left = tuple(part.id for part in removal.leaves.parts if removal.taken.get(part.id, "") not in done)
    joined = not any(part.id in left for part in removal.leaves.bypassed)
    opened = frozenset(id for id, (shut, _) in state.items() if not shut and id in stays.parts)
    unfed = tuple(_unfed(stays, opened)) if joined else _loads(stays)
    still = tuple(id for id in left if state.get(id, (False, False))[0])
    return Reached(left, still, unfed, tuple(id for id, (_, lock) in state.items() if lock and id in stays.parts))


def _loads(stays: Installation) -> tuple[str, ...]:
    """Every load: where a feeder was not joined through, none counts as fed."""
    return tuple(part.id for part in stays.of_kind("load"))


def _unfed(stays: Installation, opened: frozenset[str]) -> list[str]:
    """Loads that no utility feeds."""
    fed = {id for grid in stays.of_kind("utility") for id in stays.reached(grid.id, opened)}
    return [part.id for part in stays.of_kind("load") if part.id not in fed]
