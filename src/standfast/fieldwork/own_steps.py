"""The job's own steps: what no data sheet holds, because it depends on the house."""

from collections.abc import Container, Sequence

from standfast.commissioning.due_test import DueTest
from standfast.design.installation.graph import PartKind
from standfast.fieldwork import direct, generators, shutdown
from standfast.fieldwork.arc_fault import protected
from standfast.fieldwork.holes import HoleCard
from standfast.fieldwork.isolation import Isolation, Opening, isolation
from standfast.fieldwork.job_steps import (
    CHECK,
    CHECK_VAN,
    CLOSED_TESTS,
    DEAD,
    DELIVERY,
    DUST,
    HANDOVER,
    INSULATION,
    LABELS,
    LIFT,
    LIVE_TESTS,
    PAPERS,
    RESTORE,
    SCAN,
    SHUTDOWN,
    job_step,
    join_shutdown_id,
    named_tests,
    with_torque,
)
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.of_sheet import own_way
from standfast.fieldwork.plan import Device, Held, Laid, Plan, Run
from standfast.fieldwork.rows import counted
from standfast.fieldwork.sheet_steps import drills, hung_first, live_steps, locks
from standfast.fieldwork.steps import Bounds, Reading, WorkStep

ENTERED: tuple[PartKind, ...] = ("busbar", "disconnect", "transfer equipment", "fuse")
"""Kinds of part that a person reaches into."""
AT_HAND = ("anchorage", "lifting")
"""Trades whose conditions are seen at a step of their own; all others are seen before power."""


def bounds(plan: Plan, device: Device) -> Bounds:
    """Where the steps of a device's data sheet are tied in."""
    drilled = drilled_by(plan, device)
    own = device.role == "inverter"
    batteries, arrays = (plan.of_role("battery"), joining_arrays(plan)) if own else ([], [])
    return Bounds(
        delivered=DELIVERY, drilled=drilled, dead=DEAD, pulled=INSULATION, lift=LIFT, powered=RESTORE,
        shutdown=join_shutdown_id(device.id), far_dc=tuple(id for each in batteries for id in _joins_dc(each)),
        sources=(
            *(id for each in batteries for id in (*_starts(each), *direct.closes(plan, each))),
            *(step.id for step in arrays),
        ),
        tested_again=direct.tested_again_id(device.id),
        mounted=SHUTDOWN,
        drilled_all=_drilled_all(plan),
    )  # fmt: skip


def _drilled_all(plan: Plan) -> tuple[str, ...]:
    """The steps of all data sheets that drill."""
    return tuple(f"{each.id}.{step.id}" for each in plan.devices for step in each.sheet.steps if drills(step))


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


def _joins_dc(device: Device) -> list[str]:
    """The steps of a battery that join its DC conductors."""
    direct = {terminal.id for terminal in device.sheet.terminals if terminal.use == "dc"}
    return [f"{device.id}.{step.id}" for step in device.sheet.steps if step.joint in direct]


def _starts(device: Device) -> list[str]:
    """The steps of a battery that put power on it."""
    live = live_steps(device.sheet)
    return [f"{device.id}.{step.id}" for step in device.sheet.steps if step.id in live]


def arriving(plan: Plan) -> list[WorkStep]:
    """Papers, delivery, van."""
    serials = tuple(Reading(plan.say("order.serial_of", name=each.name), "") for each in plan.devices)
    return [
        job_step(plan, PAPERS, "arrive", (), revision=plan.survey.job.job.revision),
        job_step(plan, DELIVERY, "arrive", (PAPERS,))._replace(
            readings=serials, cautions=(plan.say("order.damaged"),), evidence=(plan.say("order.keep_photo"),)
        ),
        job_step(plan, CHECK_VAN, "arrive", (PAPERS,)),
    ]


def fixing(plan: Plan, card: HoleCard, all_joints: list[Joint]) -> list[WorkStep]:
    """Scan, dust control, everything that is fixed to a wall but not by a data sheet's own steps, and the lift."""
    by_sheet = {each.id for each in plan.devices if sheet_drills(each)}
    key = "scan" if card.holes else "scan_template"
    scan = job_step(plan, SCAN, "fix", (DELIVERY, CHECK_VAN), key=key, count=len(card.holes))
    dust = [plan.say(f"holes.dust_{base}") for base in plan.bases]
    steps = [
        scan._replace(first=(*card.stop, *_asked(plan, "anchorage")), cautions=(plan.say("order.scan_caution"),)),
        job_step(plan, DUST, "fix", (SCAN,))._replace(cautions=tuple(dust)),
    ]
    held = [each for each in plan.held if each.of not in by_sheet]
    steps += [_mount(plan, card, each, all_joints) for each in held]
    done = {each.id for each in held}
    for part in plan.installation.of_kind("busbar", "disconnect", "transfer equipment", "fuse"):
        if not part.existing and part.id not in done:
            key = "mount" if plan.framed else "mount_solid"
            steps.append(job_step(plan, mount_id(part.id), "fix", (DUST,), key=key, name=part.name))
    if plan.shut_down:
        steps.append(_shutdown(plan))
    return [*steps, _lift(plan)]


