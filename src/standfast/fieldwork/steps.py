"""One step of the work, and the data sheet's steps as steps of the work."""

from typing import NamedTuple

from standfast.equipment.task import Step
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.plan import Plan

STAGES = ("arrive", "isolate", "fix", "hang", "run", "connect", "check", "power", "prove", "hand over")
"""Parts of the day; among steps that are ready, one of an earlier part goes first."""


class Reading(NamedTuple):
    """Space for readings of one thing.

    Attributes:
        what: what is read.
        unit: its unit; empty where it is a mark or a name.
        limit: what it is compared with, and where that stands; empty where there is none.
        spaces: how many are to be written down.
    """

    what: str
    unit: str
    limit: str = ""
    spaces: int = 1


class WorkStep(NamedTuple):
    """One step of the work order.

    Attributes:
        id: ``job.scan``, ``battery-1.hang``.
        stage: part of the day.
        text: what is done.
        after: steps that must be done before.
        source: data sheet or job.
        first: what must hold or be seen before the step begins.
        torque: settings in both units.
        indication: what the unit then shows, with its time and meaning.
        cautions: what can hurt at this step.
        readings: spaces for readings.
        evidence: what is kept as proof.
        people: how many it takes; empty where the data sheet does not say.
        tools: that the step names.
    """

    id: str
    stage: str
    text: str
    after: tuple[str, ...]
    source: str
    first: tuple[str, ...] = ()
    torque: tuple[str, ...] = ()
    indication: str = ""
    cautions: tuple[str, ...] = ()
    readings: tuple[Reading, ...] = ()
    evidence: tuple[str, ...] = ()
    people: str = ""
    tools: tuple[str, ...] = ()


class Bounds(NamedTuple):
    """Steps of the job that steps of a data sheet are tied to.

    Attributes:
        delivered: the delivery was checked.
        drilled: scan and dust control are done; where the data sheet drills nothing itself, the holes are there.
        dead: everything that is opened was proved dead.
        pulled: conductors lie ready.
        lift: crew, aid and way are ready.
        powered: the supply may come back.
        shutdown: the switch of the emergency shutdown is joined to the unit, which asks for an open cover.
    """

    delivered: str
    drilled: str
    dead: str
    pulled: str
    lift: str
    powered: str
    shutdown: str


def from_sheet(plan: Plan, unit: str, all_joints: list[Joint], bounds: Bounds) -> list[WorkStep]:
    """The steps of the unit's data sheet, each tied to the steps of the job that its fields ask for.

    A step that drills waits for the scan; where none drills, the first steps wait for the holes. One that lifts a heavy
    part waits for the lift to be ready. One that reaches into a zone, asks for a dead state or tightens a terminal
    waits for the proof of dead, and a terminal for the conductors. One that closes or plugs in something or brings an
    indication, and every step behind it, waits for the power to be free.
    """
    sheet = plan.sheets["battery"].sheet
    live = live_steps(list(sheet.steps))
    terminals = {terminal.id for terminal in sheet.terminals}
    own_holes = any(drills(step) for step in sheet.steps)
    heavy = {part.id for part in sheet.parts if part.lifted == "with an aid"}
    early, closers = hung_first(plan), closing(list(sheet.steps)) if plan.has_shutdown_switch else set()
    found = []
    for step in sheet.steps:
        after = [f"{unit}.{before}" for before in step.after]
        after += [bounds.delivered] if not step.after else []
        after += [bounds.drilled] if drills(step) or not (own_holes or step.after) else []
        after += [bounds.lift] if heavy & set(step.parts) else []
        if step.id in live:
            after.append(bounds.powered)
        elif step.touches or any("dead" in state for state in step.states) or step.joint in terminals:
            after.append(bounds.dead)
            after += [bounds.pulled] if step.joint in terminals else []
        after += [bounds.shutdown] if step.id in closers else []
        stage = "hang" if step.id in early else _stage(step, step.id in live, step.joint in terminals)
        found.append(_work_step(plan, unit, step, stage, tuple(dict.fromkeys(after)), all_joints))
    return _with_anchors(plan, unit, found, all_joints)


def _with_anchors(plan: Plan, unit: str, steps: list[WorkStep], all_joints: list[Joint]) -> list[WorkStep]:
    """Anchors are set, and read, at the first step that fits something after the holes are drilled.

    A data sheet may name screws for studs; on another wall the designed fastener counts, and the step says so.
    """
    sheet = plan.sheets["battery"].sheet
    drilled = {step.id for step in sheet.steps if drills(step)}
    held = next((each for each in plan.held if each.id == unit), None)
    fits = (step for step in sheet.steps if step.does is not None and step.does.change == "fit" and
            drilled & set(step.after))  # fmt: skip
    at = next(fits, None)
    if held is None or held.base == "wood" or at is None:
        return steps
    anchors = [joint for joint in all_joints if joint.id == f"{unit}/anchors"]
    named = plan.say("order.holds", state=plan.say("order.held_by", fastener=held.fastener.content.name))
    torque = tuple(plan.say("order.torque", name=joint.name, torque=joint.shown) for joint in anchors)
    return [
        step._replace(
            first=(*step.first, named),
            torque=step.torque + torque,
            readings=step.readings + torque_readings(plan, anchors),
        )
        if step.id == f"{unit}.{at.id}"
        else step
        for step in steps
    ]


