"""Chosen devices as the job draws them on its walls, against their data sheets: none is drawn smaller than it is.

Every space, zone and run is measured from what is drawn. A device that is larger than its drawing hangs in a space that
was promised to be free.
"""

from collections.abc import Iterator

from standfast.design.installation.build import SheetFile
from standfast.design.siting.layout import spoken
from standfast.design.siting.things import Surveyed
from standfast.sheet import Check, Clause, Value, at_least, cannot_tell, given, settle, work, worst
from standfast.survey.house import Obstacle
from standfast.survey.joined import devices, has_inverter, unit_ids
from standfast.survey.model import Job

SIZES = ("width", "height", "depth")
"""Words of the size of an obstacle, and of the body of a data sheet; both depths are from the wall to the front."""
NO_SHEET = Clause("equipment", "data sheet", "[body]")
"""Stands for the sheet of a device that is not chosen."""
_BY_KIND = {"inverter": "inverter", "fuse": "dc_overcurrent"}
_BY_END = {"disconnect": "disconnect", "dc-disconnect": "dc_disconnect", "dc-overcurrent": "dc_overcurrent"}


def role_of(job: Job, thing: Obstacle) -> str | None:
    """The role of the equipment that a new obstacle is; None where it is none of the chosen devices.

    A disconnect is told by the word that routes have for it. One that has another name is that of the only source,
    where the job has one source.
    """
    if thing.state != "new":
        return None
    if thing.kind != "disconnect":
        return _BY_KIND.get(thing.kind)
    if thing.id == "island-switch":
        return "island_switch"
    device = devices(job).get(thing.id)
    if device is not None:
        return _BY_END.get(device.partition("/")[2])
    alone = has_inverter(job) or (job.equipment.quantity or 1) == 1
    return "disconnect" if alone and job.equipment.disconnect is not None else None


def checks(seen: Surveyed) -> Iterator[Check]:
    """Is every chosen device on the wall drawn at least as large as its data sheet says?"""
    for thing in seen.wall.obstacles:
        role = role_of(seen.job.content, thing)
        if role is None:
            if thing.kind == "disconnect" and thing.state == "new":
                yield _nobody_knows(seen, thing)
            continue
        if role == "inverter" and not has_inverter(seen.job.content):
            continue  # that it is not chosen is told where its free space is judged
        sheet = seen.devices.get(role)
        yield _unchosen(thing, role) if sheet is None else _drawn(seen, thing, sheet)


def undrawn(seen: Surveyed) -> Iterator[Check]:
    """A DC fuse that is chosen and on no wall: nobody can say what room it and the hands before it have."""
    job = seen.job.content
    if not has_inverter(job) or job.equipment.dc_overcurrent is None:
        return
    there = [thing for wall in job.walls for thing in wall.obstacles if role_of(job, thing) == "dc_overcurrent"]
    if len(there) < len(unit_ids(job)):
        why = 'walls: the DC fuse of every battery on its wall, as an obstacle of kind "fuse", state = "new"'
        yield cannot_tell("siting.drawn-size/fuses", "Is every DC fuse drawn on its wall?", NO_SHEET, why)


def _id(thing: Obstacle) -> tuple[str, str]:
    return f"siting.drawn-size/{thing.id}", f"Is {spoken(thing.id)} drawn as large as it is?"


def _nobody_knows(seen: Surveyed, thing: Obstacle) -> Check:
    path = f"{seen.path}.obstacles.{thing.id}"
    known = ", ".join(sorted(word for word in devices(seen.job.content) if "disconnect" in word))
    why = f"{path}.id: call it as routes call the disconnect that it is ({known}), so that its data sheet is known"
    return cannot_tell(*_id(thing), NO_SHEET, why)


def _unchosen(thing: Obstacle, role: str) -> Check:
    why = f"equipment.{role}: choose it by the id of its data sheet"
    return cannot_tell(*_id(thing), NO_SHEET, why)


def _drawn(seen: Surveyed, thing: Obstacle, sheet: SheetFile) -> Check:
    """The size that has the least to spare decides; all three are in its working."""
    id, title = _id(thing)
    clause = Clause(sheet.content.name, "data sheet", "[body]")
    path, body = f"{seen.path}.obstacles.{thing.id}", sheet.content.body

    def ask() -> Check:
        spare: list[Value] = []
        for word in SIZES:
            there = seen.job.fact(f"{path}.{word}", f"{word}_drawn", "mm")
            own = sheet.fact(f"body.{word}", f"{word}_sheet", "mm")
            spare.append(work(f"spare_{word}", "drawn - own", "mm", None, drawn=there, own=own))
        zero = given("spare_least", 0.0, "mm", "not smaller than its data sheet says")
        check = at_least(id, title, clause, worst("spare", spare, "min"), zero)
        if check.verdict != "fail" or body.width is None or body.height is None or body.depth is None:
            return check
        size = " × ".join(each.text for each in (body.width, body.height, body.depth))
        return check._replace(reason=f"it is larger than it is drawn: draw it {size} (width × height × depth)")

    return settle(id, title, clause, ask)
