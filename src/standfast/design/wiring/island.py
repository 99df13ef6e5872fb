"""The island switch: what parts the backed-up panels from the grid."""

from collections.abc import Iterator, Sequence

from standfast.design.installation.build import islanded
from standfast.design.wiring.carried import backed_up
from standfast.design.wiring.feeder import SWITCH, Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import UTILITY
from standfast.design.wiring.sources import Source, other_sources
from standfast.reading.quantities import amount
from standfast.sheet import Check, Value, at_least, at_most, chosen, exactly, given, is_, missing, one_of, total
from standfast.survey.power import Panel

FOLLOWS = "they reduce their power, then stop, when the unit raises its frequency, as the makers of both state"
"""Without it a full battery and a sunny roof drive the voltage of the island up."""


def parted(task: Material, panel: str) -> Panel | None:
    """The panel on the way to the service that an island switch feeds; None where there is none."""
    return next((each for each in map(task.panel, task.way_up(panel)) if each.fed_through == SWITCH), None)


def checks(task: Material, feeders: Sequence[Feeder], added: Sequence[Source]) -> Iterator[Check]:
    """The island switch, where there is one.

    Args:
        task: the job.
        feeders: of all panels on the way of any source.
        added: every source that the job adds.
    """
    panels = [each.panel for each in added if each.panel]
    if not panels:
        return
    switches = {found.id: found for panel in panels if (found := parted(task, panel)) is not None}
    for panel in switches:
        above = [each.device for each in feeders if each.panel == panel]
        yield from _of_switch(task, panel, above[0] if above else _ahead(task, panel))
        yield from beyond(task, panel)
        yield from others(task, panel)
        yield from _sides(task, panel, added)


def _ahead(task: Material, panel: str) -> Value:
    """The device ahead of a switch that no feeder leads to: that of the service, where the utility feeds the panel."""
    if task.panel(panel).fed_from == UTILITY:
        return task.job.fact("supply.main", "I_main", "A")
    fed = task.job.fact(f"panels.{panel}.fed_from", "fed_from")
    return missing("I_ahead", "A", fed.how if fed.missing else f"panels.{panel}.fed_from: no feeder leads here", fed)


def _of_switch(task: Material, panel: str, device: Value) -> Iterator[Check]:
    """Rating, voltage and listing of the island switch that feeds a panel, behind a device in A."""
    clause, title = task.nec.clause("listed_use"), "The island switch carries what the device ahead of it lets through"
    yield at_least(f"wiring.island-switch-rating/{panel}", title, clause, _rating(task, device), device)
    rated, supply = (
        task.of("island_switch", "switch.voltage", "V_switch", "V"),
        task.job.fact("supply.voltage", "V", "V"),
    )
    clause, title = task.nec.clause("voltage_match"), "Rated voltage of the island switch"
    yield at_least(f"wiring.island-switch-voltage/{panel}", title, clause, rated, supply)
    yield _pair(task, panel)


def _sides(task: Material, panel: str, added: Sequence[Source]) -> Iterator[Check]:
    """Each of several units hangs beyond the island switch: one before it goes off with the grid."""
    if len(added) < 2 or task.job.content.backup.mode == "none":
        return
    clause, below = task.nec.clause("transfer_equipment"), task.below(panel)
    for each in added:
        side = chosen("beyond", each.panel in below, "", f"its panel is {each.panel}", None)
        if not each.panel:
            side = missing("beyond", "", f"routes: the panel that {each.id} is on")
        yes = chosen("needed", True, "", "what is to carry the backed-up circuits hangs on their side", clause)
        yield is_(f"wiring.source-side/{each.id}", "The unit hangs beyond the island switch", clause, side, yes)


def others(task: Material, panel: str) -> Iterator[Check]:
    """Sources that were there already and would run on the battery's island: no more than the unit's maker allows.

    Args:
        task: the job.
        panel: the panel that an island switch feeds.
    """
    found = [
        task.job.fact(f"panels.{each}.circuits.{circuit.id}.source_output", f"I_{circuit.id}".replace("-", "_"), "A")
        for each in islanded(task.job)
        for circuit in other_sources(task, each)
    ]
    if found:
        id, title = (
            f"wiring.sources-on-island/{panel}",
            "Other sources beyond the island switch, as the unit allows them",
        )
        most = task.own("other_sources_max", "I_others_max", "A")
        clause, condition = task.nec.clause("listed_use"), FOLLOWS
        yield at_most(id, title, clause, total("I_others", found, "A"), most, condition=condition)


def beyond(task: Material, panel: str) -> Iterator[Check]:
    """Every circuit that shall be backed up hangs beyond the island switch.

    Args:
        task: the job.
        panel: the panel that an island switch feeds.
    """
    carried, beyond = backed_up(task.job), islanded(task.job)
    lost = [each.circuit.name or each.circuit.id for each in carried if each.panel not in beyond]
    id, title = f"wiring.backed-up-side/{panel}", "Every backed-up circuit hangs beyond the island switch"
    count = chosen("n_lost", float(len(lost)), "1", "; ".join(lost) or "none hangs before it", None)
    clause = task.nec.clause("transfer_equipment")
    none = chosen("n_allowed", 0.0, "1", "the battery reaches what hangs beyond the switch only", clause)
    yield exactly(id, title, clause, count, none)


def _rating(task: Material, device: Value) -> Value:
    """The smallest rating of the switch that reaches the device; the largest it has where none does."""
    sheet = task.sheets.get("island_switch")
    switch = None if sheet is None else sheet.content.switch
    if switch is None or not switch.ratings or device.missing:
        need = "equipment.island_switch: choose one by the id of its data sheet"
        return missing("I_switch", "A", need if sheet is None else "switch.ratings of the island switch", device)
    amps = sorted(amount(each, "A") for each in switch.ratings)
    rating = next((each for each in amps if each >= device.quantity), amps[-1])
    return chosen("I_switch", rating, "A", "rating of its data sheet", None, device)


def _pair(task: Material, panel: str) -> Check:
    """The island switch is listed for use with the battery unit."""
    id, title = f"wiring.island-switch-listing/{panel}", "The island switch is listed for use with the battery unit"
    sheet, battery, clause = task.sheets.get("island_switch"), task.sheets.get(task.role), "transfer_equipment"
    rows = () if sheet is None else sheet.content.listing
    names = tuple(sorted({each.with_ for each in rows if each.with_}))
    unit = (
        missing("unit", "", f"equipment.{task.role}")
        if battery is None
        else given("unit", battery.content.id, "", battery.file)
    )
    open_ = not all(each.with_ for each in rows) and (unit.missing or unit.word not in names)
    if names and sheet is not None and not open_:
        listed = given("listed_with", names, "", sheet.place("listing"))
    else:
        need = "listing.with of the island switch: the data sheet of the unit that it is listed with"
        listed = missing("listed_with", "", need if sheet is not None else "equipment.island_switch: choose one")
    return one_of(id, title, task.nec.clause(clause), unit, listed)
