"""The runs of conductors between the unit and its panel, and their lengths at the bad end of the survey."""

from collections import deque
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.sheet import Value, work

BATTERY, DISCONNECT, UTILITY = "battery", "disconnect", "utility"


class Run(NamedTuple):
    """One run as surveyed or chosen.

    Attributes:
        id: name of the route.
        ends: what it joins.
        length: as surveyed, one way, in ft.
        longest: with the tolerance of route lengths, in ft.
        ambient: highest temperature round it in °C.
        wet: yes where any of it is outdoors or damp.
        raceway: kind.
        others: current-carrying conductors of other circuits in it.
        trade_size: where the job fixes it.
        material: where the job fixes it.
        insulation: where the job fixes it.
        size: where the job fixes it.
        new: true where it is added.
    """

    id: str
    ends: tuple[str, str]
    length: Value
    longest: Value
    ambient: Value
    wet: Value
    raceway: Value
    others: Value
    trade_size: Value | None
    material: Value | None
    insulation: Value | None
    size: Value | None
    new: bool


def between(task: Material, start: str, ends: list[str]) -> list[Run]:
    """The runs from one thing to the nearest of others, in order; empty where no routes of the job lead there."""
    joined: dict[str, list[tuple[str, str]]] = {}
    for route in task.job.content.routes:
        joined.setdefault(route.from_, []).append((route.to, route.id))
        joined.setdefault(route.to, []).append((route.from_, route.id))
    came: dict[str, tuple[str, str]] = {start: ("", "")}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        if here in ends:
            return _back(task, came, here)
        for there, id in joined.get(here, ()):
            if there not in came:
                came[there] = (here, id)
                queue.append(there)
    return []


def run(task: Material, id: str) -> Run:
    """A route of the job by its id."""
    route = next(each for each in task.job.content.routes if each.id == id)
    path, fact = f"routes.{id}", task.job.fact
    length = fact(f"{path}.length", "L", "ft")
    return Run(
        id,
        (route.from_, route.to),
        length,
        work("L_max", "L * (1 + p_route / 100)", "ft", None, length, tolerance(task)),
        fact(f"{path}.ambient", "T_amb", "°C"),
        fact(f"{path}.wet", "wet"),
        fact(f"{path}.raceway", "raceway"),
        fact(f"{path}.other_current_carrying", "n_other", "1"),
        _stated(task, f"{path}.trade_size", "trade_size"),
        _stated(task, f"{path}.conductors.material", "material"),
        _stated(task, f"{path}.conductors.insulation", "insulation"),
        _stated(task, f"{path}.conductors.size", "size"),
        route.state != "existing",
    )


def tolerance(task: Material) -> Value:
    """Tolerance of route lengths in per cent: of the survey, else the common one."""
    if task.job.has("tolerances.route"):
        return task.job.fact("tolerances.route", "p_route", "%")
    return task.handbook.number("route_tolerance")


def _stated(task: Material, path: str, symbol: str) -> Value | None:
    return task.job.fact(path, symbol) if task.job.has(path) else None


def _back(task: Material, came: dict[str, tuple[str, str]], here: str) -> list[Run]:
    ids: list[str] = []
    while came[here][1]:
        here, id = came[here]
        ids.append(id)
    return [run(task, id) for id in reversed(ids)]
