"""The service of the dwelling: its rating, its emergency disconnect, its grounding electrode conductor."""

from collections.abc import Iterable, Iterator

from standfast.design.wiring import ends, jumpers
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import conductors, grounding, sizes
from standfast.sheet import Check, Value, at_least, cannot_tell, chosen, none_of, not_applicable, settle

RODS = frozenset({"ground rods", "plate"})
CONCRETE = frozenset({"concrete-encased electrode"})


def checks(task: Material, panel: str) -> Iterator[Check]:
    """Rating of the service, emergency disconnect where the service is new, electrode conductor.

    Args:
        task: the job.
        panel: the panel that the unit is on.
    """
    rating, clause = task.job.fact("supply.main", "I_main", "A"), task.nec.clause("service_rating")
    least = task.nec.number("service_least_one_family")
    yield at_least("wiring.service-rating", "Rating of the service of the dwelling", clause, rating, least)
    service_panel = task.way_up(panel)[-1]
    yield _conductors(task, service_panel, rating)
    yield _emergency(task, service_panel)
    yield _electrode(task)
    yield from jumpers.checks(task, service_panel)
    yield from _neutral(task)


def _neutral(task: Material) -> Iterator[Check]:
    """The neutral of the service, where the job states it: it carries the fault current back to the transformer."""
    if not task.job.has("supply.conductors.neutral"):
        return
    id, title = "wiring.service-neutral", "Neutral of the service conductors, as the way back of a fault"
    clause, fact = task.nec.clause("service_neutral"), task.job.fact

    def ask() -> Check:
        have = sizes.area(task.nec, fact("supply.conductors.neutral", "neutral"), "A_neutral")
        return at_least(
            id, title, clause, have, jumpers.least_area(task, fact("supply.conductors.material", "material"))
        )

    yield settle(id, title, clause, ask)


def _conductors(task: Material, service_panel: str, rating: Value) -> Check:
    """The existing conductors carry the dwelling: 83 % of the rating, in the column of their terminals."""
    id, title = "wiring.service-conductors", "Ampacity of the service conductors"
    fact, clause = task.job.fact, task.nec.clause("dwelling_83_percent")

    def ask() -> Check:
        metal, size = fact("supply.conductors.material", "material"), fact("supply.conductors.size", "size")
        column = ends.column(task.nec, rating, [ends.of_panel(task, service_panel)])
        each, sets = conductors.tabulated(task.nec, metal, size, column), fact("supply.conductors.sets", "n_set", "1")
        carried = conductors.of_sets(task.nec, each, sets, size)
        return at_least(id, title, clause, carried, conductors.dwelling_least(task.nec, rating))

    return settle(id, title, clause, ask)


def _emergency(task: Material, service_panel: str) -> Check:
    id, title = "wiring.emergency-disconnect", "Emergency disconnect of the dwelling"
    clause = task.nec.clause("emergency_disconnect")
    state = task.job.fact(f"panels.{service_panel}.state", "state")
    if state.number == "existing":
        why = "the service equipment stays; the clause asks it of new and replaced service equipment"
        return not_applicable(id, title, clause, why)
    refused = chosen("refused", ("none",), "", "an outdoor disconnect is asked", clause)
    found = none_of(id, title, clause, task.job.fact("supply.emergency_disconnect", "emergency_disconnect"), refused)
    return cannot_tell(id, title, clause, state.how) if state.missing and found.verdict == "fail" else found


def _electrode(task: Material) -> Check:
    id, title = "wiring.electrode-conductor", "Grounding electrode conductor of the service"
    clause, fact = task.nec.clause("electrode_conductor"), task.job.fact

    def ask() -> Check:
        service, size = fact("supply.conductors.material", "service"), fact("supply.conductors.size", "size")
        sets = fact("supply.conductors.sets", "n_set", "1")
        metal = fact("supply.electrode_conductor.material", "material")
        least = grounding.electrode(
            task.nec, service, size, sets, metal, electrode_kind(task.job.content.supply.electrodes)
        )
        have = sizes.area(task.nec, fact("supply.electrode_conductor.size", "size"), "A_GEC")
        return at_least(id, title, clause, have, _area(task, least))

    return settle(id, title, clause, ask)


def electrode_kind(electrodes: Iterable[str]) -> str:
    """``rod``, ``concrete`` or ``other``: what the caps on the size of an electrode conductor go by."""
    kinds = set(electrodes)
    if kinds and kinds <= RODS:
        return "rod"
    return "concrete" if kinds and kinds <= CONCRETE else "other"


def _area(task: Material, size: Value) -> Value:
    return sizes.area(task.nec, size, "A_least")