def _shutdown(plan: Plan) -> WorkStep:
    """The switch of the emergency shutdown; nobody begins while its cable has no way to a unit in another building."""
    if not shutdown.apart(plan):
        return job_step(plan, SHUTDOWN, "fix", (DUST,))
    step = job_step(plan, SHUTDOWN, "fix", (DUST,), key="mount_shutdown_apart")
    need = plan.say("materials.shutdown_route_need")
    return step._replace(
        first=(plan.say("order.holds", state=plan.say("order.route_settled", need=need)),),
        readings=(Reading(plan.say("order.route_as_built"), ""),),
    )


def _asked(plan: Plan, trade: str) -> tuple[str, ...]:
    """What the passing checks of a trade ask to be provided, each once."""
    return tuple(dict.fromkeys(plan.say("order.holds", state=each.text) for each in plan.asked(trade)))


def _mount(plan: Plan, card: HoleCard, held: Held, all_joints: list[Joint]) -> WorkStep:
    rows = [hole.id for hole in card.holes if hole.of == held.id]
    step = job_step(
        plan, mount_id(held.id), "fix", (DUST,),
        key="mount_at", name=held.name, holes=f"{rows[0]} – {rows[-1]}", fastener=held.fastener.content.name,
    )  # fmt: skip
    anchors = [joint for joint in all_joints if joint.id == f"{held.id}/anchors"]
    return with_torque(plan, step, anchors)


def _lift(plan: Plan) -> WorkStep:
    if plan.lift is None:
        return job_step(plan, LIFT, "hang", (DELIVERY,), key="lift_unknown")
    aid = plan.lift.aid or plan.say("order.by_hand")
    step = job_step(
        plan, LIFT, "hang", (DELIVERY,), key="lift", people=plan.lift.people, aid=aid, reason=plan.lift.reason
    )
    return step._replace(
        people=str(plan.lift.people), first=_asked(plan, "lifting"), cautions=(plan.say("order.lift_caution"),)
    )


def running(plan: Plan, mounted: list[str]) -> list[WorkStep]:
    """Raceways, up to but not into what is live. A run to a unit or inverter waits until all of them hang or stand."""
    steps = []
    for run in plan.runs:
        after = list(mounted)
        if "unit" in run.ends:
            after += [f"{each.id}.{id}" for each in plan.devices for id in hung_first(each.sheet)]
        steps.append(_run(plan, run, tuple(dict.fromkeys(after or [DELIVERY]))))
    for cable in plan.cables:
        after = list(mounted)
        if cable.unit:
            after += [f"{each.id}.{id}" for each in plan.devices for id in hung_first(each.sheet)]
        steps.append(_lay(plan, cable, tuple(dict.fromkeys(after or [DELIVERY]))))
    return steps


def _lay(plan: Plan, cable: Laid, after: tuple[str, ...]) -> WorkStep:
    """A cable along its route, up to but not into what is live."""
    kind = plan.said(cable.cable)
    areas = f"{counted(cable.area, plan.language)} + {counted(cable.protective, plan.language)}"
    return job_step(plan, f"job.run-{cable.id}", "run", after, key="lay", cable=kind, areas=areas, name=cable.name)


def _run(plan: Plan, run: Run, after: tuple[str, ...]) -> WorkStep:
    unknown = plan.say("common.not_known")
    raceway = unknown if run.raceway.missing else plan.say(f"materials.{run.raceway.word}")
    size = unknown if run.trade_size.missing else run.trade_size.word
    return job_step(plan, f"job.run-{run.id}", "run", after, key="run", raceway=raceway, size=size, name=run.name)


def isolating(plan: Plan, isolations: list[Isolation], after: tuple[str, ...]) -> list[WorkStep]:
    """Open, lock and tag everywhere first; then prove dead, every pair, with the tester proved before and after.

    The switches inside new devices are locked by steps of their data sheets: what was proved stays dead only with them.
    """
    opened, turned = list[WorkStep](), set[str]()
    for each in isolations:
        before = tuple(step.id for step in opened[-1:])  # one after the other, so that each switch is turned once
        opened.append(_open(plan, each, (*after, *before), turned))
        turned |= {*each.opened, *each.locked}
    inside = (f"{device.id}.{id}" for device in plan.devices for id in sorted(locks(device.sheet)))
    held = (*(step.id for step in opened), *inside)
    proved = [_prove(plan, each, held) for each in isolations]
    return [*opened, *proved, _all_dead(plan, tuple(step.id for step in proved) or (DELIVERY,))]


