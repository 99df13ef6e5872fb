"""What must be open before hands reach into a panel, and how it is proved dead.

Taken from the installation graph: every source that can feed the panel, and the switches between. The service
disconnect is in the panel that is opened, so its own lugs are dead only where a switch before it, at the meter, is open
too. What lies before the first open switch stays live, whatever is locked.
"""

from itertools import combinations
from typing import NamedTuple

from standfast.design.installation.build import SERVICE
from standfast.design.installation.graph import SWITCHES, Part
from standfast.fieldwork.plan import Plan

CONDUCTORS: dict[str, tuple[str, ...]] = {
    "120/240 V single-phase": ("L1", "L2", "N", "G"),
    "120/208 V single-phase": ("L1", "L2", "N", "G"),
    "120/208 V three-phase": ("L1", "L2", "L3", "N", "G"),
}
"""Conductors of each system, in the order in which their pairs are tested."""
MOST = "120/208 V three-phase"
"""The system with the most conductors: its pairs are tested where the system is not known."""


class Opening(NamedTuple):
    """A switch that is opened, locked and tagged, and the sources that it holds off."""

    switch: str
    sources: tuple[str, ...]


class Isolation(NamedTuple):
    """How one panel is made dead.

    Attributes:
        id: of the panel.
        panel: its name.
        openings: switches to open, lock and tag.
        supply: those of them between the utility and the panel, from the utility on. What is before the first stays
            live; the supply side of each other is dead and is proved so.
        kept_open: new switches that stay open until the power steps, with the new sources behind them.
        live: sources that no switch holds off: a reason to stop.
        pairs: conductors between which voltage is sought, every pair once.
    """

    id: str
    panel: str
    openings: tuple[Opening, ...]
    supply: tuple[str, ...]
    kept_open: tuple[Opening, ...]
    live: tuple[str, ...]
    pairs: tuple[str, ...]


def isolations(plan: Plan) -> list[Isolation]:
    """One for each panel that exists and is opened by this job."""
    return [isolation(plan, panel) for panel in worked_panels(plan) if panel.existing]


def worked_panels(plan: Plan) -> list[Part]:
    """The panels that something new is joined to, and those that are new themselves."""
    return [
        panel
        for panel in plan.installation.of_kind("busbar")
        if not panel.existing or any(not part.existing for part, _ in plan.installation.beside(panel.id))
    ]


def isolation(plan: Plan, panel: Part) -> Isolation:
    """How a panel is made dead."""
    graph = plan.installation
    held: dict[str, list[str]] = {}
    kept: dict[str, list[str]] = {}
    live: list[str] = []
    supply: list[str] = []
    for source in graph.feeding(panel.id):
        switches = [part for part in graph.path(source.id, panel.id) if part.kind in SWITCHES]
        if not source.existing and switches:
            kept.setdefault(switches[0].name, []).append(source.name)
        elif not switches:
            live.append(source.name)
        else:
            opened = _opened(source, switches)
            for switch in reversed(opened):  # the load is taken off first
                held.setdefault(switch.name, []).append(source.name)
            if source.kind == "utility":
                supply += [switch.name for switch in opened]
    system = plan.survey.job.supply.system or MOST
    return Isolation(
        panel.id, panel.name, _openings(held), tuple(supply), _openings(kept), tuple(live), pairs(CONDUCTORS[system])
    )


def _opened(source: Part, switches: list[Part]) -> list[Part]:
    """Of the switches from a source to a panel, those that are opened: the nearest to the panel, and where that is the
    service disconnect also every one between it and the utility."""
    at_service = source.kind == "utility" and switches[-1].id == SERVICE
    return switches if at_service else switches[-1:]


def pairs(conductors: tuple[str, ...]) -> tuple[str, ...]:
    """Every pair once: ``L1–L2``, ``L1–N`` and so on."""
    return tuple(f"{a}–{b}" for a, b in combinations(conductors, 2))


def _openings(held: dict[str, list[str]]) -> tuple[Opening, ...]:
    return tuple(Opening(switch, tuple(sources)) for switch, sources in held.items())
