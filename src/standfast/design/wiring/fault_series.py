"""Series ratings: a breaker that cannot break the fault current by itself, with a device ahead that helps.

It holds for the tested combinations that the label of the panel names, and only while nothing between both devices
drives current into the fault past the first: a source on the busbar, a battery above all, or motors beyond a share of
the rating of the lower device (240.86).
"""

from collections.abc import Sequence

from standfast.design.wiring.listed import unlisted
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Source, beyond, other_sources
from standfast.rulebooks.nfpa70 import overcurrent
from standfast.sheet import Check, Value, at_most, missing, settle, total

FED = (
    "the label of the panel states a series rating, but {}: a fault is fed past the device ahead, and no series rating "
    "holds (240.86)"
)
MARKED = (
    "series combination {}, as the label of the panel states it; marked by 110.22(C), replaced by the same devices only"
)


def judged(
    task: Material, panel: str, check: Check, own: Value, added: Sequence[Source], *, new: bool = False
) -> Check:  # fmt: skip
    """A breaker that fails by its own rating, with the series rating that the label of its panel may state.

    Args:
        task: the job.
        panel: it is in; empty where nobody said.
        check: of its own rating.
        own: its own interrupting rating in kA.
        added: every source that the job adds.
        new: whether it is a new breaker, whose data sheet has to state the combination too.
    """
    if check.verdict != "fail" or check.demand is None or not panel or not task.panel(panel).series_label:
        return check
    fed = feeding(task, panel, added)
    if fed:
        return check._replace(clause=task.nec.clause("series_rating"), reason=FED.format(fed))
    ahead = set(task.panel(panel).series_label)
    rating = task.job.fact(f"panels.{panel}.series_rating", "I_series", "kA")
    if new:
        sheet = task.sheets.get("breaker")
        switch = None if sheet is None else sheet.content.switch
        ahead &= set(() if switch is None else switch.series_with)
        rating = task.of("breaker", "switch.series_interrupting", "I_series", "kA")
    if not ahead:
        why = "the data sheet of the new breaker names no device ahead that the label of the panel names (240.86(B))"
        return check._replace(clause=task.nec.clause("series_rating"), reason=why)
    return _compared(task, panel, check, check.demand, own, rating, sorted(ahead))


def feeding(task: Material, panel: str, added: Sequence[Source]) -> str:
    """What drives current into the busbar of a panel beside the grid, in words; empty where nothing does."""
    found = [each.id.replace("-", " ") for each in beyond(task, panel, added)]
    found += [each.name or each.id for below in task.below(panel) for each in other_sources(task, below)]
    return f"{' and '.join(found)} on its busbar drives current into it" if found else ""


def _compared(
    task: Material, panel: str, check: Check, fault: Value, own: Value, rating: Value, ahead: list[str]
) -> Check:  # fmt: skip
    clause = task.nec.clause("series_rating")
    motors = settle(
        check.id, check.title, clause,
        lambda: at_most(check.id, check.title, clause, _motors(task, panel), overcurrent.series_motors(task.nec, own)),
    )  # fmt: skip
    if motors.verdict != "pass":
        return motors._replace(reason=f"motors between both devices: {motors.reason or 'beyond 1 % of its rating'}")
    return at_most(check.id, check.title, clause, fault, rating, condition=MARKED.format("with " + " or ".join(ahead)))


def _motors(task: Material, panel: str) -> Value:
    """Full-load currents in A of the motors on a panel and on those fed from it."""
    found = list[Value]()
    for each in task.below(panel):
        for one in task.panel(each).circuits:
            path = f"panels.{each}.circuits.{one.id}"
            if one.motor is not None:
                found.append(task.job.fact(f"{path}.motor.full_load", "I_FL", "A"))
            elif one.has_motor is not False and one.feeds is None:
                found.append(missing("I_FL", "A", f"{path}.has_motor"))
        gap = unlisted(task, each)
        found += [] if gap is None else [missing("I_FL", "A", gap.how, gap)]
    return total("I_motors", found, "A")
