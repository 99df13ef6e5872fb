"""What holds in every order that the steps allow, and not only in the one that is printed.

Two things are asked of every step with which hands reach to conductors. Everything that is opened was proved dead
before; and no step that brings power is done before it. Both hold in every allowed order just where they follow from
the ``after`` of the steps, so that no order has to be walked.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.fieldwork.steps import WorkStep


class Unsafe(NamedTuple):
    """A step of hands, and the one that some allowed order puts on its wrong side: the proof, or a step of power."""

    hands: str
    other: str


def unsafe(steps: Sequence[WorkStep], dead: str) -> list[Unsafe]:
    """Every pair of steps that some allowed order puts so that hands may meet power; none where all orders are safe.

    Args:
        steps: in one allowed order.
        dead: id of the step that everything is proved dead with.
    """
    before: dict[str, set[str]] = {}
    for step in steps:
        before[step.id] = set(step.after).union(*(before[id] for id in step.after))
    power = [step.id for step in steps if step.stage == "power"]
    found: list[Unsafe] = []
    for step in steps:
        if step.hands:
            found += [Unsafe(step.id, dead)] if dead not in before[step.id] else []
            found += [Unsafe(step.id, each) for each in power if step.id not in before[each]]
    return found
