"""Whether the conductors of a battery leave its room: then its disconnect is in sight of it (706.15(D))."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.sheet import Check, Value, cannot_tell, chosen, is_, missing, not_applicable
from standfast.survey.house import Wall

TITLE = "Disconnect in sight of the battery where its conductors go through a wall, floor or ceiling"
TOGETHER = "battery and inverter are in one room: nothing is between them that conductors go through"
PLACE = 'walls.obstacles: an obstacle of kind "inverter" and state "new" on the wall where it hangs'
ROOM = "walls.{}.room: which room the wall belongs to"


def checks(task: Material, unit: str, wall: str, in_sight: Value | None) -> Iterator[Check]:
    """Of a battery that has a place; one without is told by what places it.

    Args:
        task: the job.
        unit: name of the battery.
        wall: the wall that it is at; empty where it has no place.
        in_sight: yes where its disconnect can be seen from it; None where nobody said.
    """
    if not wall:
        return
    id, clause = f"wiring.dc-partition/{unit}", task.nec.clause("storage_partition")
    mine = next((each for each in task.job.content.walls if each.id == wall), None)
    other = _of_inverter(task)
    if other is None:
        yield cannot_tell(id, TITLE, clause, PLACE)
    elif other.id == wall or (mine is not None and mine.room is not None and mine.room == other.room):
        yield not_applicable(id, TITLE, clause, TOGETHER)
    elif mine is None or mine.room is None or other.room is None:
        lacking = wall if mine is None or mine.room is None else other.id
        yield cannot_tell(id, TITLE, clause, ROOM.format(lacking))
    else:
        yes = chosen("needed", True, "", f"from {mine.room} to {other.room}", clause)
        yield is_(id, TITLE, clause, _seen(task, in_sight), yes)


def _of_inverter(task: Material) -> Wall | None:
    """The wall on which the inverter hangs."""
    walls = task.job.content.walls
    return next(
        (wall for wall in walls for each in wall.obstacles if each.kind == "inverter" and each.state == "new"), None
    )


def _seen(task: Material, in_sight: Value | None) -> Value:
    """Whether a disconnect is seen from the battery: one inside it is."""
    inside = task.of("battery", "electrical.disconnect_inside", "inside")
    if inside.number is True:
        return inside
    return missing("in_sight", "", "the place of the DC disconnect on the wall") if in_sight is None else in_sight
