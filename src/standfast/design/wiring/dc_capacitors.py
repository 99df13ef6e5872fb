"""Capacitors beyond the contacts of a battery: charged softly before these close, dangerous after they open."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import direct_current
from standfast.sheet import Check, Value, cannot_tell, chosen, is_, not_applicable

NEITHER = (
    "neither charges the capacitors of the inverter before the contacts close: the arc welds contacts and fuses open, "
    "see the instructions of both makers for what else does it"
)
BY_HAND = "by hand, as the maker describes, each time before the battery is switched on"
NO_CHARGE = "no capacitors stay charged, as both makers state"


def checks(task: Material, unit: str) -> Iterator[Check]:
    """Pre-charge, and the wait until the capacitors are discharged.

    Args:
        task: the job.
        unit: name of the battery.
    """
    yield _precharge(task, unit)
    yield _wait(task, unit)


def wait(task: Material) -> Value | None:
    """How long to wait after everything is switched off, in s; None where nothing stays charged.

    Missing where the sheets do not say whether, or how long.
    """
    charged = direct_current.any_of("charged", [_charged(task, role) for role in ("inverter", "battery")])
    if charged.missing:
        return charged
    if not charged.yes:
        return None
    times = [_time(task, role) for role in ("inverter", "battery") if _charged(task, role).number is True]
    lacking = next((each for each in times if each.missing), None)
    return lacking if lacking is not None else max(times, key=lambda each: each.quantity)


def _charged(task: Material, role: str) -> Value:
    return task.of(role, "dc.capacitance_charged", "charged")


def _time(task: Material, role: str) -> Value:
    return task.of(role, "dc.discharge_time", "t_wait", "s")


def _precharge(task: Material, unit: str) -> Check:
    id, title = f"wiring.dc-precharge/{unit}", "Capacitors of the inverter are charged before the contacts close"
    clause = task.nec.clause("listed_use")
    ways = [task.of(role, "dc.precharge", "precharge") for role in ("battery", "inverter")]
    words = [str(each.number) for each in ways if not each.missing]
    for word in ("built in", "by hand"):
        if word in words:
            found = next(each for each in ways if each.number == word)
            return Check(id, title, clause, "pass", demand=found, condition=BY_HAND if word == "by hand" else "")
    lacking = next((each for each in ways if each.missing), None)
    if lacking is not None:
        return cannot_tell(id, title, clause, lacking.how, lacking)
    return Check(id, title, clause, "fail", demand=ways[0], reason=NEITHER)


def _wait(task: Material, unit: str) -> Check:
    id, title = f"wiring.dc-discharge-wait/{unit}", "How long capacitors stay charged is known to whoever opens a cover"
    clause, time = task.nec.clause("listed_use"), wait(task)
    if time is None:
        return not_applicable(id, title, clause, NO_CHARGE)
    if time.missing:
        return cannot_tell(id, title, clause, time.how, time)
    known = chosen("known", True, "", "the wait is stated", None, time)
    yes = chosen("needed", True, "", "somebody opens a cover", clause)
    return is_(id, title, clause, known, yes, condition=told(time))


def told(time: Value) -> str:
    """The wait in words."""
    minutes, seconds = divmod(round(time.quantity), 60)
    words = f"{minutes} min" + (f" {seconds} s" if seconds else "") if minutes else f"{seconds} s"
    return f"after everything is switched off, wait {words}, then prove dead; the wait alone proves nothing"
