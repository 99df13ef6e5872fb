"""One step of the work, and the data sheet's steps as steps of the work."""

from collections.abc import Container, Sequence
from typing import Literal, NamedTuple

from standfast.commissioning.limit import Limit, torque_limits
from standfast.equipment.model import Sheet
from standfast.equipment.task import Reads, Step
from standfast.fieldwork import unjoined
from standfast.fieldwork.joints import Joint, joints
from standfast.fieldwork.order.acts import Group, Turn
from standfast.fieldwork.order.of_sheet import effects, hiding
from standfast.fieldwork.plan import Device, Held, Plan
from standfast.fieldwork.sheet_steps import (
    bare_steps,
    closing,
    connects,
    covers_off,
    drills,
    hung_first,
    lands_shutdown,
    live_steps,
    plugs_live,
    wired_behind,
)
from standfast.words import has

STAGES = ("arrive", "isolate", "fix", "hang", "run", "connect", "check", "power", "prove", "hand over")
"""Parts of the day; among steps that are ready, one of an earlier part goes first."""


ReadingKind = Literal["", "torque", "tool", "serial", "name"]


class Reading(NamedTuple):
    """Space for readings of one thing.

    Attributes:
        what: what is read.
        unit: its unit; empty where it is a mark or a name.
        limit: what it is compared with, and where that stands; empty where there is none.
        spaces: how many are to be written down.
        ticked: true where each space is a box to tick and nothing is written.
        kind: what else than a number or a mark it is.
        bounds: the limit in a form that a number is compared with, one for each unit that an instrument may show.
    """

    what: str
    unit: str
    limit: str = ""
    spaces: int = 1
    ticked: bool = False
    kind: ReadingKind = ""
    bounds: tuple[Limit, ...] = ()


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
        hands: true where hands reach to conductors that must be dead.
        turns: switches that it opens, closes, locks or unlocks, in order.
        touches: terminals that hands reach, by the names that the house of the order has for them.
        proves: terminals that it proves dead.
        waited: terminals whose charge has gone when it is done.
        takes_off, puts_on: the cover that it takes off or fits; empty where none.
        behind: covers that must be off while it is done.
        shut: covers that must be on while it is done.
        clears: terminals whose conductors it tests before they are first fed.
        groups: parts of putting into service that it belongs to.
        tightens: joints that it tightens, each with the cover that hides it.
        fits: device of which it fits a part.
        lands: conductors that it pulls or lands, and breakers that it puts in, each as it is called.
        shows: role and id of what the device then shows: ``battery/ready``; empty where nothing is to be seen.
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
    hands: bool = False
    turns: tuple[Turn, ...] = ()
    touches: tuple[str, ...] = ()
    proves: tuple[str, ...] = ()
    waited: tuple[str, ...] = ()
    takes_off: str = ""
    puts_on: str = ""
    behind: tuple[str, ...] = ()
    shut: tuple[str, ...] = ()
    clears: tuple[str, ...] = ()
    groups: tuple[Group, ...] = ()
    tightens: tuple[tuple[str, str], ...] = ()
    fits: str = ""
    shows: str = ""
    lands: tuple[str, ...] = ()


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
        far_dc: the far ends of the DC conductors are joined, and their polarity measured.
        sources: what feeds the device has power.
        tested_again: the DC side was proved dead once more, everything being joined.
        mounted: the switch of the emergency shutdown is in its place.
        drilled_all: every hole of every device is drilled.
        inside: what the job itself does behind the covers of the device: entries sealed, the link set up.
    """

    delivered: str
    drilled: str
    dead: str
    pulled: str
    lift: str
    powered: str
    shutdown: str
    far_dc: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    tested_again: str = ""
    mounted: str = ""
    drilled_all: tuple[str, ...] = ()
    inside: tuple[str, ...] = ()


def from_sheet(plan: Plan, device: Device, all_joints: list[Joint], bounds: Bounds) -> list[WorkStep]:
    """The steps of a device's data sheet, each tied to the steps of the job that its fields ask for.

    A step that drills waits for the scan; where none drills, the first steps wait for the holes. One that lifts a heavy
    part waits for the lift to be ready. One that reaches into a zone, asks for a dead state or tightens a terminal
    waits for the proof of dead, and a terminal for the conductors. One that closes or plugs in something or brings an
    indication, and every step behind it, waits for the power to be free. Where modules are plugged together and no
    switch inside the unit holds them off, the conductors outside are live from then on: that waits until everything is
    joined and was proved dead again. Covers come off when connecting starts and every hole is drilled. An inverter of
    its own is joined to the DC conductors after the batteries are, and started after them.
    """
    kinds = _kinds(plan, device)
    early, terminals = hung_first(device.sheet), kinds.terminals
    found = []
    for step in device.sheet.steps:
        after = [f"{device.id}.{before}" for before in step.after] + _after(step, bounds, kinds)
        stage = "hang" if step.id in early else _stage(step, step.id in kinds.live, step.joint in terminals)
        made = _work_step(plan, device, step, stage, tuple(dict.fromkeys(after)), all_joints)
        found.append(made._replace(groups=("direct current",) if _feeds_dc(device, step, kinds) else ()))
    return _with_anchors(plan, device, found, all_joints)


def _feeds_dc(device: Device, step: Step, kinds: "_Kinds") -> bool:
    """True where a step closes a switch of the cells, the DC or the PV side, to start the device.

    Modules that are plugged together while every switch and fuse behind them is open start nothing.
    """
    if step.does is None or step.does.change != "close" or step.id not in kinds.live - kinds.bare:
        return False
    return any(gate.name == step.does.to and gate.side != "ac" for gate in device.sheet.gates)


class _Kinds(NamedTuple):
    """Steps, terminals and parts of a data sheet by what they mean for the order."""

    live: set[str]
    bare: set[str]
    plugged: set[str]
    covers: set[str]
    closers: set[str]
    shuts: Container[str]
    lands: set[str]
    terminals: set[str]
    direct: set[str]
    heavy: set[str]
    own_holes: bool


def _kinds(plan: Plan, device: Device) -> _Kinds:
    sheet, aided = device.sheet, () if plan.lift is None else plan.lift.parts
    shut = device in plan.shut_down
    lands = lands_shutdown(sheet) if shut else set[str]()
    return _Kinds(
        live=live_steps(sheet), bare=bare_steps(sheet), plugged=set(plugs_live(sheet)), covers=covers_off(sheet),
        closers=closing(list(sheet.steps)) if shut and not lands else set[str](), lands=lands,
        shuts=wired_behind(sheet),
        terminals={terminal.id for terminal in sheet.terminals},
        direct={terminal.id for terminal in sheet.terminals if terminal.use == "dc"},
        heavy={part.id for part in sheet.parts if part.lifted == "with an aid" or f"{device.id}/{part.id}" in aided},
        own_holes=any(drills(step) for step in sheet.steps),
    )  # fmt: skip


def _after(step: Step, bounds: Bounds, kinds: _Kinds) -> list[str]:
    """The steps of the job that a step of a data sheet waits for."""
    after = [bounds.delivered] if not step.after else []
    after += [bounds.drilled] if drills(step) or not (kinds.own_holes or step.after) else []
    after += [bounds.lift] if kinds.heavy & set(step.parts) else []
    after += bounds.far_dc if step.joint in kinds.direct else ()
    after += [bounds.tested_again] if step.id in kinds.bare | kinds.plugged else []
    if step.id in kinds.live and step.id not in kinds.bare:
        after += [bounds.powered, *bounds.sources]
    elif connects(step, kinds.terminals):
        after.append(bounds.dead)
        after += [bounds.pulled] if step.joint in kinds.terminals else []
    after += [bounds.dead, *bounds.drilled_all] if step.id in kinds.covers else []
    after += [bounds.mounted] if step.id in kinds.lands else []
    after += [bounds.shutdown] if step.id in kinds.closers else []
    after += bounds.inside if step.id in kinds.shuts else ()
    return after


def _with_anchors(plan: Plan, device: Device, steps: list[WorkStep], all_joints: list[Joint]) -> list[WorkStep]:
    """Anchors are set, and read, at the step that fits something after their holes are drilled.

    A data sheet may name screws for studs; on another wall the designed fastener counts, and the step says so.
    """
    found = list(steps)
    for each in (one for one in plan.held if one.of == device.id):
        fits = fitted_at(plan, device, each)
        if each.base == "wood" or fits is None:
            continue
        at = next(number for number, step in enumerate(found) if step.id == f"{device.id}.{fits}")
        anchors = [joint for joint in all_joints if joint.id == f"{each.id}/anchors"]
        named = plan.say("order.held_by", fastener=each.fastener.content.name)
        torque = tuple(plan.say("order.torque", name=joint.name, torque=joint.shown) for joint in anchors)
        found[at] = found[at]._replace(
            first=(*found[at].first, plan.say("order.holds", state=named)),
            torque=found[at].torque + torque,
            readings=found[at].readings + torque_readings(plan, anchors),
        )
    return found


def tightened(plan: Plan, steps: Sequence[WorkStep]) -> list[Joint]:
    """The joints that some steps tighten: those of data sheets, what holds to wall and floor, and hidden ones."""
    ids = {each.id for each in steps}
    found = {joint for each in steps for joint, _ in each.tightens}
    for device in plan.devices:
        found |= {f"{device.id}/{each.joint}" for each in device.sheet.steps if f"{device.id}.{each.id}" in ids}
        found |= {f"{one.id}/anchors" for one in plan.held if f"{device.id}.{fitted_at(plan, device, one)}" in ids}
    return [joint for joint in joints(plan) if joint.id in found]


def fitted_at(plan: Plan, device: Device, held: Held) -> str | None:
    """The step of a data sheet at which what holds its device to wall or floor is set; None where there is none."""
    if held.of != device.id:
        return None
    standing = any(each.floor for each in plan.held if each.of == device.id)
    return _fits(device.sheet, brace=standing and not held.floor)


def _fits(sheet: Sheet, *, brace: bool) -> str | None:
    """The step that fits the brace of a unit that stands; else the one that drills a hole and fits, or the first after
    the one that drills. None where there is none."""
    fits = [step for step in sheet.steps if step.does is not None and step.does.change == "fit"]
    if brace:
        return next((step.id for step in fits if step.does is not None and "brace" in (step.does.to or "")), None)
    drilled = {step.id for step in sheet.steps if drills(step)}
    return next((step.id for step in fits if step.id in drilled or drilled & set(step.after)), None)


_INSIDE = ("remove cover", "fit cover", "prove dead", "wait", "put in", "take out")
"""Changes that belong to the work on dead conductors, and not to hanging a unit."""


def _stage(step: Step, live: bool, connects: bool) -> str:
    if live:
        return "power"
    if connects or step.touches or (step.does is not None and step.does.change in _INSIDE):
        return "connect"
    return "hang"


def _work_step(
    plan: Plan, device: Device, step: Step, stage: str, after: tuple[str, ...], all_joints: list[Joint]
) -> WorkStep:
    found = [each for each in all_joints if each.id == f"{device.id}/{step.joint}"]
    told = plan.told(device.sheet, step.text)
    pieces = sum(part.count or 1 for part in device.sheet.parts if part.id in step.parts)
    serial = Reading(plan.say("order.serial"), "", spaces=max(pieces, 1), kind="serial")
    readings: tuple[Reading, ...] = (serial,) if "serial number" in step.evidence else ()
    readings += tuple(_asked(plan, device, each) for each in step.reads)
    plugged = step.id in plugs_live(device.sheet)
    hands = not plugged and connects(step, {terminal.id for terminal in device.sheet.terminals})
    done = effects(plan, device, step, hands=hands)
    return WorkStep(
        f"{device.id}.{step.id}",
        stage,
        plan.say("order.of_device", name=device.name, text=told),
        after,
        "data sheet",
        tuple(plan.say("order.holds", state=_state(plan, device, state)) for state in step.states),
        tuple(plan.say("order.torque", name=each.name, torque=each.shown) for each in found),
        _indication(plan, device, step),
        (*_cautions(plan, device, step), *unjoined.cautions(plan, device, step)),
        readings + torque_readings(plan, found),
        _kept(plan, step, written=bool(readings or found)),
        "" if step.people is None else str(step.people),
        tuple(plan.told(device.sheet, tool) for tool in step.tools),
        hands,
        *done,
        tightens=tuple((f"{device.id}/{step.joint}", cover) for cover in hiding(device, step)),
        fits=device.id if step.parts and not done.puts_on else "",
        shows=f"{device.role}/{step.indication}" if step.indication else "",
    )


def _state(plan: Plan, device: Device, state: str) -> str:
    """A state that must hold, as a person sees it; in the words of the sheet where the catalogue has no other."""
    key = f"order.state_{state.replace(' ', '_')}"
    return plan.say(key) if has(key) else plan.told(device.sheet, state)


def _kept(plan: Plan, step: Step, *, written: bool) -> tuple[str, ...]:
    """What is kept as proof; what is written into a space of the step itself needs no box beside it."""
    spaced = {"serial number", *(["reading"] if written else [])}
    return tuple(plan.say(f"order.keep_{each.replace(' ', '_')}") for each in step.evidence if each not in spaced)


def _cautions(plan: Plan, device: Device, step: Step) -> tuple[str, ...]:
    """Those of the sheet, after what the lifting card says of the parts that this step lifts."""
    aided = () if plan.lift is None or not plan.lift.aid else plan.lift.parts
    cautions = tuple(plan.told(device.sheet, each) for each in step.cautions)
    names = [
        plan.told(device.sheet, part.name)
        for part in device.sheet.parts
        if part.id in step.parts and f"{device.id}/{part.id}" in aided
    ]
    if plan.lift is None or not names:
        return cautions
    return (plan.say("order.lifted_by_aid", parts=", ".join(names), aid=plan.lift.aid), *cautions)


def _asked(plan: Plan, device: Device, asked: Reads) -> Reading:
    limit = plan.say("order.limit_sheet", value=plan.told(device.sheet, asked.limit)) if asked.limit else ""
    return Reading(plan.told(device.sheet, asked.what), asked.unit or "", limit, int(asked.count or 1))


def torque_readings(plan: Plan, found: list[Joint]) -> tuple[Reading, ...]:
    """A box for each joint of each group beside its torque, and a space for the tool."""
    if not found:
        return ()
    spaces = []
    for joint in found:
        limit = joint.shown if joint.torque.missing else plan.say("order.limit_sheet", value=joint.shown)
        number = 1 if joint.number.missing else int(joint.number.quantity)
        name, bounds = plan.say("order.joint", name=joint.name), torque_limits(joint.torque)
        spaces.append(Reading(name, "", limit, number, ticked=True, kind="torque", bounds=bounds))
    return (*spaces, Reading(plan.say("order.tool_number"), "", kind="tool"))


def _indication(plan: Plan, device: Device, step: Step) -> str:
    shown = next((each for each in device.sheet.indications if each.id == step.indication), None)
    if shown is None:
        return ""
    within = step.within or shown.within
    time = plan.say("order.no_time") if within is None else plan.say("order.within", time=within.text)
    told = {"shows": plan.told(device.sheet, shown.shows), "meaning": plan.told(device.sheet, shown.meaning)}
    return plan.say("order.indication", time=time, **told)
