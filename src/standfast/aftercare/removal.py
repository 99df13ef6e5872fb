"""The removal: everything that the job added for the battery taken away again, and the house made safe.

It is planned from the house as it was built to the goal: no part of the battery left, the house fed by its supply,
neutral and ground joined once. The same decision as for the installation says what is unsafe in any order.
"""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.aftercare import safe_house
from standfast.aftercare.apart import Apart, apart, house_apart
from standfast.aftercare.carriage import Asked, Condition, asked
from standfast.aftercare.leaving import Leaving, leaving
from standfast.aftercare.making import ASSESSED, CONDITION, DEAD, DEAD_HOUSE, DISCHARGE, LIFT, STAGES, TELL, step
from standfast.aftercare.retests import due_of_house
from standfast.aftercare.supply import Supply, supply_of, supply_step
from standfast.aftercare.undone import cables_out, down
from standfast.commissioning.due_test import DueTest
from standfast.design.installation import Installation
from standfast.design.wiring.bonds import Bonds
from standfast.fieldwork.isolation import isolation
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.house import all_gone, as_built
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.fieldwork.work_order import Decided
from standfast.shelf import Edition


class Removal(NamedTuple):
    """The removal of a job.

    Attributes:
        condition: in which the battery leaves.
        steps: in one order.
        decided: the house, the acts, and what some order of them makes unsafe.
        leaves: what leaves and what stays.
        taken: by part that leaves, the step with which it is gone.
        parted: how everything is parted from power.
        asked: what the rules of carriage ask of the units.
        bonds: joints of neutral and ground in the house that stays.
        tests: those of the job that are due of what stays, with their own numbers.
        supply: who has power while a damaged unit waits for its assessment; None of a sound one.
    """

    condition: Condition
    steps: tuple[WorkStep, ...]
    decided: Decided
    leaves: Leaving
    taken: Mapping[str, str]
    parted: Apart
    asked: tuple[Asked, ...]
    bonds: Bonds
    tests: tuple[DueTest, ...] = ()
    supply: Supply | None = None

    @property
    def numbers(self) -> dict[str, int]:
        """Step id → its number on paper."""
        return {each.id: number for number, each in enumerate(self.steps, 1)}


def built(plan: Plan) -> Plan:
    """The job with everything of it counted as existing."""
    graph = plan.installation
    parts = [part._replace(existing=True) for part in graph.parts.values()]
    return plan._replace(installation=Installation(parts, graph.links))


def removal(plan: Plan, carriage: Edition | None, bonds: Bonds, condition: Condition = "sound") -> Removal:
    """Plan the removal of a job.

    Args:
        plan: the job.
        carriage: the rules of carriage of the country; None where none are held.
        bonds: joints of neutral and ground in the house that stays, of `leaving`.
        condition: in which the battery leaves, as a person found it on site.

    Raises:
        BadFormula: where the steps of a data sheet wait for each other.
    """
    leaves, now = leaving(plan), built(plan)
    steps = prepared(now, condition)
    ready = tuple(each.id for each in steps)
    switches = [part for part in leaves.parts if part.kind in ("breaker", "disconnect", "fuse", "transfer equipment")]
    stays = now._replace(installation=leaves.graph)
    house, supply, hold = all_gone(as_built(plan)), None, None
    if condition == "damaged":
        supply = supply_of(now, house)
        lift = next(each for each in steps if each.id == LIFT)  # nobody walks up to a unit that nobody has assessed
        steps = [each for each in steps if each.id != LIFT]
        ready = tuple(each.id for each in steps)
        hold = [supply_step(now, supply), _assessed(now), lift._replace(stage="make dead")]
    off = apart(now, now.devices, ready, hold)
    steps += off.steps
    free, gone = list[str](), dict[str, str]()
    for device in now.devices:
        cables = cables_out(now, device, (DEAD,))
        out = (cables[-1].id,) if cables else (DEAD,)
        parts = down(now, device, device.sheet.steps, out, off.leads.get(device.id, ""))
        aside = _aside(now, device, tuple(each.id for each in parts) or out)
        steps += [*cables, *parts, aside]
        free += [aside.id]
        gone |= {device.id: aside.id, f"{device.id}/inverter": aside.id}
    turned = {turn.gate for each in off.steps for turn in each.turns}
    panels = [isolation(stays, panel) for panel in leaves.panels]
    house_off = house_apart(now, panels, switches, tuple(free) or (DEAD,), turned)
    steps += house_off.steps
    off = off._replace(steps=(*off.steps, *house_off.steps), panels=house_off.panels)
    circuits, taken = safe_house.circuits_out(now, leaves, (DEAD_HOUSE,))
    taken |= {id: one for id, one in gone.items() if id in {part.id for part in leaves.parts}}
    steps += circuits
    tests = due_of_house(plan, leaves)
    steps += safe_house.closing(now, leaves, bonds, off, tests, tuple(each.id for each in circuits) or (DEAD_HOUSE,))
    told = [asked(now, carriage, condition, each) for each in now.of_role("battery")[:1]]
    steps += _packed(now, condition)
    done = tuple(ordered(steps, STAGES))
    acts = acts_of(done)
    decided = Decided(house, acts, tuple(proven(house.site, acts)))
    rules = tuple(one for each in told for one in each)
    return Removal(condition, done, decided, leaves, taken, off, rules, bonds, tuple(tests), supply)


