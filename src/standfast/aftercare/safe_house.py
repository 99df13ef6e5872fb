"""The house made safe when the battery has left it: fed again, joined to ground once, tested, labelled, and told."""

from collections.abc import Iterator, Sequence

from standfast.aftercare.apart import Apart
from standfast.aftercare.leaving import Leaving
from standfast.aftercare.making import step
from standfast.aftercare.retests import dead_ids
from standfast.commissioning.due_test import DueTest
from standfast.design.installation.graph import Part
from standfast.design.wiring.bonds import Bonds
from standfast.fieldwork import generators
from standfast.fieldwork.job_steps import named_tests
from standfast.fieldwork.making_dead import entered
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.house import front_id
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep

STAGE = "make the house safe"
BOND, TESTED, CLOSED, RESTORE, LIVE = "house.bond", "house.dead-tests", "house.closed", "house.restore", "house.live"
Taken = dict[str, str]
"""By part that leaves, the step with which it is gone."""


def circuits_out(plan: Plan, leaves: Leaving, after: tuple[str, ...]) -> tuple[list[WorkStep], Taken]:
    """Breakers, switches and fuses of the battery come out; a feeder whose island switch leaves is joined through.

    Args:
        plan: the job as built.
        leaves: what leaves.
        after: everything was proved dead, and the conductors are out of the units.
    """
    found, taken = list[WorkStep](), Taken()
    for panel in leaves.panels:
        beside = {part.id for part, _ in plan.installation.beside(panel.id)}
        parts = [part for part in leaves.parts if part.kind == "breaker" and part.id in beside]
        if parts:
            words = {"panel": panel.name, "names": ", ".join(part.name for part in parts)}
            out = step(plan, f"house.out-{panel.id}", STAGE, after, "breakers_out", **words)
            reached = (*entered(plan, panel.id), *(name for part in parts for name in entered(plan, part.id)))
            found.append(out._replace(touches=tuple(dict.fromkeys(reached)), behind=(front_id(panel.id),), hands=True))
            taken |= {part.id: out.id for part in parts}
    for part in leaves.parts:
        if part in leaves.bypassed:
            out = _through(plan, part, after)
        elif part.kind in ("disconnect", "fuse") or (part.kind == "breaker" and part.id not in taken):
            out = step(plan, f"house.out-{part.id.replace('/', '-')}", STAGE, after, "switch_out", name=part.name)
        elif part.kind == "shutdown switch":
            out = step(plan, f"house.out-{part.id}", STAGE, after, "shutdown_out", name=part.name)
            found.append(out)
            taken[part.id] = out.id
            continue
        else:
            continue
        found.append(out._replace(touches=entered(plan, part.id), hands=True))
        taken[part.id] = out.id
    return found, taken


def _through(plan: Plan, part: Part, after: tuple[str, ...]) -> WorkStep:
    """An island switch leaves and the feeder is joined through in its place."""
    beside = plan.installation.beside(part.id)
    above = ", ".join(there.name for there, link in beside if link.b == part.id)
    below = ", ".join(there.name for there, link in beside if link.a == part.id)
    words = {"name": part.name, "above": above, "below": below}
    found = step(plan, f"house.out-{part.id.replace('/', '-')}", STAGE, after, "through", **words)
    return found._replace(cautions=(plan.say("aftercare.through_caution"),))


def closing(
    plan: Plan, leaves: Leaving, bonds: Bonds, parted: Apart, tests: Sequence[DueTest], after: tuple[str, ...]
) -> list[WorkStep]:  # fmt: skip
    """Bond, dead tests, covers, return of the supply, live tests, labels, directory, notice and papers.

    Args:
        plan: the job as built.
        leaves: what leaves.
        bonds: joints of neutral and ground in the house that stays.
        parted: what was opened.
        tests: those of the job that are due of what stays.
        after: everything that leaves is out, and the feeders are joined through.
    """
    panels, before = ", ".join(part.name for part in leaves.panels), dead_ids(tests)
    key = "dead_tests" if before else "dead_tests_none"
    dead = step(plan, TESTED, STAGE, (BOND,), key, panels=panels, tests=named_tests(plan, before))
    fronts = [_front_on(plan, each.id, each.panel) for each in parted.panels]
    ready = (TESTED, "house.seal", *(each.id for each in fronts))
    closed = step(plan, CLOSED, STAGE, ready, "closed", panels=_panels(parted))
    ids = [each.id for each in tests if each.id not in before]
    live = step(plan, LIVE, "prove", (RESTORE,), "live_tests", tests=named_tests(plan, ids))
    stays = [part.name for part in leaves.graph.of_kind("inverter", "generator")]
    arrays = [part.name for part in leaves.graph.of_kind("array")]
    live_cautions = [plan.say("aftercare.array_stays", name=name) for name in arrays]
    return [
        _bond(plan, leaves, bonds, after),
        dead._replace(readings=tuple(_dead_readings(plan, leaves)), groups=("dead tests",)),
        step(plan, "house.seal", STAGE, after, "seal"),
        *fronts,
        closed._replace(groups=("check",)),
        _restore(plan, leaves, parted)._replace(groups=("supply",)),
        live._replace(
            readings=tuple(Reading(plan.say("aftercare.runs_again", name=name), "") for name in stays),
            cautions=tuple(live_cautions), groups=("live tests",),
        ),
        *_told(plan, leaves),
    ]  # fmt: skip


