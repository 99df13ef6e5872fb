"""Whether the firm's own tools reach: every torque of the job in the range of one, every due test read with one."""

from collections.abc import Iterator, Sequence

from standfast.fieldwork.instruments import READERS, due, least_voltage
from standfast.fieldwork.joints import Joint, joints
from standfast.fieldwork.of_firm import in_calibration
from standfast.fieldwork.plan import Plan
from standfast.reading.quantities import amount
from standfast.sheet import Check, at_least, cannot_tell, chosen, given
from standfast.shelf import Edition
from standfast.survey.firm import MEASURING, TORQUE, Firm, FirmTool


def checks(firm: Firm, plan: Plan) -> Iterator[Check]:
    """One check on the torque tools and one for each instrument that the due tests ask.

    A firm that lists no torque tool at all, or no instrument at all, is not asked about them: it keeps no such list,
    and the tool list of the work order says what to bring. Where it lists some, what none of them reaches *cannot be
    told*: it may be hired or borrowed, and is then written into the list.
    """
    if any(tool.kind in TORQUE for tool in firm.tools):
        yield _torques(firm, plan)
    if any(tool.kind in MEASURING for tool in firm.tools):
        for instrument, tests in due(plan).items():
            if instrument not in READERS:
                yield _instrument(firm, plan, instrument, [test.id for test in tests])


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


def _torques(firm: Firm, plan: Plan) -> Check:
    id, title = "fieldwork.torque-tools", "Every torque of the job lies in the range of a torque tool of the firm"
    clause = plan.practice.clause("torque_tools")
    stated = [joint for joint in joints(plan) if not joint.torque.missing]
    bare = [joint for joint in stated if best(firm, plan, joint.torque.quantity) is None]
    if bare:
        return cannot_tell(id, title, clause, f"tools: torque that no tool covers: {_listed(bare)}; {_BRING}")
    covered = chosen("n_covered", float(len(stated)), "1", "joints in the range of a tool of the firm", clause)
    every = given("n_joint", float(len(stated)), "1", "joints with a stated torque")
    return at_least(id, title, clause, covered, every)


_BRING = "bring one that does, in calibration on the day, and write it with its range under [[tools]]"


def _listed(bare: list[Joint]) -> str:
    by_torque: dict[str, list[str]] = {}
    for joint in bare:
        by_torque.setdefault(joint.shown, []).append(joint.name)
    return "; ".join(f"{shown} ({', '.join(names)})" for shown, names in by_torque.items())


def _instrument(firm: Firm, plan: Plan, instrument: str, tests: list[str]) -> Check:
    id, listed = f"fieldwork.instrument/{instrument.replace(' ', '-')}", ", ".join(tests)
    title = f"The firm has a {instrument} for the tests of the job"
    clause = plan.practice.clause("calibration")
    ours = [tool for tool in firm.tools if reads(tool, plan, instrument)]
    if not ours:
        need = (
            f"tools: no {instrument} of the firm is written down with a rated_voltage that does and in calibration on "
            f"the day (tests {listed}): bring one, and write it under [[tools]]"
        )
        return cannot_tell(id, title, clause, need)
    number = chosen("n_tool", float(len(ours)), "1", ", ".join(tool.id for tool in ours), clause)
    return at_least(id, title, clause, number, given("n_least", 1.0, "1", f"tests {listed}"))
