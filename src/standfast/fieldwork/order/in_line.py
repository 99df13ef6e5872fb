"""One order in which the steps can be done.

The order respects every `after`. Where several steps are ready, the one of the earlier part of the day goes first, and
within a part the one that was listed first. What holds in every other allowed order is asked by `proven`.
"""

import heapq
from collections.abc import Sequence

from standfast.faults import BadFormula
from standfast.fieldwork.steps import STAGES, WorkStep


def ordered(steps: Sequence[WorkStep], stages: Sequence[str] = STAGES) -> list[WorkStep]:
    """The steps in order.

    Args:
        steps: the steps.
        stages: parts of the work, in the order in which they come.

    Raises:
        BadFormula: where two steps have one id, a step waits for one that is not there, or steps wait for each other.
    """
    place = {step.id: number for number, step in enumerate(steps)}
    if len(place) != len(steps):
        raise BadFormula("two steps of the work have one id")
    waiting = {step.id: len(set(step.after)) for step in steps}
    followers: dict[str, list[str]] = {step.id: [] for step in steps}
    for step in steps:
        for before in set(step.after):
            if before not in place:
                raise BadFormula(f"step {step.id} waits for {before}, which is no step")
            followers[before].append(step.id)
    ready = [(stages.index(step.stage), place[step.id]) for step in steps if not step.after]
    heapq.heapify(ready)
    found: list[WorkStep] = []
    while ready:
        step = steps[heapq.heappop(ready)[1]]
        found.append(step)
        for follower in followers[step.id]:
            waiting[follower] -= 1
            if not waiting[follower]:
                next_step = steps[place[follower]]
                heapq.heappush(ready, (stages.index(next_step.stage), place[follower]))
    if len(found) < len(steps):
        stuck = ", ".join(sorted(set(place) - {step.id for step in found}))
        raise BadFormula(f"these steps wait for each other: {stuck}")
    return found
