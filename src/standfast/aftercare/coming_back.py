"""Power comes back after a service: in reverse, batteries first, each read before anything behind it closes.

What was opened and no step of a data sheet closes is closed here, with the tests that are done on the way.
"""

from collections.abc import Sequence

from standfast.aftercare.apart import Apart
from standfast.aftercare.making import LIFT, step
from standfast.aftercare.retests import closing
from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.job_steps import named_tests
from standfast.fieldwork.joints import joints
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.house import gate_id
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.steps import Bounds, WorkStep, from_sheet

NEW, AGAIN, UNLOCK, CLOSED = "in.new", "in.dead-again", "in.unlock", "in.closed"
CELLS = ("off.battery-", "off.leads-")
"""Steps that part the cells from their own terminals."""
SOURCES = ("off.battery-", "off.dc-", "off.leads-", "off.strings-")
"""Steps that part what feeds an inverter."""
DIRECT_SIDE = ("off.battery-", "off.dc-", "off.strings-")


def backs(
    plan: Plan, target: Device, off: Apart, again: Sequence[WorkStep], tests: Sequence[DueTest]
) -> list[WorkStep]:  # fmt: skip
    """What was opened and the data sheet's own steps do not close: back in reverse, but the house before the sun.

    Batteries come back before an inverter starts, and are read before anything behind them closes.
    """
    own = {turn.gate for each in again for turn in each.turns}
    groups = [each for each in off.steps if any(turn.change == "open" and turn.gate not in own for turn in each.turns)]
    first = [each for each in reversed(groups) if target.role == "inverter" and each.id.startswith(SOURCES)]
    first.sort(key=lambda one: not one.id.startswith(CELLS))
    rest = [each for each in reversed(groups) if each not in first]
    rest.sort(key=lambda one: one.id.startswith("off.inverter-"))
    found = list[WorkStep]()
    last: tuple[str, ...] = (UNLOCK,)
    shown = [one for each in plan.devices for one in by_sheet(plan, each) if one.shows]
    for each in (one for one in first if one.id.startswith(CELLS)):
        found.append(_back(plan, each, own, last, tests, shown))
        last = (found[-1].id,)
    found += _closed(plan, tests, last) if target.role == "inverter" else []
    for each in (one for one in first if not one.id.startswith(CELLS)):
        found.append(_back(plan, each, own, last if not found else (found[-1].id,), tests, shown))
    last = (found[-1].id,) if found else last
    found.append(step(plan, _sources_id(target), "power", last, "sources_back"))
    last = (found[-1].id, *(each.id for each in again if each.stage == "power"))
    found += _closed(plan, tests, last) if target.role != "inverter" else []
    last = (found[-1].id,) if found[-1].id == CLOSED else last
    for each in rest:
        found.append(_back(plan, each, own, last, tests, shown))
        last = (found[-1].id,)
    return found


def closed_of(plan: Plan, test: DueTest) -> str:
    """The step of a service that does a test on a battery or array while power comes back; empty where none does."""
    part = plan.installation.parts.get(test.of) if test.of else None
    if part is None or part.kind not in ("battery", "array"):
        return ""
    return CLOSED if part.kind == "battery" else f"back.strings-{part.id}"


def _closed(plan: Plan, tests: Sequence[DueTest], last: tuple[str, ...]) -> list[WorkStep]:
    """A battery is read with its switch closed and everything behind it open."""
    due = [each for each in closing(tests) if closed_of(plan, each) == CLOSED]
    names = ", ".join(dict.fromkeys(plan.installation.parts[each.of].name for each in due))
    words = {"name": names, "tests": named_tests(plan, [each.id for each in due])}
    return [step(plan, CLOSED, "power", last, "read_closed", **words)] if due else []


def _back(
    plan: Plan, each: WorkStep, own: set[str], last: tuple[str, ...], tests: Sequence[DueTest],
    shown: Sequence[WorkStep],
) -> WorkStep:  # fmt: skip
    """One group of switches back; what the data sheet's own steps turn is left to them.

    Where a step of a data sheet says what its device shows when such a switch closes, it is looked for here.
    """
    opened = [turn.gate for turn in each.turns if turn.change == "open" and turn.gate not in own]
    if not each.id.startswith("off.ac-"):  # there the breaker in the panel is closed last
        opened.reverse()
    locked = {turn.gate for turn in each.turns if turn.change == "lock"}
    turns = list[Turn]()
    for gate in opened:
        turns += [*([Turn(gate, "unlock")] if gate in locked else []), Turn(gate, "close")]
    names = ", ".join(_named(plan, gate) for gate in opened)
    id, key = f"back.{each.id.removeprefix('off.')}", "back_dc" if each.id.startswith(DIRECT_SIDE) else "back"
    due = [one.id for one in closing(tests) if closed_of(plan, one) == id]
    key = "back_tested" if due else key
    found = step(plan, id, "power", last, key, names=names, tests=named_tests(plan, due))
    seen = next((one for one in shown if {Turn(gate, "close") for gate in opened} & set(one.turns)), None)
    if seen is not None:
        found = found._replace(indication=seen.indication, shows=seen.shows)
    return found._replace(turns=tuple(turns))


def by_sheet(plan: Plan, device: Device) -> list[WorkStep]:
    """The steps of a data sheet as steps of a service."""
    bounds = Bounds(
        delivered=NEW, drilled=NEW, dead=NEW, pulled=NEW, lift=LIFT, powered=UNLOCK, shutdown=NEW,
        tested_again=AGAIN, mounted=NEW, sources=(_sources_id(device),),
    )  # fmt: skip
    return from_sheet(plan, device, joints(plan), bounds)


def _sources_id(target: Device) -> str:
    return f"back.{target.id}-sources"


def _named(plan: Plan, gate: str) -> str:
    """What people call a switch, inside a device or not, or the connectors of an array."""
    part = plan.installation.parts.get(gate)
    if part is not None:
        return part.name
    for device in plan.devices:
        for each in device.sheet.gates:
            if gate_id(device.id, each.name) == gate:
                return plan.say("aftercare.gate_of", gate=plan.told(device.sheet, each.name), name=device.name)
    array = plan.installation.parts[gate.partition("/")[0]]
    return plan.say("aftercare.gate_of", gate=plan.say("aftercare.string_connectors"), name=array.name)
