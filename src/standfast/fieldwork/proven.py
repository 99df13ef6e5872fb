"""What holds in every order that the steps allow, and not only in the one that is printed.

Three things are asked of every step with which hands reach to conductors. Everything that is opened was proved dead
before; no step that brings power is done before it; and no step that makes live what these hands reach into, though it
closes no switch: modules joined to busbars feed all conductors up to the first fuse or switch that is out or open. All
hold in every allowed order just where they follow from the ``after`` of the steps, so that no order has to be walked.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.fieldwork.steps import WorkStep


class Unsafe(NamedTuple):
    """A step of hands, and the one that some allowed order puts on its wrong side: the proof, or what makes live.

    `order` is the shortest that shows it: the steps that both need, and no other.
    """

    hands: str
    other: str
    order: tuple[str, ...]


def unsafe(steps: Sequence[WorkStep], dead: str) -> list[Unsafe]:
    """Every pair of steps that some allowed order puts so that hands may meet power; none where all orders are safe.

    Args:
        steps: in one allowed order.
        dead: id of the step that everything is proved dead with.
    """
    before: dict[str, set[str]] = {}
    for step in steps:
        before[step.id] = set(step.after).union(*(before[id] for id in step.after))
    place = {step.id: number for number, step in enumerate(steps)}
    found: list[Unsafe] = []
    for step in steps:
        if step.hands:
            own = (*sorted(before[step.id], key=place.__getitem__), step.id)
            found += [Unsafe(step.id, dead, own)] if dead not in before[step.id] else []
            for other in steps:
                if _makes_live(other, step) and step.id not in before[other.id]:
                    first = (*sorted(before[other.id], key=place.__getitem__), other.id)
                    found.append(Unsafe(step.id, other.id, tuple(dict.fromkeys((*first, *own)))))
    return found


def _makes_live(other: WorkStep, hands: WorkStep) -> bool:
    """True where a step brings power, or makes live a part that hands reach into."""
    return other.stage == "power" or bool(set(other.livens) & set(hands.reaches))
