"""The job's own steps: what no data sheet holds, because it depends on the house."""

from standfast.commissioning.due import DueTest
from standfast.equipment.task import Step
from standfast.fieldwork.holes import HoleCard
from standfast.fieldwork.isolation import Isolation
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.plan import Held, Plan, Run
from standfast.fieldwork.steps import Bounds, Reading, WorkStep, drills, live_steps, torque_readings

PAPERS, DELIVERY, CHECK_VAN = "job.papers", "job.delivery", "job.van"
SCAN, DUST, LIFT, PULL, INSULATION = "job.scan", "job.dust", "job.lift", "job.pull", "job.dead-tests"
LABELS, CHECK, RESTORE, LIVE_TESTS, HANDOVER = (
    "job.labels",
    "job.check",
    "job.restore",
    "job.live-tests",
    "job.handover",
)
DEAD = "job.dead"


def bounds(plan: Plan, unit: str) -> Bounds:
    """Where the steps of a unit's data sheet are tied in."""
    drilled = drilled_by(plan, unit)
    return Bounds(delivered=DELIVERY, drilled=drilled, dead=DEAD, pulled=INSULATION, lift=LIFT, powered=RESTORE)


def arriving(plan: Plan) -> list[WorkStep]:
    """Papers, delivery, van."""
    serials = tuple(Reading(plan.say("order.serial_of", name=name), "") for name in plan.units)
    return [
        _step(plan, PAPERS, "arrive", (), revision=plan.survey.job.job.revision),
        _step(plan, DELIVERY, "arrive", (PAPERS,))._replace(
            readings=serials, cautions=(plan.say("order.damaged"),), evidence=(plan.say("order.keep_photo"),)
        ),
        _step(plan, CHECK_VAN, "arrive", (PAPERS,)),
    ]


def fixing(plan: Plan, card: HoleCard, all_joints: list[Joint]) -> list[WorkStep]:
    """Scan, dust control, everything that is fixed to a wall but not by a data sheet's own steps, and the lift."""
    units = {part.id for part in plan.installation.of_kind("battery")}
    scan = _step(plan, SCAN, "fix", (DELIVERY, CHECK_VAN), count=len(card.holes))
    dust = [plan.say(f"holes.dust_{base}") for base in plan.bases]
    steps = [
        scan._replace(first=card.stop, cautions=(plan.say("order.scan_caution"),)),
        _step(plan, DUST, "fix", (SCAN,))._replace(cautions=tuple(dust)),
    ]
    by_sheet = units if sheet_drills(plan) else set()
    held = [each for each in plan.held if each.id not in by_sheet]
    steps += [_mount(plan, card, each, all_joints) for each in held]
    done = {each.id for each in held}
    for part in plan.installation.of_kind("busbar", "disconnect", "transfer equipment"):
        if not part.existing and part.id not in done:
            steps.append(_step(plan, mount_id(part.id), "fix", (DUST,), key="mount", name=part.name))
    return [*steps, _lift(plan)]


def _mount(plan: Plan, card: HoleCard, held: Held, all_joints: list[Joint]) -> WorkStep:
    rows = [hole.id for hole in card.holes if hole.name == held.name]
    step = _step(
        plan, mount_id(held.id), "fix", (DUST,),
        key="mount_at", name=held.name, holes=f"{rows[0]} – {rows[-1]}", fastener=held.fastener.content.name,
    )  # fmt: skip
    anchors = [joint for joint in all_joints if joint.id == f"{held.id}/anchors"]
    return _with_torque(plan, step, anchors)


def _lift(plan: Plan) -> WorkStep:
    if plan.lift is None:
        return _step(plan, LIFT, "hang", (DELIVERY,), key="lift_unknown")
    aid = plan.lift.aid or plan.say("order.by_hand")
    step = _step(plan, LIFT, "hang", (DELIVERY,), key="lift", people=plan.lift.people, aid=aid, reason=plan.lift.reason)
    return step._replace(people=str(plan.lift.people), cautions=(plan.say("order.lift_caution"),))


def running(plan: Plan, mounted: list[str]) -> list[WorkStep]:
    """Raceways, up to but not into what is live. A run to a unit waits until the unit hangs."""
    steps = []
    for run in plan.runs:
        after = list(mounted)
        if "unit" in run.ends:
            after += [f"{unit.id}.{id}" for unit in plan.installation.of_kind("battery") for id in hung_first(plan)]
        steps.append(_run(plan, run, tuple(dict.fromkeys(after or [DELIVERY]))))
    return steps


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


def _run(plan: Plan, run: Run, after: tuple[str, ...]) -> WorkStep:
    unknown = plan.say("common.not_known")
    raceway = unknown if run.raceway.missing else plan.say(f"materials.{run.raceway.word}")
    size = unknown if run.trade_size.missing else run.trade_size.word
    return _step(plan, f"job.run-{run.id}", "run", after, key="run", raceway=raceway, size=size, name=run.name)


def isolating(plan: Plan, isolations: list[Isolation], after: tuple[str, ...]) -> list[WorkStep]:
    """Open, lock and tag; prove dead, every pair, with the tester proved before and after."""
    steps = []
    for each in isolations:
        opened = f"job.open-{each.id}"
        switches = "; ".join(
            plan.say("order.opens", switch=opening.switch, sources=", ".join(opening.sources))
            for opening in each.openings
        )
        stay = "; ".join(opening.switch for opening in each.kept_open)
        step = _step(plan, opened, "isolate", after or (DELIVERY,), key="open", panel=each.panel, switches=switches)
        stops = tuple(plan.say("order.no_switch", source=source) for source in each.live)
        kept = (plan.say("order.kept_open", switches=stay),) if stay else ()
        steps.append(step._replace(first=stops, cautions=(plan.say("order.still_live"), *kept)))
        prove = _step(plan, f"{DEAD}-{each.id}", "isolate", (opened,), key="dead", panel=each.panel)
        steps.append(prove._replace(readings=_dead_readings(plan, each), cautions=(plan.say("order.dead_caution"),)))
    all_dead = tuple(step.id for step in steps if step.id.startswith(f"{DEAD}-")) or (DELIVERY,)
    return [*steps, _step(plan, DEAD, "isolate", all_dead, key="all_dead")]


