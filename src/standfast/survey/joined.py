"""What the routes of a job join: one name for every device, whatever word the file uses, and the way between two.

With one battery unit ``battery`` and ``battery-1`` are the same, and so are ``disconnect`` and ``disconnect-1``. Where
an inverter of its own is chosen, the battery units are joined to it by DC conductors, and it alone to a panel.
"""

from collections import deque
from collections.abc import Iterable
from typing import NamedTuple

from standfast.reading.document import Document
from standfast.sheet import Value, given
from standfast.survey.model import Job
from standfast.survey.power import Circuit

SERVICE_TAP = "service-tap"
"""The end of a route on the service conductors, ahead of the service disconnect."""
INVERTER = "inverter-1"
"""Name of an inverter that is not inside a battery unit. One is all that a job can have."""


class Way(NamedTuple):
    """Devices in a row, both ends included, and the routes between them: one fewer."""

    devices: tuple[str, ...]
    routes: tuple[str, ...]


def unit_ids(job: Job) -> list[str]:
    """The names that the battery units have everywhere: battery-1, battery-2, …"""
    return [f"battery-{number}" for number in range(1, (job.equipment.quantity or 1) + 1)]


def installed(job: Document[Job], symbol: str) -> Value:
    """How many battery units the job installs: one where it does not speak of it; missing where it says not known."""
    if job.left_out("equipment.quantity"):
        return given(symbol, 1.0, "1", "equipment.battery: one unit, since no quantity is stated")
    return job.fact("equipment.quantity", symbol, "1")


def has_inverter(job: Job) -> bool:
    """True where an inverter of its own is chosen, so that the battery units have none inside."""
    return job.equipment.inverter is not None


def source_ids(job: Job) -> list[str]:
    """What feeds AC into the house: each unit with the inverter inside it, or the inverter that stands by itself."""
    return [INVERTER] if has_inverter(job) else unit_ids(job)


def devices(job: Job) -> dict[str, str]:
    """The words for ends of routes that this job can use, panels and arrays left out, and the device each means."""
    units, separate = unit_ids(job), has_inverter(job)
    found = {unit: unit for unit in units}
    if separate:
        found |= {unit.replace("battery", "dc-disconnect"): f"{unit}/dc-disconnect" for unit in units}
        if job.equipment.dc_overcurrent is not None:
            found |= {unit.replace("battery", "fuse"): f"{unit}/dc-overcurrent" for unit in units}
        found |= dict.fromkeys(("disconnect-1", "disconnect"), f"{INVERTER}/disconnect")
        found |= {"inverter": INVERTER, "dc-disconnect": f"{INVERTER}/dc-disconnect"}
    else:
        found |= {unit.replace("battery", "disconnect"): f"{unit}/disconnect" for unit in units}
    if len(units) == 1:
        found |= {
            word: found[f"{word}-1"]
            for word in ("battery", "disconnect", "dc-disconnect", "fuse")
            if f"{word}-1" in found
        }
    return found


def owner(job: Job, circuit: Circuit) -> str:
    """The source whose circuit this is, because it feeds it, or has its name and feeds nothing else; else empty."""
    word = circuit.id if circuit.feeds is None else circuit.feeds
    if has_inverter(job):
        return INVERTER if word in {"inverter", INVERTER, "battery", *unit_ids(job)} else ""
    device = devices(job).get(word, "")
    return device if device in source_ids(job) else ""


def way(job: Job, start: str, goals: Iterable[str]) -> Way | None:
    """The way with the fewest routes from a device to the nearest of others; None where no routes lead there."""
    known, ends = devices(job), set(goals)
    joined: dict[str, list[tuple[str, str]]] = {}
    for route in job.routes:
        first, second = known.get(route.from_, route.from_), known.get(route.to, route.to)
        joined.setdefault(first, []).append((second, route.id))
        joined.setdefault(second, []).append((first, route.id))
    came: dict[str, tuple[str, str]] = {start: ("", "")}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        if here in ends:
            return _back(came, here)
        for there, route_id in joined.get(here, ()):
            if there not in came:
                came[there] = (here, route_id)
                queue.append(there)
    return None


def _back(came: dict[str, tuple[str, str]], here: str) -> Way:
    found, routes = [here], list[str]()
    while came[here][0]:
        here, route = came[here]
        found.append(here)
        routes.append(route)
    return Way(tuple(reversed(found)), tuple(reversed(routes)))
