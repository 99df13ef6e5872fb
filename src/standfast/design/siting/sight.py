"""Whether the disconnect of a unit can be seen from it, and how far away it is."""

from standfast.design.installation.build import JobFile
from standfast.design.siting.layout import Layout, Thing, Unit
from standfast.design.siting.solid import clear_mm
from standfast.sheet import Value, measured, missing
from standfast.survey.joined import has_inverter
from standfast.units import convert


def disconnect_of(job: JobFile, layout: Layout, unit: str) -> Thing | None:
    """The disconnect of a unit on its wall, by the name that routes give it; None where none has that name.

    Where the job has one unit, and puts one disconnect on the wall, that is the one whatever its name.
    """
    there = [each for each in layout.things if each.kind == "disconnect" and each.on_wall and each.new]
    alone = (job.content.equipment.quantity or 1) == 1
    kinds = ("dc-disconnect", "disconnect") if has_inverter(job.content) else ("disconnect",)
    names = [unit.replace("battery", kind) for kind in kinds] + [*(kinds if alone else ())]
    named = {each.id: each for each in there}
    found = next((named[name] for name in names if name in named), None)
    return there[0] if found is None and alone and len(there) == 1 else found


def sight(job: JobFile, layout: Layout, unit: Unit) -> tuple[Value, Value]:
    """Whether the disconnect of a unit can be seen from it, and the straight distance in ft.

    Two things on one face of a wall are in sight of each other. Of anything else nobody knows it from the survey.
    """
    found = disconnect_of(job, layout, unit.id)
    if found is None:
        word = unit.id.replace("battery", "disconnect")
        need = f'walls: the disconnect of {unit.name} on its wall, as an obstacle with the id "{word}", state = "new"'
        return missing("in_sight", "", need), missing("d", "ft", need)
    seen = measured("in_sight", True, "", f"{found.id} is on the same face of the wall as {unit.id}")
    far = convert(clear_mm(unit.solid, found.solid), "mm", "ft")
    return seen, measured("d", far, "ft", f"straight between the outlines of {unit.id} and {found.id}")