def _front_on(plan: Plan, panel: str, name: str) -> WorkStep:
    """The front of a panel goes on when it is tested."""
    found = step(plan, f"house.front-{panel}", STAGE, (TESTED,), "front_on", panel=name)
    return found._replace(puts_on=front_id(panel), readings=(Reading(plan.say("order.front_seen", panel=name), ""),))


def _panels(parted: Apart) -> str:
    return ", ".join(each.panel for each in parted.panels)


def _bond(plan: Plan, leaves: Leaving, bonds: Bonds, after: tuple[str, ...]) -> WorkStep:
    """Neutral and ground joined exactly once, where the table of the house that stays has it.

    The joint of a house is never opened: what it is joined to can be live. It is a second joint that is looked for.
    """
    rows = {(row.part, row.where) for row in bonds.rows if row.verdict == "pass"}
    where = "; ".join(plan.say("aftercare.bond_at", part=part, where=where) for part, where in sorted(rows))
    open_ = tuple(check.reason or check.title for check in bonds.checks if check.verdict != "pass")
    told = where or plan.say("aftercare.bond_unknown")
    found = step(plan, BOND, STAGE, after, "bond", where=told, ground=_ground(plan, bonds))
    cautions = tuple(plan.say("aftercare.bond_open", why=plan.foreign(each)) for each in dict.fromkeys(open_))
    apart = [panel.name for panel in leaves.panels if panel.name not in {row.where for row in bonds.rows}]
    readings = tuple(
        Reading(plan.say(key, panel=panel, ground=_ground(plan, bonds)), "Ω")
        for panel in apart for key in ("aftercare.bond_lifted", "aftercare.bond_made")
    )  # fmt: skip
    seen = Reading(plan.say("aftercare.bond_seen"), "")
    return found._replace(readings=(*readings, seen), cautions=cautions)


def _ground(plan: Plan, bonds: Bonds) -> str:
    """The word of the code for ground, in the language of the job."""
    return plan.say(f"aftercare.{bonds.ground}")


def _dead_readings(plan: Plan, leaves: Leaving) -> Iterator[Reading]:
    """What no test of the job asks of what was altered: each feeder that was joined through, each space left open."""
    for part in leaves.bypassed:
        yield Reading(plan.say("aftercare.continuity", name=part.name), "Ω")
        yield Reading(plan.say("aftercare.polarity", name=part.name), "")
    for panel in leaves.panels:
        yield Reading(plan.say("aftercare.spaces_closed", name=panel.name), "")


def _restore(plan: Plan, leaves: Leaving, parted: Apart) -> WorkStep:
    """The supply comes back from the utility on; what has left is not closed, a generator's breaker stays open."""
    graph = leaves.graph
    opened = [id for id in parted.opened if id in graph.parts]
    opened.sort(key=lambda id: min((len(graph.path(each.id, id)) for each in graph.of_kind("utility")), default=0))
    closed, stay = generators.parted(graph, [graph.parts[id].name for id in opened])
    found = step(plan, RESTORE, "power", (CLOSED,), "restore", switches=plan.say("order.then").join(closed))
    turns: tuple[Turn, ...] = tuple(generators.back(graph, opened))
    cautions = (plan.say("order.restore_caution"), *(plan.say("order.generator_stays", switch=each) for each in stay))
    return found._replace(turns=turns, cautions=cautions)


def _told(plan: Plan, leaves: Leaving) -> Iterator[WorkStep]:
    gone = {part.name for part in leaves.parts}
    none = plan.say("aftercare.labels_none")
    off, kept = (
        ", ".join(f"{each.id} ({each.at})" for each in plan.labels if (each.at in gone) == wanted) or none
        for wanted in (True, False)
    )
    keep = (plan.say("order.keep_photo"),)
    yield step(plan, "house.labels", "leave", (LIVE,), "labels", off=off, kept=kept)._replace(evidence=keep)
    yield step(plan, "house.directory", "leave", (LIVE,), "directory")
    utility = plan.survey.job.utility.name or plan.say("common.not_known")
    notice = step(plan, "house.notice", "leave", (LIVE,), "notice", utility=utility)
    yield notice._replace(readings=(Reading(plan.say("aftercare.sent"), ""),))
    papers = step(plan, "house.papers", "leave", ("house.labels", "house.directory", "house.notice"), "papers")
    signed = Reading(plan.say("order.signed"), "")
    yield papers._replace(readings=(Reading(plan.say("aftercare.waste_paper"), ""), signed), groups=("hand over",))