def _all_dead(plan: Plan, after: tuple[str, ...]) -> WorkStep:
    """Everything is proved dead and signed for; what is new is tested too before hands reach into it."""
    added = [part for part in plan.installation.of_kind(*ENTERED) if not part.existing and part.id not in _ids(plan)]
    step = job_step(plan, DEAD, "isolate", after, key="all_dead")
    zero = plan.say("order.no_voltage")
    return step._replace(
        readings=tuple(Reading(plan.say("order.dead_new", name=part.name), "V", zero) for part in added),
        proves=tuple(name for part in added for name in entered(plan, part.id)),
    )


def _ids(plan: Plan) -> set[str]:
    return {each.id for each in plan.devices}


def entered(plan: Plan, place: str) -> tuple[str, ...]:
    """The terminals that hands reach at a panel or switch, by the names that the house of the order has."""
    part = plan.installation.parts[place]
    if part.kind == "busbar":
        return isolation(plan, part).terminals
    return (f"{place}:line", f"{place}:load")


def _open(plan: Plan, each: Isolation, after: tuple[str, ...], turned: Container[str]) -> WorkStep:
    """Open, lock and tag what holds off each source; on a DC side also what is new and was never closed."""
    switches = "; ".join(opens(plan, opening) for opening in (*each.openings, *(each.kept_open if each.direct else ())))
    key = "open_dc" if each.direct else "open"
    step = job_step(
        plan, f"job.open-{each.id}", "isolate", after or (DELIVERY,), key=key, panel=each.panel, switches=switches
    )
    stops = tuple(plan.say("order.no_switch", source=source) for source in each.live)
    stay = "; ".join(opening.switch for opening in each.kept_open)
    kept = (plan.say("order.kept_open", switches=stay),) if stay else ()
    still = (
        *told_live(plan, each),
        *(plan.say("order.still_live_source", switch=switch) for switch in each.guarded),
    )
    away = tuple(
        plan.say("order.away_caution", switch=opening.switch, at=opening.at) for opening in each.openings if opening.at
    )
    return step._replace(
        first=stops, cautions=(*still, *away, *kept, *each.told), turns=_turned_off(plan, each, turned)
    )


def _turned_off(plan: Plan, each: Isolation, turned: Container[str]) -> tuple[Turn, ...]:
    """What is opened and locked, but for what an earlier step has; a fuse is taken out and takes no lock."""
    kinds = {part.id: part.kind for part in plan.installation.parts.values()}
    opened, locked = ([id for id in ids if id not in turned] for ids in (each.opened, each.locked))
    found = [Turn(id, "open") for id in opened if kinds[id] == "fuse"]
    for id in (id for id in opened if kinds[id] != "fuse"):
        found += [Turn(id, "open"), Turn(id, "lock")]
    return (*found, *(Turn(id, "lock") for id in locked if kinds[id] != "fuse"))


def told_live(plan: Plan, each: Isolation) -> tuple[str, ...]:
    """What stays live before the first open switch, and who can end that: another switch ahead, or the utility."""
    key = "still_live_to" if each.ahead else "still_live"
    return tuple(plan.say(f"order.{key}", switch=switch, ahead=each.ahead) for switch in each.supply[:1])


def opens(plan: Plan, opening: Opening) -> str:
    """A switch, where it is when it is in another building, and what it holds off."""
    words = {"switch": opening.switch, "sources": ", ".join(opening.sources), "at": opening.at}
    return plan.say("order.opens_away" if opening.at else "order.opens", **words)


def placed(plan: Plan, opening: Opening) -> str:
    """A switch, with its panel where that is in another building."""
    return plan.say("order.switch_away", switch=opening.switch, at=opening.at) if opening.at else opening.switch


def _prove(plan: Plan, each: Isolation, held: tuple[str, ...]) -> WorkStep:
    key = "dead_dc" if each.direct else "dead"
    step = job_step(plan, f"{DEAD}-{each.id}", "isolate", held, key=key, panel=each.panel)
    return step._replace(
        readings=_dead_readings(plan, each), cautions=(plan.say("order.dead_caution"),), proves=each.terminals,
        waited=each.terminals if each.direct else (),
    )  # fmt: skip


def _dead_readings(plan: Plan, each: Isolation) -> tuple[Reading, ...]:
    zero = plan.say("order.no_voltage")
    return (
        Reading(plan.say("order.tester_before"), "V"),
        *(Reading(pair, "V", zero) for pair in each.pairs),
        *(
            Reading(plan.say("order.dead_lugs", pair=pair, switch=switch), "V", zero)
            for switch in each.lugs
            for pair in each.pairs
        ),
        Reading(plan.say("order.tester_after"), "V"),
    )


