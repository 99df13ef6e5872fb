"""Motors on the battery alone: how far the voltage falls on its circuit while one starts, and how long its peak lasts.

What falls inside the source itself is the maker's knowledge: the current for starting motors that he states answers for
it. Where he states none, nobody can tell how far the voltage falls.
"""

from collections.abc import Iterator, Sequence

from standfast.design.wiring import drop
from standfast.design.wiring.backup import together
from standfast.design.wiring.carried import backed_up, shed
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.load import speaker
from standfast.design.wiring.material import Material
from standfast.design.wiring.starting import Start, starting_currents
from standfast.design.wiring.unit import UnitCircuit
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, work, worst


def checks(task: Material, own: UnitCircuit, feeders: Sequence[Feeder]) -> Iterator[Check]:
    """Of one source: its circuit while the hardest motor starts; nothing where no backed-up circuit names a motor.

    Args:
        task: the job, asked about this source.
        own: its circuit.
        feeders: of all panels on the way of any source; those between source and motor count, others are not known.
    """
    if task.job.content.backup.mode not in ("circuits", "whole house"):
        return
    carried = backed_up(task.job)
    dropped = shed(task.job, carried)
    starts = starting_currents(task.nec, task.job, [each for each in carried if each not in dropped])
    if not starts:
        return
    yield _falls(task, own, feeders, starts)
    yield _lasts(task)


def _falls(task: Material, own: UnitCircuit, feeders: Sequence[Feeder], starts: list[Start]) -> Check:
    """With the locked-rotor current, not with the running one."""
    id, clause = f"wiring.start-drop/{task.unit}", task.handbook.clause("motor_start")
    title = "Voltage drop on the circuit of the source while the hardest motor starts"
    if speaker(task.job, task.sheets).left_out("electrical.motor_start_current"):
        need = f"electrical.motor_start_current of the {task.role}: how far its own voltage falls while a motor starts"
        return cannot_tell(id, title, clause, need)
    falls = worst("p_start_all", [_fall(task, own, feeders, each) for each in starts], "max")
    return at_most(id, title, clause, falls, task.handbook.number("start_drop_limit"))


def _fall(task: Material, own: UnitCircuit, feeders: Sequence[Feeder], start: Start) -> Value:
    """In per cent of the voltage that the motor is on."""
    share = work("I_share", "I_LR / n_units", "A", None, I_LR=start.current, n_units=_units(task))
    between = set(task.way_up(own.panel)) ^ set(task.way_up(start.panel))
    whole = [(each.part, start.current) for each in feeders if each.panel in between]
    volts = drop.in_row(task, "V_start", [(own.circuit.part, share), *whole]).volts
    neutral = start.circuit.phases == "line to neutral"
    of = task.job.fact("supply.voltage_to_ground" if neutral else "supply.voltage", "U", "V")
    return work("p_start_of_one", "V_start / U * 100", "%", task.handbook.clause("motor_start"), volts, of)


def _units(task: Material) -> Value:
    return together(task.job, speaker(task.job, task.sheets))


def _lasts(task: Material) -> Check:
    """What the source gives above its rating lasts until the motor has run up."""
    id, title = f"wiring.start-time/{task.unit}", "The peak of the source lasts until a motor runs"
    clause = task.handbook.clause("motor_start")
    return at_least(id, title, clause, task.own("peak_time", "t_peak", "s"), task.handbook.number("start_time"))
