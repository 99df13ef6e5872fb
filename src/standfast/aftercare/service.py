"""Service: a module, the head, an inverter or a whole unit replaced, or firmware updated, and everything as before.

What is undone is what the data sheet's own steps put on after the part that is replaced; the same steps put it on
again. Only what hangs on the same conductors is parted from power: no panel of the house is opened.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.aftercare.apart import Apart, apart, tested
from standfast.aftercare.coming_back import AGAIN, NEW, UNLOCK, backs, by_sheet, closed_of
from standfast.aftercare.making import DEAD, DISCHARGE, STAGES, TELL, step
from standfast.aftercare.removal import built, prepared
from standfast.aftercare.retests import closing, dead_ids, due_after, running, settings_read
from standfast.aftercare.undone import braced, cables_out, down, needing
from standfast.commissioning.due_test import DueTest
from standfast.equipment.task import Step
from standfast.faults import NotInEdition
from standfast.fieldwork import proof_of_dead
from standfast.fieldwork.isolation import DIRECT, pairs
from standfast.fieldwork.job_steps import join_shutdown_id, named_tests
from standfast.fieldwork.linking import link_id
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.house import House, as_built, house_of
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.order.of_sheet import terminals
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.sealing import seal_id
from standfast.fieldwork.sheet_steps import bare_steps, live_steps, plugs_live
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.fieldwork.tests_at import timed
from standfast.fieldwork.work_order import Decided, WorkOrder, work_order

What = Literal["module", "head", "inverter", "unit", "firmware"]
WHATS: tuple[What, ...] = ("module", "head", "inverter", "unit", "firmware")
TESTS, READ_BACK, LIVE, END = "in.tests", "in.read-back", "in.live", "in.end"


class Service(NamedTuple):
    """A service.

    Attributes:
        what: what is replaced or updated.
        units: the devices that it is done to.
        steps: in one order.
        decided: the house, the acts, and what some order of them makes unsafe.
        off: how the unit is parted from power; None where nothing is opened.
        tests: those of the job that are due again, with their own numbers.
        together: steps of which neither is done on a day without the other.
    """

    what: What
    units: tuple[Device, ...]
    steps: tuple[WorkStep, ...]
    decided: Decided
    off: Apart | None
    tests: tuple[DueTest, ...]
    together: tuple[tuple[str, str], ...] = ()

    @property
    def numbers(self) -> dict[str, int]:
        """Step id → its number on paper."""
        return {each.id: number for number, each in enumerate(self.steps, 1)}


class Target(NamedTuple):
    """A device, the step of its data sheet that fits what is replaced, and its name."""

    device: Device
    fits: Step
    name: str


def service(plan: Plan, what: What, unit: str = "") -> Service:
    """Plan a service of one unit of a job.

    Args:
        plan: the job.
        what: what is replaced or updated.
        unit: id of the unit or inverter; empty for the first that has such a part, and for the firmware of all.

    Raises:
        BadFormula: where the steps of a data sheet wait for each other.
        NotInEdition: where the job has no such unit or part.
    """
    now, order = built(plan), work_order(plan)
    if what == "firmware":
        units = [_named_unit(now, what, unit, now.devices)] if unit else now.devices
        tests = due_after(plan, order, units)
        return _planned(plan, what, units, _firmware(now, units, tests), tests)
    target = _target(now, what, unit)
    opened = {f"{target.device.id}.{each.id}" for each in needing(target.device, target.fits.id)}
    tests = due_after(plan, order, [target.device], opened)
    off, steps = _replaced(now, target, tests, _of_job(order, target.device))
    made = _planned(plan, what, [target.device], steps, tests)
    # a stack or case that is opened is put together again on the same day; an empty place may wait for a new unit
    down = [each.id for each in made.steps if each.stage == "take down"]
    up = [each.id for each in made.steps if each.stage == "put in"]
    ties = () if what == "unit" else tuple((one, up[-1]) for one in down if up)
    return made._replace(off=off, together=ties)


def possible(plan: Plan) -> list[tuple[What, str]]:
    """Every service that the data sheets of a job allow: what, and of which unit; firmware of all of them at once."""
    found = list[tuple[What, str]]()
    for what in WHATS:
        if what == "firmware":
            found += [(what, "")] if plan.devices else []
            continue
        for device in plan.of_role(_role(what)):
            found += [(what, device.id)] if _fits(plan, device, what) is not None else []
    return found


def _planned(
    plan: Plan, what: What, units: Sequence[Device], steps: Sequence[WorkStep], tests: Sequence[DueTest]
) -> Service:
    done = tuple(ordered(steps, STAGES))
    house, acts = _house(plan), acts_of(done)
    return Service(
        what, tuple(units), done, Decided(house, acts, tuple(proven(house.site, acts))), None, tuple(tests)
    )  # fmt: skip


def _house(plan: Plan) -> House:
    """The house as built, in which what a step puts in for a time comes out again."""
    house = as_built(plan)
    return house._replace(site=house.site._replace(temporary=house_of(plan).site.temporary))


def _firmware(plan: Plan, units: Sequence[Device], tests: Sequence[DueTest]) -> list[WorkStep]:
    """Read before and after, and tested again what an update is known to change. Nothing is opened."""
    names = ", ".join(each.name for each in units)
    tell = step(plan, TELL, "prepare", (), "firmware_tell")
    before = step(plan, "firmware.before", "prepare", (TELL,), "firmware_before", names=names)
    update = step(plan, "firmware.update", "put in", (before.id,), "firmware_update", names=names)
    versions = tuple(Reading(plan.say("aftercare.version", name=each.name), "") for each in units)
    update = update._replace(readings=versions, cautions=(plan.say("aftercare.firmware_caution"),))
    return [tell, before._replace(readings=versions), update, *_proved(plan, (update.id,), tests)]


def _proved(
    plan: Plan, after: tuple[str, ...], tests: Sequence[DueTest], again: Sequence[WorkStep] = ()
) -> list[WorkStep]:  # fmt: skip
    """Settings read back, then the tests of the job that are due again, then the end."""
    ids = running(tests, {each.shows for each in again if each.shows})
    settings = settings_read(tests)
    key = "read_back_test" if settings else "read_back"
    read = step(plan, READ_BACK, "prove", after, key, tests=named_tests(plan, settings))
    live = step(plan, LIVE, "prove", (READ_BACK,), "service_live", tests=named_tests(plan, ids))
    end = step(plan, END, "leave", (LIVE,), "service_end")
    return [
        read._replace(groups=("settings",)), live._replace(groups=("functional",)),
        end._replace(readings=(Reading(plan.say("order.signed"), ""),), groups=("hand over",)),
    ]  # fmt: skip


def _role(what: What) -> str:
    return "inverter" if what == "inverter" else "battery"


def _named_unit(plan: Plan, what: What, unit: str, devices: Sequence[Device]) -> Device:
    """The device of an id.

    Raises:
        NotInEdition: where it is none of those that the service is for.
    """
    for each in devices:
        if each.id == unit:
            return each
    known = ", ".join(each.id for each in devices) or "none"
    every = ", ".join(each.id for each in plan.devices) or "none"
    where = f"the units of this job are {every}" if unit not in every.split(", ") else f"{unit} is another kind of unit"
    raise NotInEdition(f"--service {what} cannot be of {unit}: {where}; it can be of {known}")


def _fits(plan: Plan, device: Device, what: What) -> Target | None:
    named = {part.id: part.name for part in device.sheet.parts}
    for each in device.sheet.steps:
        fits = each.does is not None and each.does.change == "fit"
        parts = [part for part in each.parts if part in named and "bracket" not in part]
        if fits and parts and (what == "unit" or what in parts):
            return Target(device, each, device.name if what == "unit" else plan.told(device.sheet, named[what]))
    return None


def _target(plan: Plan, what: What, unit: str) -> Target:
    """What is replaced, and where.

    Raises:
        NotInEdition: where there is no such unit, or no step of its data sheet fits such a part.
    """
    devices = plan.of_role(_role(what))
    if unit:
        devices = [_named_unit(plan, what, unit, devices)]
    for device in devices:
        found = _fits(plan, device, what)
        if found is not None:
            return found
    raise NotInEdition(
        f"no unit of this job has {what} as a part of its own that a step of its data sheet fits: see [[parts]] and "
        "[[steps]] there, or replace the whole unit (unit)"
    )


def _of_job(order: WorkOrder, device: Device) -> list[WorkStep]:
    """What the job itself did behind the covers of a device: its shutdown cable, its place on the link, its entries."""
    ids = (join_shutdown_id(device.id), link_id(device.id), seal_id(device.id))
    return [each for each in order.steps if each.id in ids]


def _replaced(
    plan: Plan, of: Target, tests: Sequence[DueTest], of_job: Sequence[WorkStep]
) -> tuple[Apart, list[WorkStep]]:  # fmt: skip
    """Parted, undone down to the part, the new part in, and everything after it done again."""
    target, fits, name = of
    group = plan.devices if plan.of_role("inverter") else [target]
    steps = prepared(plan, "sound", "tell_service")
    if target.role == "inverter" or name != target.name:
        steps = [each for each in steps if each.id != DISCHARGE]
    off = apart(plan, group, tuple(each.id for each in steps), worked=[target])
    undone = needing(target, fits.id)
    cables = cables_out(plan, target, (DEAD,))
    out = (cables[-1].id,) if cables else (DEAD,)
    brace = "brace_again" if name == target.name else ""  # a brace whose unit stays keeps its screws in the wall
    parts = down(plan, target, undone, out, off.leads.get(target.id, ""), brace)
    told = (plan.say("order.serial"), plan.say("aftercare.version", name=name))
    new = step(plan, NEW, "put in", tuple(each.id for each in parts) or out, "new_part", name=name)
    again = _with_job(_again(plan, target, {each.id for each in undone}, tests, stays=not brace), of_job)
    closed = timed(plan, tests, backs(plan, target, off, again, tests))
    return off, [
        *steps, *off.steps, *cables, *parts, new._replace(readings=tuple(Reading(each, "") for each in told)), *again,
        *closed, *_between(plan, target, off, again, tests),
        *_proved(plan, tuple(each.id for each in (*again, *closed)), tests, (*again, *closed)),
    ]  # fmt: skip


def _again(
    plan: Plan, target: Device, ids: set[str], tests: Sequence[DueTest], *, stays: bool
) -> list[WorkStep]:  # fmt: skip
    """The steps of the data sheet from the part on, each tied to the steps of this service; a brace may have stayed."""
    wanted = {f"{target.id}.{id}" for id in ids}
    braces = {f"{target.id}.{each.id}" for each in target.sheet.steps if braced(each)} if stays else set[str]()
    sensors = {one.name for one in target.sheet.sensors}
    put = (one for one in target.sheet.steps if one.does is not None and one.does.change == "put in")
    seats = {f"{target.id}.{one.id}" for one in put if one.does is not None and one.does.to in sensors}
    found = []
    for each in by_sheet(plan, target):
        if each.id in seats:
            each = each._replace(cautions=(plan.say("aftercare.sensor_caution"), *each.cautions))
        if each.id in braces:
            each = each._replace(cautions=(plan.say("aftercare.brace_stays", name=target.name), *each.cautions))
        if each.id in wanted:
            ties = [before for before in each.after if before in wanted or before.partition(".")[0] != target.id]
            stage = "power" if each.stage == "power" else "put in"
            found.append(each._replace(after=tuple(dict.fromkeys((*ties, NEW))), stage=stage))
    return timed(plan, tests, proof_of_dead.written(plan, found))


def _with_job(again: Sequence[WorkStep], of_job: Sequence[WorkStep]) -> list[WorkStep]:
    """The steps of the sheet, and those of the job before the first cover goes on; none where no cover comes off."""
    if not any(each.puts_on for each in again):
        return list(again)
    ids = {each.id for each in again} | {each.id for each in of_job}
    own = [each._replace(after=(*(id for id in each.after if id in ids), NEW), stage="put in") for each in of_job]
    shut = tuple(each.id for each in own)
    return [*(each._replace(after=(*each.after, *shut)) if each.puts_on else each for each in again), *own]


def _between(
    plan: Plan, target: Device, off: Apart, again: Sequence[WorkStep], tests: Sequence[DueTest]
) -> list[WorkStep]:  # fmt: skip
    """Dead tests, the proof once more before modules make the terminals live, and the locks that go off."""
    live = {f"{target.id}.{id}" for id in live_steps(target.sheet)}
    bare = {f"{target.id}.{id}" for id in bare_steps(target.sheet)}
    dead = tuple(each.id for each in again if each.id not in live) or (NEW,)
    found = list[WorkStep]()
    if plugs_live(target.sheet):
        told = step(plan, AGAIN, "put in", dead, "dead_again", name=target.name)
        found.append(told._replace(proves=tuple(terminals(target)), readings=tested(plan, pairs(DIRECT))))
    before = (*dead, *(each.id for each in again if each.id in bare), *(each.id for each in found))
    ids = dead_ids(tests)
    key = "service_tests" if ids else "service_tests_none"
    looked = step(plan, TESTS, "put in", before, key, tests=named_tests(plan, ids))._replace(groups=("dead tests",))
    locked = [turn.gate for each in off.steps for turn in each.turns if turn.change == "lock"]
    turned: dict[str, set[str]] = {}
    for turn in (one for each in again for one in each.turns):
        turned.setdefault(turn.gate, set()).add(turn.change)
    loose = [gate for gate in locked if "close" in turned.get(gate, ()) and "unlock" not in turned[gate]]
    on_the_way = [each.id for each in closing(tests) if not closed_of(plan, each)]
    key = "locks_off_tests" if on_the_way else "locks_off"
    locks = step(plan, UNLOCK, "power", (TESTS,), key, tests=named_tests(plan, on_the_way))
    return [*found, looked, locks._replace(turns=tuple(Turn(gate, "unlock") for gate in loose))]
