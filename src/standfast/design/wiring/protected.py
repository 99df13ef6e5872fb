"""What protects the busbar of a panel: its main, or where it has lugs alone the device ahead of it."""

from standfast.design.installation.build import feeder_of
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import UTILITY
from standfast.sheet import Value, missing

LUGS, TAP = "feed-through lugs", "tap"


def device(task: Material, panel: str) -> Value:
    """The device in A that protects a busbar.

    Args:
        task: the job.
        panel: its panel.
    """
    for each in task.way_up(panel):
        content = task.panel(each)
        if not content.main_lugs:
            return task.job.fact(f"panels.{each}.main", "I_main", "A")
        if content.fed_by != LUGS:
            return ahead(task, each)
    return missing("I_main", "A", f"panels.{panel}.fed_from: the panel that feeds it")


def ahead(task: Material, panel: str) -> Value:
    """The device in A at the supply end of what feeds a panel."""
    content = task.panel(panel)
    if content.fed_from == UTILITY:
        return task.job.fact("supply.main", "I_main", "A")
    if content.fed_by == LUGS and content.fed_from in task.job.ids("panels"):
        return device(task, content.fed_from)
    tapped = next((each for each in task.job.content.panels if each.id == content.fed_from), None)
    found = feeder_of(task.job, tapped if content.fed_by == TAP and tapped is not None else content)
    if content.fed_by == TAP and tapped is not None and tapped.fed_from == UTILITY:
        return task.job.fact("supply.main", "I_main", "A")
    if found is not None:
        return task.job.fact(f"panels.{found[0]}.circuits.{found[1].id}.breaker", "I_feeder", "A")
    above = content.fed_from
    return missing("I_feeder", "A", f'panels.{above}.circuits: the circuit with feeds = "{panel}"')


def joined(task: Material, panel: str) -> str:
    """The panel at whose busbar an uninterrupted way from this one begins: lugs at both ends make one busbar of two."""
    here = panel
    for above in task.way_up(panel)[1:]:
        content = task.panel(here)
        if content.fed_by != LUGS or not content.main_lugs:
            return here
        here = above
    return here
