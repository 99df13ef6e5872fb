"""A panel in another building: one feeder with its own ground, a disconnect, an electrode, neutral kept apart."""

from collections.abc import Iterator, Sequence

from standfast.design.wiring import service
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import grounding, sizes
from standfast.sheet import Check, at_least, cannot_tell, chosen, exactly, given, is_, missing, none_of, settle
from standfast.survey.power import Panel


def checks(task: Material, feeders: Sequence[Feeder]) -> Iterator[Check]:
    """Every panel that a source stands on, or behind, in a building other than that of the service.

    Args:
        task: the job.
        feeders: of all panels on the way of any source.
    """
    for each in feeders:
        panel = task.panel(each.panel)
        if panel.building is not None and task.panel(each.above).building != panel.building:
            yield _one_supply(task, panel)
            yield from _disconnect(task, panel)
            yield from _ground(task, panel, each)
            yield from _electrode(task, panel, each)


def _named(panel: Panel) -> str:
    return panel.name or panel.id


def _one_supply(task: Material, panel: Panel) -> Check:
    """One feeder enters the building."""
    building = {each.id: each.building for each in task.job.content.panels}
    entering = [
        each.id for each in task.job.content.panels
        if each.building == panel.building and building.get(each.fed_from or "") != panel.building
    ]  # fmt: skip
    count = chosen("n_feeders", float(len(entering)), "1", f"panels fed from elsewhere: {', '.join(entering)}", None)
    id, title = f"wiring.building-supply/{panel.id}", f"One supply of the building of the {_named(panel)}"
    return exactly(id, title, task.nec.clause("building_supply"), count, task.nec.number("building_supplies"))


def _disconnect(task: Material, panel: Panel) -> Iterator[Check]:
    clause, name = task.nec.clause("building_disconnect"), _named(panel)
    refused = chosen("refused", ("none",), "", "every supply has one at the building that it enters", clause)
    where = task.job.fact(f"panels.{panel.id}.building_disconnect", "place")
    id, title = f"wiring.building-disconnect/{panel.id}", f"Disconnect at the building of the {name}"
    yield none_of(id, title, clause, where, refused)
    id, title = f"wiring.building-disconnect-rating/{panel.id}", f"Rating of the disconnect at the {name}"
    clause, least = task.nec.clause("building_disconnect_rating"), task.nec.number("building_disconnect_least")
    rating = task.job.fact(f"panels.{panel.id}.main", "I_main", "A")
    if where.number == "outside on the building":
        rating = missing("I_disc", "A", "rating of the disconnect outside: read it on the device, it is not in the job")
    yield at_least(id, title, clause, rating, least)


def _ground(task: Material, panel: Panel, feeder: Feeder) -> Iterator[Check]:
    """The feeder brings an equipment grounding conductor, and neutral and ground are apart at its end."""
    clause, name = task.nec.clause("building_ground"), _named(panel)
    bonded = task.job.fact(f"panels.{panel.id}.neutral_bonded", "bonded")
    apart = chosen("needed", False, "", "joined at the service alone", clause)
    id, title = f"wiring.building-neutral/{panel.id}", f"Neutral and ground are apart in the {name}"
    yield is_(id, title, clause, bonded, apart)
    if feeder.built is not None:
        return  # a new feeder has one: it is checked with its other conductors
    id, title = (
        f"wiring.building-ground/{panel.id}",
        f"The feeder of the {name} brings an equipment grounding conductor",
    )
    runs = [
        each for each in task.job.content.routes if {each.from_, each.to} == {feeder.panel, feeder.above}
    ]  # fmt: skip
    if not runs:
        yield cannot_tell(id, title, clause, f"routes: the feeder from {feeder.above} to {feeder.panel}")
        return
    path = f"routes.{runs[0].id}"
    if runs[0].raceway in _metal(task) and (runs[0].conductors is None or runs[0].conductors.ground is None):
        metal = chosen("provided", True, "", "the metal raceway serves as one", task.nec.clause("raceway_as_ground"),
                       task.job.fact(f"{path}.raceway", "raceway"))  # fmt: skip
        needed = given("needed", True, "", "an equipment grounding conductor")
        yield is_(id, title, clause, metal, needed, condition="the raceway is metal and tight from end to end")
        return

    def ask() -> Check:
        have = sizes.area(task.nec, task.job.fact(f"{path}.conductors.ground", "EGC"), "A_EGC")
        material = task.job.fact(f"{path}.conductors.material", "material")
        least = grounding.equipment(task.nec, material, feeder.device)
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    yield settle(id, title, clause, ask)


def _metal(task: Material) -> tuple[str, ...]:
    found = task.nec.number("raceways_as_ground").number
    return tuple(map(str, found)) if isinstance(found, tuple) else ()


def _electrode(task: Material, panel: Panel, feeder: Feeder) -> Iterator[Check]:
    clause, name = task.nec.clause("building_electrode"), _named(panel)
    count = chosen("n_electrodes", float(len(panel.electrodes)), "1", ", ".join(panel.electrodes), None)
    if not panel.electrodes:
        count = missing("n_electrodes", "1", f"panels.{panel.id}.electrodes: the grounding electrodes of that building")
    one = chosen("n_one", 1.0, "1", "every building with a feeder has one", clause)
    yield at_least(f"wiring.building-electrode/{panel.id}", f"Grounding electrode at the {name}", clause, count, one)
    id, title = f"wiring.building-electrode-conductor/{panel.id}", f"Grounding electrode conductor at the {name}"
    clause, path = task.nec.clause("building_electrode_conductor"), f"panels.{panel.id}.electrode_conductor"

    def ask() -> Check:
        metal = task.job.fact(f"{path}.material", "material")
        kind, one = service.electrode_kind(panel.electrodes), chosen("n_set", 1.0, "1", "one set", None)
        least = grounding.electrode(task.nec, feeder.part.material, feeder.part.size, one, metal, kind)
        have = sizes.area(task.nec, task.job.fact(f"{path}.size", "size"), "A_GEC")
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    yield settle(id, title, clause, ask)
