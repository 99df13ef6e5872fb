"""Sizes of the bonding jumpers of the service and of metal pipes, and how many disconnects a service has.

What stays as it is and of which the job states no size is looked at on site; what is new, or stated, is checked.
"""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import grounding, sizes
from standfast.sheet import (
    Check,
    Clause,
    Value,
    assumed,
    at_least,
    at_most,
    attempt,
    cannot_tell,
    chosen,
    missing,
    not_applicable,
    settle,
)

UTILITY = "utility"
STAYS = "the service equipment stays, and the job states no wire for it"
BY_MAKER = "screw or strap of the maker"
LISTED = "a screw or strap that came with the equipment is listed with it: it has no size to check"


def checks(task: Material, service_panel: str) -> Iterator[Check]:
    """Main and supply-side bonding jumper, jumpers of water and gas pipe, number of service disconnects.

    Args:
        task: the job.
        service_panel: the panel that the utility feeds.
    """
    new = task.job.fact(f"panels.{service_panel}.state", "state").number == "new"
    yield _main(task, new)
    yield _jumper(task, "supply_side_jumper", "Bonding jumper on the supply side of the service", new)
    if task.job.content.supply.water_pipe_bonded is not False and task.job.has("supply.water_bond.size"):
        yield _water(task)
    if task.job.content.supply.gas_pipe_bonded is not False and task.job.has("supply.gas_bond.size"):
        yield _gas(task)
    yield _disconnects(task)


def _main(task: Material, new: bool) -> Check:
    title, clause = "Main bonding jumper of the service", task.nec.clause("bonding_jumper")
    word = task.job.fact("supply.main_bonding", "main_bonding")
    if not word.missing and word.word == BY_MAKER:
        return not_applicable("wiring.main-bonding-jumper", title, clause, LISTED)
    if new and word.missing and not task.job.has("supply.main_bonding_jumper.size"):
        return cannot_tell("wiring.main-bonding-jumper", title, clause, word.how, word)
    return _jumper(task, "main_bonding_jumper", title, new)


def _jumper(task: Material, word: str, title: str, new: bool) -> Check:
    """A jumper on the side of the service conductors: by their area, beyond the table a share of it."""
    id, clause, path = f"wiring.{word.replace('_', '-')}", task.nec.clause("bonding_jumper"), f"supply.{word}"
    if not task.job.has(f"{path}.size") and not new:
        return not_applicable(id, title, clause, STAYS)
    if word == "supply_side_jumper" and not task.job.has(f"{path}.size"):
        why = "the job states none: metal raceway between meter and service equipment, or none at all, needs no wire"
        return not_applicable(id, title, clause, why)
    return settle(id, title, clause, lambda: _asked(task, id, title, clause, path, None))


def _water(task: Material) -> Check:
    """By the area of the service conductors too, but never larger than a cap."""
    id, title, clause = (
        "wiring.water-bond",
        "Bonding jumper of the metal water pipe",
        task.nec.clause("water_pipe_bond"),
    )
    metal = task.job.fact("supply.water_bond.material", "material")

    def ask() -> Check:
        cap = metal if metal.missing else task.nec.number(f"water_bond_cap_{metal.word}")
        return _asked(task, id, title, clause, "supply.water_bond", cap)

    return settle(id, title, clause, ask)


def _gas(task: Material) -> Check:
    """By the device of the circuit that may make the pipe live; that of the service stands in where nobody said it."""
    id, title, clause = "wiring.gas-bond", "Bonding jumper of the metal gas pipe", task.nec.clause("gas_pipe_bond")
    fact = task.job.fact

    def ask() -> Check:
        device = fact("supply.gas_circuit", "I_n", "A")
        main = fact("supply.main", "I_main", "A")
        if device.missing and not main.missing:
            reason = "no device of a circuit to gas appliances is above that of the service"
            device = assumed("I_n", main.quantity, "A", reason, clause, bounding=True)
        least = grounding.equipment(task.nec, fact("supply.gas_bond.material", "material"), device)
        have = sizes.area(task.nec, fact("supply.gas_bond.size", "size"), "A_bond")
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    return settle(id, title, clause, ask)


def _asked(task: Material, id: str, title: str, clause: Clause, path: str, cap: Value | None) -> Check:
    have = sizes.area(task.nec, task.job.fact(f"{path}.size", "size"), "A_jumper")
    least = least_area(task, task.job.fact(f"{path}.material", "material"))
    if cap is not None and not (least.missing or cap.missing):
        most = sizes.area(task.nec, cap, "A_cap")
        if most.quantity < least.quantity:
            least = chosen("A_least", most.quantity, "cmil", "never larger than this", clause, most, least)
    return at_least(id, title, clause, have, least)


def least_area(task: Material, metal: Value) -> Value:
    """Least area in circular mils of a jumper on the side of the service conductors.

    Args:
        task: the job.
        metal: of the jumper.
    """
    fact = task.job.fact
    service, size = fact("supply.conductors.material", "service"), fact("supply.conductors.size", "size")
    found = grounding.bonding_jumper(task.nec, service, size, fact("supply.conductors.sets", "n_set", "1"), metal)
    return sizes.area(task.nec, found.size, "A_least") if found.least_area is None else found.least_area


def _disconnects(task: Material) -> Check:
    """No more service disconnects than the code allows, each with a main in an enclosure of its own."""
    id, title = "wiring.service-disconnects", "Disconnects of the service, each in an enclosure of its own"
    clause, most = (
        task.nec.clause("service_disconnects"),
        attempt("n_most", "1", lambda: task.nec.number("service_disconnects")),
    )
    tops = [panel for panel in task.job.content.panels if panel.fed_from == UTILITY]
    if task.job.content.supply.emergency_disconnect_mark == "service disconnect":
        mark = task.job.fact("supply.emergency_disconnect_mark", "mark")
        count = chosen("n_disconnect", 1.0, "1", "one at the meter, before every panel", None, mark)
    else:
        count = chosen("n_disconnect", float(len(tops)), "1", ", ".join(each.id for each in tops), None)
        bare = next((each for each in tops if each.main_lugs), None)
        if bare is not None:
            why = "it has no main: which of its breakers are service disconnects is looked at on site"
            count = missing("n_disconnect", "1", f"panels.{bare.id}.main_lugs: {why}")
    return at_most(id, title, clause, count, most)
