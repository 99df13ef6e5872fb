"""What stays live although everything on the job is open and locked: the far sides of the switches that were opened."""

from standfast.fieldwork.isolation import Isolation
from standfast.fieldwork.plan import Plan


def told_live(plan: Plan, each: Isolation) -> tuple[str, ...]:
    """What stays live before the first open switch, and who can end that: another switch ahead, or the utility."""
    key = "still_live_to" if each.ahead else "still_live"
    return tuple(plan.say(f"order.{key}", switch=switch, ahead=each.ahead) for switch in each.supply[:1])


def still_live(plan: Plan, each: Isolation) -> tuple[str, ...]:
    """The same, and the far side of every switch that holds off another source."""
    guarded = (plan.say("order.still_live_source", switch=switch) for switch in each.guarded)
    return (*told_live(plan, each), *guarded)
