"""The steps of the job after the last conductor: labels, the check, the supply back, live tests, hand-over."""

from collections.abc import Sequence

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork import direct, fronts, generators
from standfast.fieldwork.arc_fault import protected
from standfast.fieldwork.isolation import Isolation
from standfast.fieldwork.job_steps import (
    CHECK,
    CLOSED_TESTS,
    DELIVERY,
    HANDOVER,
    INSULATION,
    LABELS,
    LIVE_TESTS,
    RESTORE,
    SETTINGS,
    job_step,
    named_tests,
)
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.of_sheet import own_way
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.fieldwork.tests_at import READ_BACK

AT_HAND = ("anchorage", "lifting")
"""Trades whose conditions are seen at a step of their own; all others are seen before power."""


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
    connected = tuple(step.id for step in so_far if step.stage in ("connect", "check"))
    closed = job_step(
        plan, CLOSED_TESTS, "check", (*dead, *connected),
        tests=named_tests(plan, [test.id for test in tests if test.when == "connected"]),
    )  # fmt: skip
    shut = fronts.on(plan, so_far)
    labels = job_step(plan, LABELS, "check", mounted or (DELIVERY,), count=len(plan.labels))
    check = job_step(plan, CHECK, "check", (*dead, *connected, LABELS, CLOSED_TESTS, *(step.id for step in shut)))
    early = [test.id for test in tests if test.when == "before the unit"]
    shown = {step.shows for step in unit_steps}
    late = [test for test in tests if test.when == "unit running" and not (test.shows and test.shows in shown)]
    read = [test.id for test in late if test.key == READ_BACK]
    cleared = next((step.clears for step in so_far if step.id == INSULATION), ())
    restore = _restore(plan, isolations, named_tests(plan, early), (CHECK, *direct.bare(plan)))
    arrays = direct.joining_arrays(plan, tests)
    closes = direct.closing_dc(plan, tests)
    alive = tuple(step.id for step in (*unit_steps, *arrays, *closes) if step.stage == "power") or (RESTORE,)
    settings = [job_step(plan, SETTINGS, "prove", alive, key="settings", tests=named_tests(plan, read))] if read else []
    tried = named_tests(plan, [test.id for test in late if test.id not in read])
    set_first = tuple(step.id for step in settings)
    live = job_step(plan, LIVE_TESTS, "prove", (*alive, *set_first), key="live_tests", tests=tried)
    return [
        labels._replace(readings=_labelled(plan), evidence=(plan.say("order.keep_photo"),)),
        closed._replace(clears=cleared),
        *shut,
        check._replace(readings=_seen(plan)),
        *direct.joined(plan),
        restore._replace(cautions=(plan.say("order.restore_caution"), *restore.cautions)),
        *arrays,
        *closes,
        *settings,
        live._replace(cautions=(plan.say("order.live_caution"),)),
        job_step(plan, HANDOVER, "hand over", (LIVE_TESTS,))._replace(
            readings=(Reading(plan.say("order.signed"), "", kind="name"),)
        ),
    ]


def _labelled(plan: Plan) -> tuple[Reading, ...]:
    """The labels of each device, to be ticked."""
    at: dict[str, list[str]] = {}
    for each in plan.labels:
        at.setdefault(each.at, []).append(each.id)
    return tuple(
        Reading(plan.say("order.labels_at", name=name, ids=", ".join(ids)), "", ticked=True) for name, ids in at.items()
    )


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
    return (*asked, Reading(plan.say("order.checked_by"), "", kind="name"))