def live_steps(steps: list[Step]) -> set[str]:
    """Steps that put power on something, and every step that comes after one of them."""
    live = {
        step.id
        for step in steps
        if step.indication is not None or (step.does is not None and step.does.change in ("close", "plug in"))
    }
    grown = True
    while grown:
        more = {step.id for step in steps if step.id not in live and live & set(step.after)}
        live |= more
        grown = bool(more)
    return live


def hung_first(plan: Plan) -> list[str]:
    """Steps of the data sheet that wait for no conductor: they are done before a raceway can reach the unit."""
    steps = list(plan.sheets["battery"].sheet.steps)
    terminals = {terminal.id for terminal in plan.sheets["battery"].sheet.terminals}
    late = live_steps(steps) | {step.id for step in steps if _connects(step, terminals)}
    grown = True
    while grown:
        more = {step.id for step in steps if step.id not in late and late & set(step.after)}
        late |= more
        grown = bool(more)
    return [step.id for step in steps if step.id not in late]


def _connects(step: Step, terminals: set[str]) -> bool:
    return bool(step.touches) or step.joint in terminals or any("dead" in state for state in step.states)


def closing(steps: list[Step]) -> set[str]:
    """Steps that fit a cover which an earlier step took off."""
    by_id = {step.id: step for step in steps}
    return {
        step.id for step in steps if step.does is not None and step.does.change == "fit cover" and opening(by_id, step)
    }


def opening(by_id: dict[str, Step], step: Step) -> set[str]:
    """Steps before a step that take off the cover which it fits."""
    before, queue = set[str](), list(step.after)
    while queue:
        id = queue.pop()
        if id in by_id and id not in before:
            before.add(id)
            queue += by_id[id].after
    to = step.does.to if step.does is not None else None
    changes = {id: by_id[id].does for id in before}
    return {id for id, does in changes.items() if does is not None and (does.change, does.to) == ("remove cover", to)}


def drills(step: Step) -> bool:
    """True where the step names a drill or a bit among its tools."""
    words = {word for tool in step.tools for word in tool.lower().split()}
    return bool(words & {"drill", "bit", "hammer"})


def _stage(step: Step, live: bool, connects: bool) -> str:
    if live:
        return "power"
    if connects or step.touches or (step.does is not None and step.does.change in ("remove cover", "fit cover")):
        return "connect"
    return "hang"


def _work_step(
    plan: Plan, unit: str, step: Step, stage: str, after: tuple[str, ...], all_joints: list[Joint]
) -> WorkStep:
    found = [each for each in all_joints if each.id == f"{unit}/{step.joint}"]
    readings = tuple(Reading(plan.say("order.serial"), "") for each in step.evidence if each == "serial number")
    return WorkStep(
        f"{unit}.{step.id}",
        stage,
        step.text,
        after,
        "data sheet",
        tuple(plan.say("order.holds", state=state) for state in step.states),
        tuple(plan.say("order.torque", name=each.name, torque=each.shown) for each in found),
        _indication(plan, step),
        step.cautions,
        readings + torque_readings(plan, found),
        tuple(plan.say(f"order.keep_{each.replace(' ', '_')}") for each in step.evidence),
        "" if step.people is None else str(step.people),
        step.tools,
    )


def torque_readings(plan: Plan, found: list[Joint]) -> tuple[Reading, ...]:
    """A space for each joint of each group, and one for the tool."""
    if not found:
        return ()
    spaces = []
    for joint in found:
        limit = joint.shown if joint.torque.missing else plan.say("order.limit_sheet", value=joint.shown)
        number = 1 if joint.number.missing else int(joint.number.quantity)
        spaces.append(Reading(plan.say("order.joint", name=joint.name), "", limit, number))
    return (*spaces, Reading(plan.say("order.tool_number"), ""))


def _indication(plan: Plan, step: Step) -> str:
    sheet = plan.sheets["battery"]
    shown = next((each for each in sheet.sheet.indications if each.id == step.indication), None)
    if shown is None:
        return ""
    within = step.within or shown.within
    time = plan.say("order.no_time") if within is None else plan.say("order.within", time=within.text)
    return plan.say("order.indication", shows=shown.shows, meaning=shown.meaning, time=time)
