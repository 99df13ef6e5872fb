"""Disconnecting means of the unit, and the emergency shutdown of a dwelling."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.reading.quantities import amount
from standfast.rulebooks.nfpa70 import storage
from standfast.sheet import Check, Value, at_least, cannot_tell, chosen, is_, missing, none_of, not_applicable
from standfast.sheet import given as stated
from standfast.survey.joined import unit_ids

SHUTDOWN = "emergency shutdown"


def checks(task: Material, needed: Value, in_sight: Value | None, distance: Value | None) -> Iterator[Check]:
    """Place and rating of the disconnect, emergency shutdown and its initiation outside.

    Args:
        task: the job.
        needed: current in A that the circuit is sized for.
        in_sight: yes where the disconnect can be seen from the unit, from the siting; None where nobody said.
        distance: from the unit to the disconnect in ft, from the siting.
    """
    energy = task.of("battery", "energy.rated", "E", "kWh")
    scope, id = storage.in_scope(task.nec, energy), task.unit
    if not scope.missing and not scope.yes:
        clause = task.nec.clause("storage_scope")
        yield not_applicable(f"wiring.storage-disconnect/{id}", "Disconnecting means of the unit", clause,
                             "the unit stores no more than the article begins with")  # fmt: skip
        return
    yield _place(task, in_sight, distance)
    yield _rating(task, needed)
    if "disconnect" in task.sheets:
        rated, supply = (
            task.of("disconnect", "switch.voltage", "V_disc", "V"),
            task.job.fact("supply.voltage", "V", "V"),
        )
        title, clause = "Rated voltage of the disconnect", task.nec.clause("voltage_match")
        yield at_least(f"wiring.disconnect-voltage/{id}", title, clause, rated, supply)
    yield from _shutdown(task)


def _place(task: Material, in_sight: Value | None, distance: Value | None) -> Check:
    inside = task.own("disconnect_inside", "inside")
    lockable = task.of("disconnect", "switch.lockable_open", "lockable")
    need = "the place of the disconnect on the wall"
    seen = missing("in_sight", "", need) if in_sight is None else in_sight
    far = missing("d", "ft", need) if distance is None else distance
    return storage.disconnect(task.nec, f"wiring.storage-disconnect/{task.unit}", inside, seen, far, lockable)


def _rating(task: Material, needed: Value) -> Check:
    id, title = f"wiring.disconnect-rating/{task.unit}", "Disconnect carries 125 % of the continuous current"
    clause = task.nec.clause("storage_circuit_ampacity")
    sheet = task.sheets.get("disconnect")
    if sheet is None:
        inside = task.own("disconnect_inside", "inside")
        if not inside.missing and inside.yes:
            return not_applicable(id, title, clause, "the disconnect is part of the unit")
        return cannot_tell(id, title, clause, "equipment.disconnect: choose one by the id of its data sheet")
    ratings = () if sheet.content.switch is None else sheet.content.switch.ratings
    if not ratings or needed.missing:
        return at_least(id, title, clause, missing("I_disc", "A", "switch.ratings of the disconnect"), needed)
    amps = sorted(amount(each, "A") for each in ratings)
    found = next((each for each in amps if each >= needed.quantity), amps[-1])
    rating = chosen("I_disc", found, "A", "rating of its data sheet", None, needed)
    return at_least(id, title, clause, rating, needed)


def _shutdown(task: Material) -> Iterator[Check]:
    clause, dwelling = task.nec.clause("storage_emergency_shutdown"), task.job.fact("site.dwelling", "dwelling")
    townhouse = not dwelling.missing and dwelling.word == "townhouse"
    condition = "a townhouse counts as a one-family dwelling" if townhouse else ""
    without = chosen("refused", ("none",), "", "a unit that cannot be shut down", clause)
    for role, id in _shut_down(task):
        function = task.of(role, "electrical.emergency_shutdown", "shutdown")
        title = "Emergency shutdown of the unit"
        yield none_of(f"wiring.emergency-shutdown/{id}", title, clause, function, without, condition=condition)
    place_id = f"wiring.emergency-shutdown-place/{task.unit}"
    where = next((each for each in task.job.content.land.marks if each.kind == SHUTDOWN), None)
    title = "Switch of the emergency shutdown, readily reached outside the building"
    if where is None:
        need = 'land.marks: a mark of the kind "emergency shutdown", where its switch is put outside'
        yield cannot_tell(place_id, title, clause, need)
        return
    planned = stated("planned", True, "", task.job.place(f"land.marks.{where.id}"))
    yes = chosen("needed", True, "", "one- and two-family dwellings", clause)
    yield is_(place_id, title, clause, planned, yes, condition="on and off are plainly shown")


def _shut_down(task: Material) -> Iterator[tuple[str, str]]:
    """Role and id of everything that the switch has to stop: the unit, or batteries and inverter each by itself."""
    if task.role == "inverter":
        for unit in unit_ids(task.job.content):
            yield "battery", unit
    yield task.role, task.unit