def prepared(plan: Plan, condition: Condition, key: str = "tell") -> list[WorkStep]:
    """Who is told, in what condition it is, to what state of charge it is brought, how it will get down."""
    say, job = plan.say, plan.survey.job
    utility = job.utility.name or say("common.not_known")
    tell = step(plan, TELL, "prepare", (), key, owner=job.owner.name or say("common.not_known"), utility=utility)
    tell = tell._replace(
        readings=tuple(
            Reading(say(f"aftercare.told_{who}"), "") for who in ("owner", "utility", "monitoring", "insurer")
        )
    )
    seen = step(plan, CONDITION, "prepare", (), f"condition_{condition.replace('-', '_')}")
    seen = seen._replace(
        readings=(Reading(say("aftercare.assessed_by"), ""), Reading(say("aftercare.found"), "")),
        cautions=(say("aftercare.condition_caution"),) if condition != "damaged" else _kept_away(plan),
        evidence=(say("order.keep_photo"),),
    )
    lift = step(plan, LIFT, "prepare", (CONDITION,), "lift" if plan.lift else "lift_unknown", **_lifted(plan))
    return [tell, seen, *_charge(plan, condition), lift]


def _lifted(plan: Plan) -> dict[str, object]:
    if plan.lift is None:
        return {}
    return {"people": plan.lift.people, "aid": plan.lift.aid or plan.say("order.by_hand"), "reason": plan.lift.reason}


def _kept_away(plan: Plan) -> tuple[str, ...]:
    return tuple(plan.say(f"aftercare.damaged_{word}") for word in ("away", "charge", "alone"))


def _charge(plan: Plan, condition: Condition) -> list[WorkStep]:
    """To the state of charge that the data sheet states; it is never guessed. A damaged one is left as it is."""
    batteries = plan.of_role("battery")
    if condition == "damaged" or not batteries:
        return []
    data = batteries[0].data
    to = data.fact("removal.discharge_to", "SoC", "%")
    if to.missing:
        found = step(plan, DISCHARGE, "prepare", (TELL, CONDITION), "charge_unknown", file=data.file)
    else:
        words = {"charge": f"{to.quantity:g} %", "file": data.file}
        found = step(plan, DISCHARGE, "prepare", (TELL, CONDITION), "charge", **words)
    return [found._replace(readings=tuple(Reading(each.name, "%") for each in batteries))]


def _assessed(plan: Plan) -> WorkStep:
    """Nobody opens or moves a damaged unit before somebody who may has said how."""
    batteries = plan.of_role("battery")
    call = next((each.sheet.removal.damaged for each in batteries if each.sheet.removal is not None), None)
    found = step(plan, ASSESSED, "make dead", (), "assess", maker=call or plan.say("aftercare.maker_unknown"))
    readings = tuple(Reading(plan.say(f"aftercare.{word}"), "") for word in ("assessed_by", "assessed_as", "how_moved"))
    return found._replace(readings=readings, cautions=_kept_away(plan))


def _packed(plan: Plan, condition: Condition) -> list[WorkStep]:
    """Set down where it waits for the carrier; nobody says here that it may be carried."""
    found = list[WorkStep]()
    for device in plan.of_role("battery"):
        key = "quarantine" if condition == "damaged" else "set_down"
        down_at = step(plan, f"pack.{device.id}", "leave", (aside_id(device),), key, name=device.name)
        ship = step(
            plan, f"ship.{device.id}", "leave", (down_at.id,), f"ship_{condition.replace('-', '_')}", name=device.name
        )
        cautions = _kept_away(plan) if condition == "damaged" else ()
        found += [down_at._replace(cautions=cautions),
                  ship._replace(readings=(Reading(plan.say("aftercare.shipper"), ""),))]  # fmt: skip
    return found


def aside_id(device: Device) -> str:
    """Id of the step after which a device is off its place."""
    return f"aside.{device.id}"


def _aside(plan: Plan, device: Device, after: tuple[str, ...]) -> WorkStep:
    """Everything of a device is down: locks and spacers of its maker go back, and every contact is capped."""
    if device.role != "battery":
        return step(plan, aside_id(device), "take down", after, "aside", name=device.name)
    made = device.sheet.removal
    things = () if made is None else (*made.transport_locks, *made.spacers)
    key = "locks" if things else "locks_unknown"
    found = step(plan, aside_id(device), "take down", after, key, name=device.name, things="; ".join(things))
    return found._replace(evidence=(plan.say("order.keep_photo"),))
