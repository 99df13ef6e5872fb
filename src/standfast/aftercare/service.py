"""Service: a module, the head, an inverter or a whole unit replaced, or firmware updated, and everything as before.

What is undone is what the data sheet's own steps put on after the part that is replaced; the same steps put it on
again. Only what hangs on the same conductors is parted from power: no panel of the house is opened.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.aftercare.apart import Apart, apart, tested
from standfast.aftercare.making import DEAD, DISCHARGE, LIFT, STAGES, TELL, step
from standfast.aftercare.removal import built, prepared
from standfast.aftercare.undone import cables_out, down, needing
from standfast.equipment.task import Step
from standfast.faults import NotInEdition
from standfast.fieldwork.isolation import DIRECT, pairs
from standfast.fieldwork.joints import joints
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.house import as_built, gate_id
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.order.of_sheet import terminals
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.sheet_steps import bare_steps, live_steps, plugs_live
from standfast.fieldwork.steps import Bounds, Reading, WorkStep, from_sheet
from standfast.fieldwork.work_order import Decided

What = Literal["module", "head", "inverter", "unit", "firmware"]
WHATS: tuple[What, ...] = ("module", "head", "inverter", "unit", "firmware")
NEW, AGAIN, TESTS, UNLOCK, READ_BACK, LIVE, END = (
    "in.new", "in.dead-again", "in.tests", "in.unlock", "in.read-back", "in.live", "in.end",
)  # fmt: skip


class Service(NamedTuple):
    """A service.

    Attributes:
        what: what is replaced or updated.
        steps: in one order.
        decided: the house, the acts, and what some order of them makes unsafe.
    """

    what: What
    steps: tuple[WorkStep, ...]
    decided: Decided


def service(plan: Plan, what: What) -> Service:
    """Plan a service of the first unit of a job.

    Args:
        plan: the job.
        what: what is replaced or updated.

    Raises:
        BadFormula: where the steps of a data sheet wait for each other.
        NotInEdition: where the job has no such part.
    """
    now = built(plan)
    steps = _firmware(now) if what == "firmware" else _replaced(now, *_target(now, what))
    done = tuple(ordered(steps, STAGES))
    house, acts = as_built(plan), acts_of(done)
    return Service(what, done, Decided(house, acts, tuple(proven(house.site, acts))))


def _firmware(plan: Plan) -> list[WorkStep]:
    """Read before and after, and tested again what an update is known to change. Nothing is opened."""
    names = ", ".join(each.name for each in plan.devices)
    tell = step(plan, TELL, "prepare", (), "firmware_tell")
    before = step(plan, "firmware.before", "prepare", (TELL,), "firmware_before", names=names)
    update = step(plan, "firmware.update", "put in", (before.id,), "firmware_update", names=names)
    versions = tuple(Reading(plan.say("aftercare.version", name=each.name), "") for each in plan.devices)
    update = update._replace(readings=versions, cautions=(plan.say("aftercare.firmware_caution"),))
    return [tell, before._replace(readings=versions), update, *_proved(plan, (update.id,))]


def _proved(plan: Plan, after: tuple[str, ...]) -> list[WorkStep]:
    """Settings read back, then the tests that a change to a unit makes due again, then the end."""
    tests = ("direction", "limit", "loss_of_grid", "island", "shutdown", "bond")
    live = step(plan, LIVE, "prove", (READ_BACK,), "service_live")
    end = step(plan, END, "leave", (LIVE,), "service_end")
    return [
        step(plan, READ_BACK, "prove", after, "read_back"),
        live._replace(readings=tuple(Reading(plan.say(f"aftercare.due_{each}"), "") for each in tests)),
        end._replace(readings=(Reading(plan.say("order.signed"), ""),)),
    ]


def _target(plan: Plan, what: What) -> tuple[Device, Step, str]:
    """The device, the step of its data sheet that fits what is replaced, and its name.

    Raises:
        NotInEdition: where no step fits such a part.
    """
    role = "inverter" if what == "inverter" else "battery"
    for device in plan.of_role(role)[:1]:
        named = {part.id: part.name for part in device.sheet.parts}
        for each in device.sheet.steps:
            fits = each.does is not None and each.does.change == "fit"
            parts = [part for part in each.parts if part in named and "bracket" not in part]
            if fits and parts and (what == "unit" or what in parts):
                return device, each, device.name if what == "unit" else named[what]
    raise NotInEdition(
        f"no unit of this job has {what} as a part of its own that a step of its data sheet fits: see [[parts]] and "
        "[[steps]] there, or replace the whole unit (unit)"
    )


def _replaced(plan: Plan, target: Device, fits: Step, name: str) -> list[WorkStep]:
    """Parted, undone down to the part, the new part in, and everything after it done again."""
    group = plan.devices if plan.of_role("inverter") else [target]
    steps = prepared(plan, "sound", "tell_service")
    if target.role == "inverter" or name != target.name:
        steps = [each for each in steps if each.id != DISCHARGE]
    off = apart(plan, group, [], [], tuple(each.id for each in steps), worked=[target])
    undone = needing(target, fits.id)
    cables = cables_out(plan, target, (DEAD,))
    out = (cables[-1].id,) if cables else (DEAD,)
    parts = down(plan, target, undone, out, off.leads.get(target.id, ""))
    told = (plan.say("order.serial"), plan.say("aftercare.version", name=name))
    new = step(plan, NEW, "put in", tuple(each.id for each in parts) or out, "new_part", name=name)
    again = _again(plan, target, {each.id for each in undone})
    backs = _backs(plan, target, off, again)
    return [
        *steps, *off.steps, *cables, *parts, new._replace(readings=tuple(Reading(each, "") for each in told)), *again,
        *backs, *_between(plan, target, off, again), *_proved(plan, tuple(each.id for each in (*again, *backs))),
    ]  # fmt: skip


def _again(plan: Plan, target: Device, ids: set[str]) -> list[WorkStep]:
    """The steps of the data sheet from the part on, each tied to the steps of this service."""
    bounds = Bounds(
        delivered=NEW, drilled=NEW, dead=NEW, pulled=NEW, lift=LIFT, powered=UNLOCK, shutdown=NEW,
        tested_again=AGAIN, mounted=NEW, sources=(_sources_id(target),),
    )  # fmt: skip
    wanted = {f"{target.id}.{id}" for id in ids}
    found = []
    for each in from_sheet(plan, target, joints(plan), bounds):
        if each.id in wanted:
            ties = [before for before in each.after if before in wanted or before.partition(".")[0] != target.id]
            stage = "power" if each.stage == "power" else "put in"
            found.append(each._replace(after=tuple(dict.fromkeys((*ties, NEW))), stage=stage))
    return found


def _between(plan: Plan, target: Device, off: Apart, again: Sequence[WorkStep]) -> list[WorkStep]:
    """Dead tests, the proof once more before modules make the terminals live, and the locks that go off."""
    live = {f"{target.id}.{id}" for id in live_steps(target.sheet)}
    bare = {f"{target.id}.{id}" for id in bare_steps(target.sheet)}
    dead = tuple(each.id for each in again if each.id not in live) or (NEW,)
    found = list[WorkStep]()
    if plugs_live(target.sheet):
        told = step(plan, AGAIN, "put in", dead, "dead_again", name=target.name)
        found.append(told._replace(proves=tuple(terminals(target)), readings=tested(plan, pairs(DIRECT))))
    before = (*dead, *(each.id for each in again if each.id in bare), *(each.id for each in found))
    tests = step(plan, TESTS, "put in", before, "service_tests")
    locked = [turn.gate for each in off.steps for turn in each.turns if turn.change == "lock"]
    turned: dict[str, set[str]] = {}
    for turn in (one for each in again for one in each.turns):
        turned.setdefault(turn.gate, set()).add(turn.change)
    loose = [gate for gate in locked if "close" in turned.get(gate, ()) and "unlock" not in turned[gate]]
    locks = step(plan, UNLOCK, "power", (TESTS,), "locks_off")
    return [*found, tests, locks._replace(turns=tuple(Turn(gate, "unlock") for gate in loose))]


def _sources_id(target: Device) -> str:
    return f"back.{target.id}-sources"


def _backs(plan: Plan, target: Device, off: Apart, again: Sequence[WorkStep]) -> list[WorkStep]:
    """What was opened and the data sheet's own steps do not close: back in reverse, but the house before the sun.

    Batteries come back before an inverter starts.
    """
    own = {turn.gate for each in again for turn in each.turns}
    groups = [each for each in off.steps if any(turn.change == "open" and turn.gate not in own for turn in each.turns)]
    first = [each for each in reversed(groups) if target.role == "inverter" and each.id.startswith(SOURCES)]
    rest = [each for each in reversed(groups) if each not in first]
    rest.sort(key=lambda one: one.id.startswith("off.inverter-"))
    found = list[WorkStep]()
    last: tuple[str, ...] = (UNLOCK,)
    for each in first:
        found.append(_back(plan, each, own, last))
        last = (found[-1].id,)
    found.append(step(plan, _sources_id(target), "power", last, "sources_back"))
    last = (found[-1].id, *(each.id for each in again if each.stage == "power"))
    for each in rest:
        found.append(_back(plan, each, own, last))
        last = (found[-1].id,)
    return found


SOURCES = ("off.battery-", "off.dc-", "off.leads-", "off.strings-")
"""Steps that part what feeds an inverter."""
DIRECT_SIDE = ("off.battery-", "off.dc-", "off.strings-")


def _back(plan: Plan, each: WorkStep, own: set[str], last: tuple[str, ...]) -> WorkStep:
    """One group of switches back; what the data sheet's own steps turn is left to them."""
    opened = [turn.gate for turn in each.turns if turn.change == "open" and turn.gate not in own]
    if not each.id.startswith("off.ac-"):  # there the breaker in the panel is closed last
        opened.reverse()
    locked = {turn.gate for turn in each.turns if turn.change == "lock"}
    turns = list[Turn]()
    for gate in opened:
        turns += [*([Turn(gate, "unlock")] if gate in locked else []), Turn(gate, "close")]
    names = ", ".join(_named(plan, gate) for gate in opened)
    id, key = f"back.{each.id.removeprefix('off.')}", "back_dc" if each.id.startswith(DIRECT_SIDE) else "back"
    return step(plan, id, "power", last, key, names=names)._replace(turns=tuple(turns))


def _named(plan: Plan, gate: str) -> str:
    """What people call a switch, inside a device or not, or the connectors of an array."""
    part = plan.installation.parts.get(gate)
    if part is not None:
        return part.name
    for device in plan.devices:
        for each in device.sheet.gates:
            if gate_id(device.id, each.name) == gate:
                return plan.say("aftercare.gate_of", gate=each.name, name=device.name)
    array = plan.installation.parts[gate.partition("/")[0]]
    return plan.say("aftercare.gate_of", gate=plan.say("aftercare.string_connectors"), name=array.name)
