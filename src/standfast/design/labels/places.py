"""Where devices are, in words that a sign can carry: ``in utility room, east wall``.

A sign that tells where something is disconnected helps nobody who does not know the house: it names room, and wall by
the points of the compass. What the survey does not say is not made up.
"""

from collections.abc import Iterator, Mapping
from math import atan2, degrees

from standfast.design.installation import Installation, Link
from standfast.survey.house import Wall
from standfast.survey.joined import INVERTER, devices, source_ids
from standfast.survey.model import Job

POINTS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
OUTSIDE = "outside"


def places(job: Job, installation: Installation, units: Mapping[str, str]) -> dict[str, str]:
    """Part of the installation → where it is; a part whose place nobody stated is left out.

    Args:
        job: the job file.
        installation: the graph.
        units: battery unit → id of the wall that it was put on.
    """
    walls = {wall.id: at(job, wall) for wall in job.walls}
    found = {panel.id: walls[panel.wall] for panel in job.panels if panel.wall in walls}
    for wall in job.walls:
        found |= dict.fromkeys(_drawn(job, wall), walls[wall.id])
    for unit, id in units.items():
        if id in walls:
            found |= dict.fromkeys((unit, f"{unit}/inverter"), walls[id])
    for breaker in installation.of_kind("breaker"):
        panels = [each for each, link in installation.beside(breaker.id) if each.kind == "busbar" and _in(link)]
        if panels and panels[0].id in found:
            found[breaker.id] = found[panels[0].id]
    return {id: where for id, where in found.items() if id in installation.parts}


def _in(link: Link) -> bool:
    """True where a breaker sits in the panel that it is joined to, and does not only feed it."""
    return link.kind in ("busbar", "internal")


def at(job: Job, wall: Wall) -> str:
    """A wall in words: its room, and which of its walls it is where plan and north are known."""
    room = next((each for each in job.rooms if each.id == wall.room), None)
    side = facing(job, wall, inward=room is not None and room.kind == OUTSIDE)
    if room is not None and room.kind == OUTSIDE:
        return f"outdoors, {side} wall of the house" if side else "outdoors"
    alone = room is not None and sum(each.kind == room.kind for each in job.rooms) == 1
    name = room.kind if room is not None and alone else wall.room.replace("-", " ")
    return f"in {name}, {side} wall" if side else f"in {name}"


def facing(job: Job, wall: Wall, *, inward: bool) -> str:
    """The point of the compass towards which a wall lies; empty where plan or north was not surveyed.

    A wall is surveyed from its left end to its right, seen from its room: it lies a quarter turn to the left of that
    way. One that is seen from outdoors is the wall on the other side of the house: `inward`.
    """
    if job.land.north is None or wall.start is None or wall.end is None:
        return ""
    x, y = (float(b.number - a.number) for a, b in zip(wall.start, wall.end, strict=True))
    if not x and not y:
        return ""
    from_up = degrees(atan2(-y, x)) + (180 if inward else 0)
    turned = (from_up - float(job.land.north.number)) % 360
    quarter = round(turned / 90) % 4
    off = (turned - 90 * quarter + 180) % 360 - 180
    return POINTS[2 * quarter] if -30 <= off <= 30 else POINTS[round(turned / 45) % 8]


def _drawn(job: Job, wall: Wall) -> Iterator[str]:
    """Parts of the installation that hang on a wall as the survey draws them."""
    known, own = devices(job), source_ids(job)
    for thing in wall.obstacles:
        if thing.kind == "inverter" and thing.state == "new":
            yield INVERTER
        elif thing.kind == "panelboard" and thing.panel is not None:
            yield thing.panel
        elif thing.state == "new" and thing.id in known:
            yield known[thing.id]
        elif thing.id == "island-switch":
            yield from (f"{panel.id}/island-switch" for panel in job.panels if panel.fed_through is not None)
        elif thing.state == "new" and thing.kind == "disconnect" and len(own) == 1:
            yield f"{own[0]}/disconnect"
