"""The house on its battery alone: joints of neutral and ground, what ends a fault, what starts a motor."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.wiring import bonded, clearing, ground_faults, motor_supply, neutral_fed
from standfast.design.wiring.bonds import Bonds
from standfast.design.wiring.clearing import Clearing
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.unit import UnitCircuit
from standfast.sheet import Check


class Alone(NamedTuple):
    """What was found out: the joints in every state, and what ends a fault on every backed-up circuit."""

    bonds: Bonds = Bonds()
    clearing: tuple[Clearing, ...] = ()


def plan(task: Material) -> Alone:
    """Joints of neutral and ground in every state of the switches, and what ends a fault without the grid."""
    return Alone(bonded.bonds(task), clearing.table(task))


def checks(
    task: Material, found: Alone, units: Sequence[UnitCircuit], feeders: Sequence[Feeder]
) -> Iterator[Check]:  # fmt: skip
    """Every check on a house that its battery carries.

    Args:
        task: the job.
        found: from `plan`.
        units: the circuit of every source.
        feeders: of all panels on the way of any source.
    """
    yield from found.bonds.checks
    yield from ground_faults.checks(task, found.bonds)
    yield from clearing.checks(task, found.clearing)
    yield from neutral_fed.checks(task)
    for own in units:
        yield from motor_supply.checks(task._replace(unit=own.id), own, feeders)
