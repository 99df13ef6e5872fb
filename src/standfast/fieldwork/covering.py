"""Whether the firm's own tools reach: every torque of the job in the range of one, every due test read with one."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from standfast.commissioning.due_test import DueTest
from standfast.faults import Fault
from standfast.fieldwork.instruments import READERS, due, instruments, least_voltage
from standfast.fieldwork.joints import Joint, joints
from standfast.fieldwork.of_firm import called, in_calibration
from standfast.fieldwork.plan import Plan
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check, at_least, cannot_tell, chosen, given
from standfast.shelf import Edition
from standfast.survey.firm import MEASURING, TORQUE, Firm, FirmFile, FirmTool
from standfast.units import show

LISTED = "list them under [[tools]] in firm.toml"


class Gap(NamedTuple):
    """A torque or test that no tool of the firm does.

    Attributes:
        kind: ``open`` where a word of the firm file would settle it, ``short`` where what is written does not reach.
        path: of the word that is missing or does not reach.
        what: the torque with its joints, or the instrument with its tests, and what the tools are.
        todo: what to do.
    """

    kind: Literal["open", "short"]
    path: Path
    what: str
    todo: str


def checks(firm: FirmFile, plan: Plan) -> Iterator[Check]:
    """One check on the torque tools and one for each instrument that the due tests ask.

    A firm file that lists no torque tool, or no instrument, is asked for them. What none of those that it lists reaches
    fails; where a range, a voltage or a date of calibration is not written down it *cannot be told*.
    """
    tools = firm.firm.tools
    stated = [joint for joint in joints(plan) if not joint.torque.missing]
    id, title = "fieldwork.torque-tools", "Every torque of the job lies in the range of a torque tool of the firm"
    clause = plan.practice.clause("torque_tools")
    if stated and not any(tool.kind in TORQUE for tool in tools):
        words = "torque tools of the firm with torque_min, torque_max and calibrated_until"
        yield cannot_tell(id, title, clause, f"tools: {words}: {LISTED}; the job asks {_torques(stated)}")
    else:
        gaps = _torque_gaps(firm, plan, joints(plan))
        covered = float(len(stated) - sum(len(found) for found, _ in gaps))
        number = chosen("n_covered", covered, "1", "joints in the range of a tool of the firm", clause)
        every = given("n_joint", float(len(stated)), "1", "joints with a stated torque")
        yield _told(firm, [gap for _, gap in gaps], at_least(id, title, clause, number, every))
    asked = {name: [test.id for test in tests] for name, tests in due(plan).items() if name not in READERS}
    if asked and not any(tool.kind in MEASURING for tool in tools):
        names = "; ".join(f"{name} (tests {', '.join(tests)})" for name, tests in asked.items())
        need = f"tools: instruments of the firm with rated_voltage and calibrated_until: {LISTED}; the job asks {names}"
        title = "The firm has the instruments for the tests of the job"
        yield cannot_tell("fieldwork.instruments", title, plan.practice.clause("calibration"), need)
        return
    for instrument, tests in asked.items():
        yield _instrument(firm, plan, instrument, tests)


def faults(
    firm: FirmFile, plan: Plan, tightened: Sequence[Joint] | None = None, tests: Iterable[DueTest] | None = None
) -> list[Fault]:  # fmt: skip
    """Torques and tests of a work that no tool listed in the firm file does, each at the word that falls short.

    Args:
        firm: the firm file.
        plan: the job.
        tightened: the joints that the work tightens; None for all of the installation.
        tests: the tests that it does; None for those of the installation.
    """
    found = [gap for _, gap in _torque_gaps(firm, plan, joints(plan) if tightened is None else tightened)]
    if any(tool.kind in MEASURING for tool in firm.firm.tools):
        read = due(plan) if tests is None else instruments(plan, tests)
        asked = {name: tests for name, tests in read.items() if name not in READERS}
        every = (_instrument_gap(firm, plan, name, [each.id for each in tests]) for name, tests in asked.items())
        found += [gap for gap in every if gap is not None]
    return [firm.fault(gap.path, gap.what, "", gap.todo) for gap in found if gap.kind == "short"]


def ends_nm(practice: Edition, tool: FirmTool) -> tuple[float, float] | None:
    """The torques that a tool is used for, N·m: from its least setting, and not below a share of its greatest.

    None where its greatest setting is not written down: nobody knows what it covers.
    """
    if tool.torque_max is None:
        return None
    greatest = amount(tool.torque_max, "N·m")
    share = practice.number("torque_tool_least").quantity / 100
    least = 0.0 if tool.torque_min is None else amount(tool.torque_min, "N·m")
    return max(least, share * greatest), greatest


def best(firm: Firm, plan: Plan, torque_nm: float) -> FirmTool | None:
    """Of the torque tools that cover a torque and are in calibration the one that has it nearest its middle."""
    day = plan.survey.job.job.date
    found: list[tuple[float, str, FirmTool]] = []
    for tool in (each for each in firm.tools if each.kind in TORQUE and in_calibration(each, day)):
        ends = ends_nm(plan.practice, tool)
        if ends is not None and ends[0] <= torque_nm <= ends[1]:
            middle = (ends[0] + ends[1]) / 2
            off = torque_nm - middle if torque_nm > middle else middle - torque_nm
            found.append((off / (ends[1] - ends[0]), tool.id, tool))
    return min(found, key=lambda each: each[:2])[2] if found else None


def functions_of(tool: FirmTool) -> Sequence[str]:
    """The instruments that a tool is."""
    return tool.functions if tool.kind == "multifunction tester" else (tool.kind,)


def reads(tool: FirmTool, plan: Plan, instrument: str) -> bool:
    """Whether a tool of the firm is the instrument, made for the voltage, and in calibration on the day of the job."""
    needed = least_voltage(plan, instrument)
    if instrument not in functions_of(tool) or tool.rated_voltage is None or needed.missing:
        return False
    return amount(tool.rated_voltage, "V") >= needed.quantity and in_calibration(tool, plan.survey.job.job.date)


def _torque_gaps(firm: FirmFile, plan: Plan, every: Sequence[Joint]) -> list[tuple[list[Joint], Gap]]:
    """Joints of one torque that no tool covers, with what is wrong; nothing where the firm lists no torque tool."""
    if not any(tool.kind in TORQUE for tool in firm.firm.tools):
        return []
    alike: dict[str, list[Joint]] = {}
    for joint in every:
        if not joint.torque.missing and best(firm.firm, plan, joint.torque.quantity) is None:
            alike.setdefault(joint.shown, []).append(joint)
    return [(found, _of_torque(firm, plan, found)) for found in alike.values()]


def _of_torque(firm: FirmFile, plan: Plan, found: list[Joint]) -> Gap:
    """Why no tool does a torque: a word is missing, a tool that covers it is out of calibration, or none reaches."""
    torque, asked = found[0].torque, _torques(found)
    own = [(at, tool) for at, tool in enumerate(firm.firm.tools) if tool.kind in TORQUE]
    there = f"the torque tools of the firm are {', '.join(_ranged(tool) for _, tool in own)}"
    for at, tool in own:
        word = _open_word(plan, tool, torque.quantity)
        if word:
            what = f"{asked}: whether {called(tool)} covers it is not known"
            return Gap("open", ("tools", at, word), what, f"write {word} of {tool.id}, or list a tool that covers it")
    for at, tool in own:
        if _within(tool, torque.quantity) and tool.calibrated_until is not None:
            until, day = tool.calibrated_until.isoformat(), plan.survey.job.job.date.isoformat()
            what = f"{asked}: {called(tool)} covers it, its calibration ended {until}, the job is dated {day}"
            todo = f"have it calibrated, or list a tool in calibration; {there}"
            return Gap("short", ("tools", at, "calibrated_until"), what, todo)
    at, word = min((_short_by(tool, torque.quantity), (at, _short_word(tool, torque.quantity))) for at, tool in own)[1]
    what = f"no tool covers {asked}: {there}"
    return Gap(
        "short", ("tools", at, word), what, "bring one that covers it and list it with its range, or correct the range"
    )


def _open_word(plan: Plan, tool: FirmTool, torque_nm: float) -> str:
    """The word of a tool without which nobody knows whether it does a torque; empty where what is written settles it.

    Where its least setting is not written, the lowest part of its range is open: usual tools do not reach there.
    """
    if tool.torque_max is None:
        below = tool.torque_min is not None and torque_nm < amount(tool.torque_min, "N·m")
        return "" if below else "torque_max"
    if not _within(tool, torque_nm):
        return ""
    if tool.calibrated_until is None:
        return "calibrated_until"
    ends = ends_nm(plan.practice, tool)
    low = ends is not None and torque_nm < ends[0]
    return "torque_min" if low and in_calibration(tool, plan.survey.job.job.date) else ""


def _within(tool: FirmTool, torque_nm: float) -> bool:
    """Whether a torque lies between the ends that are written down."""
    least = 0.0 if tool.torque_min is None else amount(tool.torque_min, "N·m")
    return tool.torque_max is not None and least <= torque_nm <= amount(tool.torque_max, "N·m")


def _short_word(tool: FirmTool, torque_nm: float) -> str:
    return "torque_max" if tool.torque_max is not None and torque_nm > amount(tool.torque_max, "N·m") else "torque_min"


def _short_by(tool: FirmTool, torque_nm: float) -> float:
    """By how much a tool misses a torque, N·m."""
    most = 0.0 if tool.torque_max is None else amount(tool.torque_max, "N·m")
    least = 0.0 if tool.torque_min is None else amount(tool.torque_min, "N·m")
    return max(torque_nm - most, least - torque_nm)


def _ranged(tool: FirmTool) -> str:
    """A torque tool with its ends as they are written."""
    least = "?" if tool.torque_min is None else tool.torque_min.text
    most = "?" if tool.torque_max is None else tool.torque_max.text
    return f"{called(tool)} ({least} to {most})"


def _torques(found: Sequence[Joint]) -> str:
    """Torques with their joints, each with the place that states it: ``9 N·m (79.7 lbf·in) (Battery 1: …)``."""
    by_torque: dict[str, list[str]] = {}
    for joint in found:
        by_torque.setdefault(joint.shown, []).append(f"{joint.name}, {joint.torque.how}")
    return "; ".join(f"{shown} ({'; '.join(names)})" for shown, names in by_torque.items())


def _told(firm: FirmFile, gaps: Sequence[Gap], check: Check) -> Check:
    """The check with what is wrong: what cannot be told goes before what fails, since a word may settle it."""
    unknown = [gap for gap in gaps if gap.kind == "open"]
    if unknown:
        need = "; ".join(f"tools: {gap.what}: {gap.todo}" for gap in unknown)
        return cannot_tell(check.id, check.title, check.clause, need)
    reason = "; ".join(str(firm.fault(gap.path, gap.what, "", gap.todo)) for gap in gaps)
    return check._replace(reason=reason) if gaps else check


def _instrument(firm: FirmFile, plan: Plan, instrument: str, tests: list[str]) -> Check:
    id, listed = f"fieldwork.instrument/{instrument.replace(' ', '-')}", ", ".join(tests)
    title = f"The firm has a {instrument} for the tests of the job"
    clause = plan.practice.clause("calibration")
    ours = [tool for tool in firm.firm.tools if reads(tool, plan, instrument)]
    gap = _instrument_gap(firm, plan, instrument, tests)
    number = chosen("n_tool", float(len(ours)), "1", ", ".join(tool.id for tool in ours) or "none", clause)
    check = at_least(id, title, clause, number, given("n_least", 1.0, "1", f"tests {listed}"))
    return _told(firm, [gap] if gap is not None else [], check)


def _instrument_gap(firm: FirmFile, plan: Plan, instrument: str, tests: list[str]) -> Gap | None:
    """Why no tool of the firm reads a test; None where one does."""
    every = firm.firm.tools
    if any(reads(tool, plan, instrument) for tool in every):
        return None
    asked, needed = f"{instrument}, asked by tests {', '.join(tests)}", least_voltage(plan, instrument)
    own = [(at, tool) for at, tool in enumerate(every) if instrument in functions_of(tool)]
    todo = "bring one that does, in calibration on the day, and list it with its rated_voltage"
    if not own:
        there = ", ".join(called(tool) for tool in every if tool.kind in MEASURING)
        return Gap("short", ("tools",), f"no tool is the {asked}: the instruments of the firm are {there}", todo)
    for at, tool in own:
        word = "rated_voltage" if tool.rated_voltage is None else "calibrated_until"
        if tool.rated_voltage is None or tool.calibrated_until is None or needed.missing:
            what = f"{asked}: whether {called(tool)} does is not known"
            told = needed.how if needed.missing else f"write {word} of {tool.id}"
            return Gap("open", ("tools", at, word), what, told)
    at, tool = own[0]
    if tool.rated_voltage is not None and amount(tool.rated_voltage, "V") < needed.quantity:
        what = f"{asked}: {called(tool)} is made for {tool.rated_voltage.text}, {show(needed.quantity, 'V')} are asked"
        return Gap("short", ("tools", at, "rated_voltage"), what, todo)
    until = "" if tool.calibrated_until is None else tool.calibrated_until.isoformat()
    what = (
        f"{asked}: calibration of {called(tool)} ended {until}, the job is dated {plan.survey.job.job.date.isoformat()}"
    )
    return Gap("short", ("tools", at, "calibrated_until"), what, "have it calibrated, or list another")
