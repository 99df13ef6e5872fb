"""The work order: every step of the job in one order, with torques, indications, cautions and spaces for readings."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.commissioning.due import due_tests
from standfast.commissioning.due_test import DueTest
from standfast.fieldwork import brought, joining, linking, proof_of_dead, safeguards, sealing, tests_at
from standfast.fieldwork.finishing import finishing
from standfast.fieldwork.holds import Hold, holds
from standfast.fieldwork.holes import HoleCard, hole_card
from standfast.fieldwork.instruments import site_of
from standfast.fieldwork.isolation import Isolation, isolations
from standfast.fieldwork.joints import Joint, joints
from standfast.fieldwork.making_dead import isolating
from standfast.fieldwork.order.acts import Acts
from standfast.fieldwork.order.decide import Unsafe, Why
from standfast.fieldwork.order.from_steps import acts_of, step_of
from standfast.fieldwork.order.house import House, house_of
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.order.redo import done_again
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.putting_up import arriving, fixing
from standfast.fieldwork.running import running
from standfast.fieldwork.steps import WorkStep, from_sheet
from standfast.fieldwork.tied import bounds

WHY: dict[Why, str] = {
    "live": "live", "live again after the proof": "again", "not proved dead": "unproved", "still charged": "charged",
    "cover on": "covered", "cover off": "bare", "cover off at the end": "uncovered",
    "fed before its test": "untested", "before its turn": "early", "joint not tight": "loose",
    "left in at the end": "left_in", "apart at the end": "apart", "sensor open": "sensor",
}  # fmt: skip


RULES = ("person", "maker", "stop", "two", "away", "ladder", "retorque", "cells")
"""What holds the whole day, in the order in which it is told."""


class Decided(NamedTuple):
    """The house, the acts of the work, and what some order of them makes unsafe."""

    house: House
    acts: Acts
    unsafe: tuple[Unsafe, ...]


class WorkOrder(NamedTuple):
    """The work order of a job.

    Attributes:
        head: name, place, revision, date and scope, as they stand in the job file.
        rule: how the order was made, and what holds in every other that the steps allow; it is printed.
        unsafe: what does not, as cautions; empty where every allowed order is safe.
        decided: the same as data, with the house and the acts that it was decided on.
        rules: what holds the whole day, before any step.
        steps: in order.
        numbers: step id → its number on paper.
        isolations: how each panel is made dead.
        joints: the torque table.
        holes: the hole card.
        tests: the tests due.
        holds: where a second person looks before the work goes on.
        redo: of each step that opens, lands or exchanges something: the steps that have to be done again, in order,
            where it is done once more after everything is done.
        done_at: test → the step that does it.
        amounts: of steps that no list of the installation knows: what each consists of, by kind and number; None where
            the number is not known.
        waits_min: of the same: minutes that pass after it and hold nobody.
        together: steps of which the second is done on the day of the first.
        outside: steps that wait for somebody of another house, nobody knows how long.
    """

    head: tuple[tuple[str, str], ...]
    rule: str
    unsafe: tuple[str, ...]
    rules: tuple[str, ...]
    steps: tuple[WorkStep, ...]
    numbers: dict[str, int]
    isolations: tuple[Isolation, ...]
    joints: tuple[Joint, ...]
    holes: HoleCard
    tests: tuple[DueTest, ...]
    decided: Decided
    holds: tuple[Hold, ...] = ()
    redo: Mapping[str, tuple[str, ...]] = {}
    done_at: Mapping[str, str] = {}
    amounts: Mapping[str, Sequence[tuple[str, float | None]]] = {}
    waits_min: Mapping[str, float] = {}
    together: Sequence[tuple[str, str]] = ()
    outside: frozenset[str] = frozenset()


def work_order(plan: Plan) -> WorkOrder:
    """Put the work order of a job together.

    Raises:
        BadFormula: where the steps of a data sheet and those of the job wait for each other.
    """
    card, all_joints = hole_card(plan), joints(plan)
    tests, dead = due_tests(site_of(plan)), isolations(plan)
    steps = arriving(plan) + fixing(plan, card, all_joints)
    mounted = [step.id for step in steps if step.id.startswith("job.mount-")]
    runs = running(plan, mounted)
    ran = tuple(step.id for step in runs)
    units = [step for each in plan.devices for step in from_sheet(plan, each, all_joints, bounds(plan, each))]
    units = tests_at.timed(plan, tests, proof_of_dead.written(plan, units))
    steps += units + runs + isolating(plan, dead, ran or tuple(mounted))
    steps += joining.connecting(plan, tests, list(ran), all_joints)
    steps += safeguards.joined(plan) + linking.steps(plan) + sealing.steps(plan)
    steps += brought.steps(plan)
    steps += finishing(plan, tests, dead, steps, units)
    done = ordered(steps)
    numbers = {step.id: number for number, step in enumerate(done, 1)}
    decided = _decided(plan, done, all_joints)
    rules = tuple(plan.say(f"order.rule_{name}") for name in RULES)
    return WorkOrder(
        _head(plan),
        plan.say("order.rule"),
        _told(plan, done, numbers, decided),
        rules,
        tuple(done),
        numbers,
        tuple(dead),
        tuple(all_joints),
        card,
        tuple(tests),
        decided,
        holds(plan, tuple(done), tuple(tests)),
        done_again(decided.acts, list(numbers)),
        tests_at.done_at(tests, done),
    )


def _decided(plan: Plan, steps: list[WorkStep], all_joints: list[Joint]) -> Decided:
    house = house_of(plan)
    house = house._replace(names={**house.names, **{each.id: each.name for each in all_joints}})
    acts = acts_of(steps)
    return Decided(house, acts, tuple(proven(house.site, acts)))


def _told(plan: Plan, steps: list[WorkStep], numbers: dict[str, int], decided: Decided) -> tuple[str, ...]:
    """What does not hold in every order: each step once, with the shortest order that shows it."""
    house = decided.house
    shortest: dict[str, Unsafe] = {}
    for each in decided.unsafe:
        id = step_of(each.act or each.order[-1])
        if id not in shortest or len(each.order) < len(shortest[id].order):
            shortest[id] = each
    text = {step.id: step.text for step in steps}
    return tuple(
        plan.say(
            f"order.unsafe_{WHY[each.why]}", number=numbers[id], text=text[id], what=_what(house, text, each.what),
            source=house.called(each.source),
            order=", ".join(dict.fromkeys(str(numbers[step_of(act)]) for act in each.order)),
        )
        for id, each in shortest.items()
    )  # fmt: skip


def _what(house: House, text: Mapping[str, str], what: str) -> str:
    """A part, switch or cover by its name; a step by its text."""
    return text.get(step_of(what)) or house.called(what)


def _head(plan: Plan) -> tuple[tuple[str, str], ...]:
    job = plan.survey.job
    rows = [
        ("job", job.job.name),
        ("address", job.site.address or plan.say("common.not_known")),
        ("revision", job.job.revision),
        ("date", job.job.date.isoformat()),
        ("firm", job.contractor.firm or plan.say("common.not_known")),
        ("responsible", job.contractor.responsible or plan.say("common.not_known")),
        ("scope", job.job.scope or plan.say("common.not_known")),
    ]
    if job.job.invented:
        rows.append(("invented", plan.say("order.invented")))
    return tuple((plan.say(f"order.head_{key}"), text) for key, text in rows)
