"""The steps of the job that make dead what hands reach into: opened, locked and tagged everywhere, then proved."""

from collections.abc import Container

from standfast.commissioning.limit import NO_VOLTAGE
from standfast.design.installation.graph import PartKind
from standfast.fieldwork import fronts
from standfast.fieldwork.isolation import Isolation, Opening, isolation
from standfast.fieldwork.job_steps import DEAD, DELIVERY, job_step
from standfast.fieldwork.live_sides import still_live
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.sheet_steps import locks
from standfast.fieldwork.steps import Reading, WorkStep

ENTERED: tuple[PartKind, ...] = ("busbar", "disconnect", "transfer equipment", "fuse")
"""Kinds of part that a person reaches into."""


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
    bare = fronts.off(plan, isolations, held or after or (DELIVERY,))
    proved = [_prove(plan, each, (*held, *(step.id for step in bare))) for each in isolations]
    return [*opened, *bare, *proved, _all_dead(plan, tuple(step.id for step in proved) or (DELIVERY,))]


def _all_dead(plan: Plan, after: tuple[str, ...]) -> WorkStep:
    """Everything is proved dead and signed for; what is new is tested too before hands reach into it."""
    added = [part for part in plan.installation.of_kind(*ENTERED) if not part.existing and part.id not in _ids(plan)]
    step = job_step(plan, DEAD, "isolate", after, key="all_dead")
    zero, names = plan.say("order.no_voltage"), [plan.say("order.dead_new", name=part.name) for part in added]
    return step._replace(
        readings=tuple(Reading(name, "V", zero, bounds=(NO_VOLTAGE,)) for name in names),
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
    away = tuple(
        plan.say("order.away_caution", switch=opening.switch, at=opening.at) for opening in each.openings if opening.at
    )
    return step._replace(
        first=stops, cautions=(*still_live(plan, each), *away, *kept, *each.told), turns=_turned_off(plan, each, turned)
    )


def _turned_off(plan: Plan, each: Isolation, turned: Container[str]) -> tuple[Turn, ...]:
    """What is opened and locked, but for what an earlier step has; a fuse is taken out and takes no lock."""
    kinds = {part.id: part.kind for part in plan.installation.parts.values()}
    opened, locked = ([id for id in ids if id not in turned] for ids in (each.opened, each.locked))
    found = [Turn(id, "open") for id in opened if kinds[id] == "fuse"]
    for id in (id for id in opened if kinds[id] != "fuse"):
        found += [Turn(id, "open"), Turn(id, "lock")]
    return (*found, *(Turn(id, "lock") for id in locked if kinds[id] != "fuse"))


def opens(plan: Plan, opening: Opening) -> str:
    """A switch, where it is when it is in another building, and what it holds off."""
    words = {"switch": opening.switch, "sources": ", ".join(opening.sources), "at": opening.at}
    return plan.say("order.opens_away" if opening.at else "order.opens", **words)


def placed(plan: Plan, opening: Opening) -> str:
    """A switch, with its panel where that is in another building."""
    return plan.say("order.switch_away", switch=opening.switch, at=opening.at) if opening.at else opening.switch


def _prove(plan: Plan, each: Isolation, held: tuple[str, ...]) -> WorkStep:
    key = "dead_dc" if each.direct else "dead"
    words = {"panel": each.panel, **({"places": _outside(plan, each)} if each.direct else {})}
    step = job_step(plan, f"{DEAD}-{each.id}", "isolate", held, key=key, **words)
    return step._replace(
        readings=_dead_readings(plan, each), cautions=(plan.say("order.dead_caution"),), proves=each.terminals,
        behind=() if each.direct else fronts.behind(plan, (each.id,)),
        waited=each.terminals if each.direct else (),
    )  # fmt: skip


def _outside(plan: Plan, each: Isolation) -> str:
    """Where a tester reaches the DC side of an inverter while its cover is on: at the fuses and switches before it."""
    names = [plan.installation.parts[id].name for id in dict.fromkeys((*each.opened, *each.locked))]
    return ", ".join(names) or plan.say("order.dc_ends")


def _dead_readings(plan: Plan, each: Isolation) -> tuple[Reading, ...]:
    zero = plan.say("order.no_voltage")
    return (
        Reading(plan.say("order.tester_before"), "V"),
        *(Reading(pair, "V", zero, bounds=(NO_VOLTAGE,)) for pair in each.pairs),
        *(
            Reading(plan.say("order.dead_lugs", pair=pair, switch=switch), "V", zero, bounds=(NO_VOLTAGE,))
            for switch in each.lugs
            for pair in each.pairs
        ),
        Reading(plan.say("order.tester_after"), "V"),
    )
