"""How a DC side comes to life: proved dead once more before modules are joined, then fuses in and its switch closed.

Modules that are joined to busbars put their voltage on everything up to the first fuse or switch. Nobody's hands are
there any more by then: all landings are done, and the isolation is proved again, because time went by. The fuses go in
only where the polarity was read at conductors that are live, and the switch is closed only when the capacitors behind
it are charged.
"""

from collections.abc import Sequence

from standfast.commissioning.due_test import DueTest
from standfast.commissioning.limit import NO_VOLTAGE
from standfast.design.installation.graph import Part
from standfast.fieldwork.isolation import DIRECT, pairs
from standfast.fieldwork.job_steps import CHECK, RESTORE, job_step, named_tests
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.sheet_steps import bare_steps, live_steps, plugs_live
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.units import show


def tested_again_id(unit: str) -> str:
    """Id of the step that proves the DC side dead once more, before the modules of a unit are joined."""
    return f"job.dead-again-{unit}"


def close_id(unit: str) -> str:
    """Id of the step that puts the fuses of a unit in and closes its DC disconnect."""
    return f"job.close-dc-{unit}"


def read_id(unit: str) -> str:
    """Id of the step that reads the voltage of a unit whose switch is inside it."""
    return f"job.read-dc-{unit}"


def joined(plan: Plan) -> list[WorkStep]:
    """Before the modules of a unit without a switch inside are joined: the DC side is proved dead once more."""
    return [_dead_again(plan, each) for each in plan.devices if plugs_live(each.sheet)]


def bare(plan: Plan) -> tuple[str, ...]:
    """The steps of units that make their terminals live and shut them up again; the supply comes back after them."""
    return tuple(
        f"{each.id}.{step.id}"
        for each in plan.devices
        for step in each.sheet.steps
        if step.id in bare_steps(each.sheet)
    )


def _dead_again(plan: Plan, unit: Device) -> WorkStep:
    kept = ", ".join(part.name for part in _parts(plan, unit.id)) or plan.say("order.break_battery", name=unit.name)
    zero = plan.say("order.no_voltage")
    readings = (
        Reading(plan.say("order.tester_before"), "V"),
        *(Reading(pair, "V", zero, bounds=(NO_VOLTAGE,)) for pair in pairs(DIRECT)),
        Reading(plan.say("order.tester_after"), "V"),
    )
    step = job_step(
        plan, tested_again_id(unit.id), "power", (CHECK,), key="dead_again", name=unit.name, switches=kept
    )  # fmt: skip
    caution = plan.say("order.dead_again_caution", name=unit.name)
    return step._replace(readings=readings, cautions=(caution,), proves=(f"{unit.id}:dc",))


def closing_dc(plan: Plan, tests: list[DueTest]) -> list[WorkStep]:
    """For each battery before an inverter of its own: where a fuse or a DC switch of this job is between, polarity,
    charging and closing; where its switch is inside, what the inverter then shows, before it starts."""
    return [
        (_close if _parts(plan, each.id) else _read)(plan, each, [test.id for test in tests if test.of == each.id])
        for each in (plan.of_role("battery") if plan.of_role("inverter") else ())
    ]


def closes(plan: Plan, unit: Device) -> list[str]:
    """The step that closes the DC conductors of a battery, or reads them where nothing of this job stands in them."""
    if not plan.of_role("inverter"):
        return []
    return [close_id(unit.id) if _parts(plan, unit.id) else read_id(unit.id)]


def _parts(plan: Plan, unit: str) -> list[Part]:
    """New fuses, breakers and switches on the way from a battery to the inverter, from the battery on."""
    roles = ("dc_overcurrent", "dc_disconnect")
    ways = [plan.installation.path(unit, each.id) for each in plan.of_role("inverter")]
    return [part for way in ways for part in way if part.role in roles and not part.existing]


def _close(plan: Plan, unit: Device, tests: list[str]) -> WorkStep:
    """Measured at what is live; fuses in; capacitors charged; measured behind the open switch; the switch closed."""
    parts, (inverter, *_) = _parts(plan, unit.id), plan.of_role("inverter")
    fuses, switches = ([part for part in parts if (part.kind == "fuse") == fuse] for fuse in (True, False))
    say, limit = plan.say, volts(plan)
    text, readings = [], list[Reading]()
    if fuses:
        name = ", ".join(part.name for part in fuses)
        text.append(say("order.dc_fuses_out", fuse=name))
        readings.append(Reading(say("order.dc_line_side", name=name), "V", limit))
        text.append(say("order.dc_fuses_in" if switches else "order.dc_fuses_last", inverter=inverter.name))
    for switch in switches:
        text.append(say("order.dc_before_switch", switch=switch.name))
        readings.append(Reading(say("order.dc_battery_side", name=switch.name), "V", limit))
    if tests:
        text.append(say("order.dc_tests", tests=named_tests(plan, tests)))
    if switches:
        name = ", ".join(part.name for part in switches)
        text.append(say("order.dc_charge", inverter=inverter.name, switch=name))
    last = say("order.dc_load_side", name=", ".join(part.name for part in switches or fuses))
    readings.append(Reading(last, "V", say("order.dc_agrees", limit=limit)))
    text.append(say("order.dc_close", switch=", ".join(part.name for part in switches)) if switches else "")
    words = {"name": unit.name, "text": " ".join(each for each in text if each)}
    step = job_step(plan, close_id(unit.id), "power", (RESTORE, *_live(unit)), key="dc_step", **words)
    turns = [Turn(part.id, "close") for part in fuses]
    turns += [turn for part in switches for turn in (Turn(part.id, "unlock"), Turn(part.id, "close"))]
    return step._replace(
        readings=tuple(readings), cautions=(say("order.dc_caution"),), turns=tuple(turns), groups=("direct current",)
    )


def _read(plan: Plan, unit: Device, tests: list[str]) -> WorkStep:
    words = {"name": unit.name, "tests": named_tests(plan, tests)}
    return job_step(plan, read_id(unit.id), "power", (RESTORE, *_live(unit)), key="dc_read", **words)


def _live(unit: Device) -> list[str]:
    return [f"{unit.id}.{step.id}" for step in unit.sheet.steps if step.id in live_steps(unit.sheet)]


def volts(plan: Plan) -> str:
    """The voltage of a battery with the sign of its marks: from the lowest to the highest of its data sheet."""
    data = plan.sheets["battery"]
    ends = [data.fact(f"dc.voltage_{end}", "U", "V") for end in ("min", "max")]
    if any(each.missing for each in ends):
        return plan.say("order.dc_positive")
    least, most = (show(each.quantity, "V") for each in ends)
    return plan.say("order.dc_limit", least=least, most=most, file=data.file)


def joining_arrays(plan: Plan, tests: Sequence[DueTest] = ()) -> list[WorkStep]:
    """The strings of new arrays are joined last of all wiring, when the inverter is shut and its PV switch is open."""
    steps = []
    for array in plan.installation.of_kind("array"):
        if not array.existing:
            due = named_tests(plan, [test.id for test in tests if test.of == array.id])
            step = job_step(
                plan, f"job.join-{array.id}", "power", (RESTORE,), key="join_array", name=array.name, tests=due
            )
            joined, caution = Turn(f"{array.id}/connectors", "close"), plan.say("order.array_side", name=array.name)
            steps.append(step._replace(cautions=(caution,), turns=(joined,), groups=("direct current",)))
    return steps