def _dead_readings(plan: Plan, each: Isolation) -> tuple[Reading, ...]:
    zero = plan.say("order.no_voltage")
    return (
        Reading(plan.say("order.tester_before"), "V"),
        *(Reading(pair, "V", zero) for pair in each.pairs),
        Reading(plan.say("order.tester_after"), "V"),
    )


def connecting(plan: Plan, tests: list[DueTest], runs: list[str], all_joints: list[Joint]) -> list[WorkStep]:
    """Pull, test the new conductors, connect every device of the job, move circuits."""
    before = [test.id for test in tests if test.when == "before power"]
    steps = [
        _step(plan, PULL, "connect", tuple(dict.fromkeys([*runs, DEAD])), key="pull"),
        _step(plan, INSULATION, "connect", (PULL,), key="dead_tests", tests=", ".join(before)),
    ]
    for place, name, found in _places(plan, all_joints):
        step = _step(plan, f"job.connect-{place}", "connect", (INSULATION,), key="connect", name=name)
        steps.append(_with_torque(plan, step, found))
    for panel in plan.survey.job.panels:
        moved = [circuit.name or circuit.id for circuit in panel.circuits if circuit.state == "existing"]
        if panel.state == "new" and moved:
            words = {"panel": panel.name or panel.id, "circuits": ", ".join(moved)}
            after = (f"job.connect-{panel.id}",)
            steps.append(_step(plan, f"job.move-{panel.id}", "connect", after, key="move", **words))
    return steps


def _places(plan: Plan, all_joints: list[Joint]) -> list[tuple[str, str, list[Joint]]]:
    """Where conductors land, except in the units: each panel with its breakers and bars, each switch by itself."""
    graph, units = plan.installation, {part.id for part in plan.installation.of_kind("battery")}
    found: dict[str, tuple[str, list[Joint]]] = {}
    for joint in all_joints:
        device = graph.parts[joint.id.rpartition("/")[0]]
        if joint.terminal and device.id not in units:
            buses = [part for part, _ in graph.beside(device.id) if part.kind == "busbar"]
            place = buses[0] if device.kind == "breaker" and buses else device
            found.setdefault(place.id, (place.name, []))[1].append(joint)
    return [(id.replace("/", "-"), name, joints) for id, (name, joints) in found.items()]


def finishing(plan: Plan, tests: list[DueTest], so_far: list[WorkStep], unit_steps: list[WorkStep]) -> list[WorkStep]:
    """Labels, the check before power, return of the supply, tests with the unit running, hand-over."""
    mounted = tuple(step.id for step in so_far if step.stage == "fix")
    dead = tuple(step.id for step in unit_steps if step.stage != "power")
    connected = tuple(step.id for step in so_far if step.stage == "connect")
    labels = _step(plan, LABELS, "check", mounted or (DELIVERY,), count=len(plan.labels))
    check = _step(plan, CHECK, "check", (*dead, *connected, LABELS))
    early = [test.id for test in tests if test.when == "before the unit"]
    late = [test.id for test in tests if test.when == "unit running"]
    restore = _step(plan, RESTORE, "power", (CHECK,), tests=", ".join(early))
    alive = tuple(step.id for step in unit_steps if step.stage == "power") or (RESTORE,)
    return [
        labels._replace(evidence=(plan.say("order.keep_photo"),)),
        check._replace(readings=_seen(plan)),
        restore._replace(cautions=(plan.say("order.restore_caution"),)),
        _step(plan, LIVE_TESTS, "prove", alive, key="live_tests", tests=", ".join(late))._replace(
            cautions=(plan.say("order.live_caution"),)
        ),
        _step(plan, HANDOVER, "hand over", (LIVE_TESTS,))._replace(readings=(Reading(plan.say("order.signed"), ""),)),
    ]


def _seen(plan: Plan) -> tuple[Reading, ...]:
    """What passing checks ask to be provided is seen on site, one by one."""
    asked = [Reading(plan.say("order.condition", condition=text), "") for text in plan.conditions]
    return (*asked, Reading(plan.say("order.checked_by"), ""))


def sheet_drills(plan: Plan) -> bool:
    """True where the data sheet's own steps drill the holes of the unit."""
    return any(drills(step) for step in plan.sheets["battery"].sheet.steps)


def drilled_by(plan: Plan, unit: str) -> str:
    """The step of the job after which the unit's own steps may begin to fix it."""
    return DUST if sheet_drills(plan) or not any(held.id == unit for held in plan.held) else mount_id(unit)


def mount_id(device: str) -> str:
    """Id of the step that fixes a device."""
    return f"job.mount-{device.replace('/', '-')}"


def _with_torque(plan: Plan, step: WorkStep, found: list[Joint]) -> WorkStep:
    torque = tuple(plan.say("order.torque", name=joint.name, torque=joint.shown) for joint in found)
    return step._replace(torque=torque, readings=step.readings + torque_readings(plan, found))


def _step(plan: Plan, id: str, stage: str, after: tuple[str, ...], /, key: str = "", **words: object) -> WorkStep:
    text = plan.say(f"order.{key or id.removeprefix('job.').replace('-', '_')}", **words)
    return WorkStep(id, stage, text, tuple(dict.fromkeys(after)), "job")
