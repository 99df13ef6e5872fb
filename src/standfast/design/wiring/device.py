"""A new breaker in a panel: its rating, family and voltage, whether it may be fed from either side, how it is held."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.reading.quantities import amount
from standfast.rulebooks.nfpa70 import overcurrent
from standfast.sheet import (
    Check,
    Value,
    at_least,
    attempt,
    chosen,
    exactly,
    is_,
    missing,
    not_applicable,
    one_of,
    settle,
)


def checks(task: Material, id: str, title: str, panel: str, device: Value) -> Iterator[Check]:
    """A breaker of the chosen family.

    Args:
        task: the job.
        id: of its circuit.
        title: of its circuit.
        panel: the panel that it is put into.
        device: its rating in A.
    """
    nec, asked = task.nec, f"{title}: its breaker"
    clause = nec.clause("standard_ratings")
    standard = attempt("I_std", "A", lambda: overcurrent.next_standard(nec, device, "I_std"))
    yield exactly(f"wiring.device-standard/{id}", f"{asked} has a standard rating", clause, device, standard)
    clause = nec.clause("listed_use")
    have = _nearest(task, device) if "breaker" in task.sheets else device
    yield exactly(f"wiring.device-made/{id}", f"{asked} is made with this rating", clause, device, have)
    backfed, clause = task.of("breaker", "switch.backfeed", "backfeed"), nec.clause("source_backfed_device")
    yes = chosen("needed", True, "", "a source feeds it from its load side", clause)
    yield is_(f"wiring.device-backfeed/{id}", f"{asked} may be fed from either side", clause, backfed, yes)
    clause = nec.clause("breaker_voltage_marking")
    rated, supply = task.of("breaker", "switch.voltage", "V_breaker", "V"), task.job.fact("supply.voltage", "V", "V")
    yield at_least(f"wiring.device-voltage/{id}", f"{asked}: rated voltage", clause, rated, supply)
    if "breaker" in task.sheets and task.sheets["breaker"].has("switch.voltage_to_ground"):
        lower = task.of("breaker", "switch.voltage_to_ground", "V_slash", "V")
        ground = task.job.fact("supply.voltage_to_ground", "V_ground", "V")
        name = f"{asked}: lower voltage of its slash rating"
        yield overcurrent.slash(nec, f"wiring.device-slash/{id}", name, lower, ground)
    yield _family(task, id, asked, panel)


def held(task: Material, id: str, title: str) -> Check:
    """A plug-in breaker that the battery keeps alive without the grid is fastened in its panel.

    Breakers of sources that stop with the grid are let off; a unit that forms a grid does not stop.
    """
    id, title = f"wiring.device-held/{id}", f"{title}: its breaker is fastened in the panel"
    clause, forms = task.nec.clause("backfed_fastening"), task.own("forms_grid", "forms_grid")
    if task.job.content.backup.mode == "none" or forms.number is False:
        why = "the unit stops with the grid: breakers of such sources need no fastener (705.30(E))"
        return not_applicable(id, title, clause, why)
    return one_of(id, title, clause, task.of("breaker", "switch.held", "held"), task.nec.number("fastened_breakers"))


def _nearest(task: Material, device: Value) -> Value:
    """The rating of the family that comes nearest to a device from above; its largest where none reaches it."""
    found = task.sheets["breaker"].content.switch
    ratings = () if found is None else found.ratings
    if not ratings or device.missing:
        return missing("I_made", "A", "switch.ratings of the breaker family", device)
    amps = sorted(amount(each, "A") for each in ratings)
    near = next((each for each in amps if each >= device.quantity), amps[-1])
    return chosen("I_made", near, "A", "rating of its family that comes nearest", None, device)


def made(task: Material, needed: Value) -> Value:
    """The smallest breaker of the chosen family that is not below a current."""
    family = task.sheets["breaker"].content.switch
    ratings = () if family is None else family.ratings
    if not ratings:
        return missing("I_n", "A", "switch.ratings of the breaker family", needed)
    for rating in sorted(amount(each, "A") for each in ratings):
        if rating >= needed.quantity:
            met = "smallest of the breaker family that reaches it"
            return chosen("I_n", rating, "A", met, task.nec.clause("standard_ratings"), needed)
    return missing("I_n", "A", f"equipment.breaker: no breaker of this family reaches {needed.quantity:.4g} A", needed)


def _family(task: Material, id: str, asked: str, panel: str) -> Check:
    id, title, clause = f"wiring.device-family/{id}", f"{asked} is of a family on the label of the panel", "listed_use"
    family = task.of("breaker", "switch.family", "family")
    accepted = task.job.fact(f"panels.{panel}.accepts", "accepted")
    if not task.panel(panel).accepts:
        accepted = missing("accepted", "", f"panels.{panel}.accepts: breaker families on the label of the panel")
    said = task.nec.clause(clause)
    return settle(id, title, said, lambda: one_of(id, title, said, family, accepted))