def finishing(
    plan: Plan,
    tests: list[DueTest],
    isolations: list[Isolation],
    so_far: list[WorkStep],
    unit_steps: list[WorkStep],
) -> list[WorkStep]:
    """Labels, the check before power, return of the supply, tests with the unit running, hand-over."""
    mounted = tuple(step.id for step in so_far if step.stage == "fix")
    dead = tuple(step.id for step in unit_steps if step.stage != "power")
    connected = tuple(step.id for step in so_far if step.stage == "connect")
    labels = job_step(plan, LABELS, "check", mounted or (DELIVERY,), count=len(plan.labels))
    closed = job_step(
        plan, CLOSED_TESTS, "check", (*dead, *connected),
        tests=named_tests(plan, [test.id for test in tests if test.when == "connected"]),
    )  # fmt: skip
    check = job_step(plan, CHECK, "check", (*dead, *connected, LABELS, CLOSED_TESTS))
    early = [test.id for test in tests if test.when == "before the unit"]
    late = [test.id for test in tests if test.when == "unit running"]
    cleared = next((step.clears for step in so_far if step.id == INSULATION), ())
    restore = _restore(plan, isolations, named_tests(plan, early), (CHECK, *direct.bare(plan)))
    arrays = joining_arrays(plan, tests)
    closes = direct.closing_dc(plan, tests)
    alive = tuple(step.id for step in (*unit_steps, *arrays, *closes) if step.stage == "power") or (RESTORE,)
    live = job_step(plan, LIVE_TESTS, "prove", alive, key="live_tests", tests=named_tests(plan, late))
    return [
        labels._replace(evidence=(plan.say("order.keep_photo"),)),
        closed._replace(clears=cleared),
        check._replace(readings=_seen(plan)),
        *direct.joined(plan),
        restore._replace(cautions=(plan.say("order.restore_caution"), *restore.cautions)),
        *arrays,
        *closes,
        live._replace(cautions=(plan.say("order.live_caution"),)),
        job_step(plan, HANDOVER, "hand over", (LIVE_TESTS,))._replace(
            readings=(Reading(plan.say("order.signed"), ""),)
        ),
    ]


def _restore(plan: Plan, isolations: list[Isolation], tests: str, after: tuple[str, ...]) -> WorkStep:
    """The supply comes back from the utility on: every switch that was opened is closed, and no other.

    The breaker of a generator stays open: the grid feeds the house again.
    """
    panels = [each for each in isolations if not each.direct]
    supply = sorted(((place, switch) for each in panels for place, switch in enumerate(each.supply, each.ahead_count)))
    opened = (*(switch for _, switch in supply), *(each.switch for found in panels for each in found.openings))
    closed, stays = generators.parted(plan.installation, opened)
    switches = plan.say("order.then").join(closed)
    key = "restore" if switches else "restore_none"
    step = job_step(plan, RESTORE, "power", after, key=key, switches=switches, tests=tests)
    pressed = protected(plan)
    return step._replace(
        turns=_turned_on(plan, panels),
        cautions=(*step.cautions, *(plan.say("order.generator_stays", switch=each) for each in stays)),
        readings=tuple(Reading(plan.say("order.arc_fault_test", name=each.name or each.id), "") for each in pressed),
    )


def _turned_on(plan: Plan, panels: Sequence[Isolation]) -> tuple[Turn, ...]:
    """What was opened is unlocked and closed, what the utility feeds from it on; then the new breakers of feeders."""
    graph = plan.installation
    opened = dict.fromkeys(id for each in panels for id in each.opened)
    ordered = sorted(opened, key=lambda id: min(len(graph.path(source.id, id)) for source in graph.of_kind("utility")))
    found = generators.back(graph, ordered)
    own = {id for device in plan.devices for id in own_way(plan, device)}
    added = (part.id for part in graph.of_kind("breaker") if not part.existing and part.role == "breaker")
    return (*found, *(Turn(id, "close") for id in added if id not in own))


def _seen(plan: Plan) -> tuple[Reading, ...]:
    """What passing checks ask to be provided is seen on site, one by one."""
    here = [each for each in plan.conditions if each.id.partition(".")[0] not in AT_HAND]
    asked = [Reading(each.title, "", plan.say("order.condition", condition=each.text)) for each in here]
    return (*asked, Reading(plan.say("order.checked_by"), ""))


def sheet_drills(device: Device) -> bool:
    """True where the data sheet's own steps drill the holes of the device."""
    return any(drills(step) for step in device.sheet.steps)


def drilled_by(plan: Plan, device: Device) -> str:
    """The step of the job after which the device's own steps may begin to fix it."""
    held = [each.id for each in plan.held if each.of == device.id]
    return DUST if sheet_drills(device) or not held else mount_id(held[-1])


def mount_id(device: str) -> str:
    """Id of the step that fixes a device."""
    return f"job.mount-{device.replace('/', '-')}"
