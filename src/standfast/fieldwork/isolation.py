"""What must be open before hands reach into a panel, and how it is proved dead.

Taken from the installation graph: every source that can feed the panel, and the switches between. The service
disconnect is in the panel that is opened, so its own lugs are dead only where a switch before it, at the meter, is open
too. What lies before the first open switch stays live, whatever is locked.

The DC side of an inverter is a zone of its own: batteries feed it, whose terminals can never be dead; arrays feed it in
daylight; and it stays charged after everything is open.
"""

from collections.abc import Container, Mapping
from itertools import combinations
from typing import NamedTuple

from standfast.design.installation.build import SERVICE
from standfast.design.installation.graph import SWITCHES, Installation, Part, PartKind
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.sheet_steps import plugs_live
from standfast.units import show

DIRECT = ("DC+", "DC−", "G")
"""Conductors of the DC side, in the order in which their pairs are tested."""
CONDUCTORS: dict[str, tuple[str, ...]] = {
    "120/240 V single-phase": ("L1", "L2", "N", "G"),
    "120/208 V single-phase": ("L1", "L2", "N", "G"),
    "120/208 V three-phase": ("L1", "L2", "L3", "N", "G"),
    "230 V single-phase": ("L", "N", "PE"),
    "230/400 V three-phase": ("L1", "L2", "L3", "N", "PE"),
}
"""Conductors of each system, in the order in which their pairs are tested."""
BREAKS: frozenset[PartKind] = SWITCHES | {"fuse"}
"""Parts by which a person parts a source from a DC side; a fuse is taken out."""
MOST = "120/208 V three-phase"
"""The system with the most conductors: its pairs are tested where the system is not known."""


class Opening(NamedTuple):
    """A switch that is opened, locked and tagged, the sources that it holds off, and its panel where that is in
    another building than the work; empty where it is not."""

    switch: str
    sources: tuple[str, ...]
    at: str = ""


class Isolation(NamedTuple):
    """How one panel, or the DC side of an inverter, is made dead.

    Attributes:
        id: of the panel; of the inverter with ``-dc``.
        panel: its name.
        openings: switches to open, lock and tag.
        supply: those of them between the utility and the panel, from the utility on. What is before the first stays
            live; the supply side of each other is dead and is proved so.
        kept_open: new switches that stay open until the power steps, with the new sources behind them.
        live: sources that no switch holds off: a reason to stop.
        pairs: conductors between which voltage is sought, every pair once.
        direct: true for the DC side of an inverter.
        told: what has to be known of it: what can never be dead, what stays charged, what daylight does.
        ahead: the nearest switch before the first of the supply, which stays closed; empty where only the utility is.
        ahead_count: how many switches are before the first of the supply.
        lugs: switches whose supply side must be dead too and is proved so: all of the supply but the first, and the
            panel's own main.
        opened: ids of the switches to open and lock, in order; on a DC side a fuse is pulled.
        locked: ids of new switches that are locked where they stand open.
        terminals: what hands reach in it, by the names that the house of the order has.
        guarded: opened switches whose side towards a source that stays can be live, the supply left out.
    """

    id: str
    panel: str
    openings: tuple[Opening, ...]
    supply: tuple[str, ...]
    kept_open: tuple[Opening, ...]
    live: tuple[str, ...]
    pairs: tuple[str, ...]
    direct: bool = False
    told: tuple[str, ...] = ()
    ahead: str = ""
    ahead_count: int = 0
    lugs: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    locked: tuple[str, ...] = ()
    terminals: tuple[str, ...] = ()
    guarded: tuple[str, ...] = ()


def isolations(plan: Plan) -> list[Isolation]:
    """One for each panel that exists and is opened by this job, and for the DC side of an inverter of its own."""
    panels = [isolation(plan, panel) for panel in worked_panels(plan) if panel.existing]
    return [*panels, *(direct_current(plan, each) for each in plan.of_role("inverter"))]


def worked_panels(plan: Plan) -> list[Part]:
    """The panels that something new is joined to, those that are new themselves, and those with other work in them."""
    other = {id for extra in plan.extras for id in _entered(plan, extra.where)}
    return [
        panel
        for panel in plan.installation.of_kind("busbar")
        if not panel.existing
        or panel.id in other
        or any(not part.existing for part, _ in plan.installation.beside(panel.id))
    ]


def _entered(plan: Plan, where: str) -> list[str]:
    """The panels that work on the existing house reaches into: the one that is named, or that holds what is named."""
    return [
        panel.id
        for panel in plan.survey.job.panels
        if where in (panel.id, panel.name)
        or any(where in (circuit.id, circuit.name) for circuit in panel.circuits)
    ]  # fmt: skip


def isolation(plan: Plan, panel: Part) -> Isolation:
    """How a panel is made dead."""
    graph = plan.installation
    held: dict[str, list[str]] = {}
    kept: dict[str, list[str]] = {}
    live: list[str] = []
    supply: list[str] = []
    before: list[str] = []
    ids, locked, guarded = list[str](), list[str](), list[Part]()
    for source in graph.feeding(panel.id):
        switches = [part for part in graph.path(source.id, panel.id) if part.kind in SWITCHES]
        if not source.existing and switches:
            kept.setdefault(switches[0].name, []).append(source.name)
            locked.append(switches[0].id)
        elif not switches:
            live.append(source.name)
        else:
            opened = _opened(source, switches)
            ids += [switch.id for switch in reversed(opened)]
            for switch in reversed(opened):  # the load is taken off first
                held.setdefault(switch.name, []).append(source.name)
            if source.kind != "utility":
                guarded += opened
            else:
                supply += [switch.name for switch in opened]
                guarded += opened[:1]
                before += [switch.name for switch in switches if switch not in opened]
    system = plan.survey.job.supply.system or MOST
    return Isolation(
        panel.id, panel.name, _openings(held, _away(plan, panel)), tuple(supply), _openings(kept), tuple(live),
        pairs(CONDUCTORS[system]), ahead=before[-1] if before else "", ahead_count=len(before),
        lugs=(*supply[1:], *_own_main(plan, panel, supply)),
        opened=tuple(dict.fromkeys(ids)), locked=tuple(dict.fromkeys(locked)),
        terminals=_reached(graph, panel, [part.id for part in guarded]),
        guarded=tuple(part.name for part in guarded if part.name not in supply),
    )  # fmt: skip


def _reached(graph: Installation, panel: Part, guarded: Container[str]) -> tuple[str, ...]:
    """The bars of a panel and both sides of every switch in it; of what is opened against a source that stays, the side
    of the bars alone: the other is covered and nobody touches it."""
    found = [panel.id]
    for part, link in graph.beside(panel.id):
        if part.kind in BREAKS:
            bars = "line" if link.b == part.id else "load"
            found += [f"{part.id}:{bars}"] if part.id in guarded else [f"{part.id}:line", f"{part.id}:load"]
    return tuple(found)


def _own_main(plan: Plan, panel: Part, supply: list[str]) -> list[str]:
    """The main of a panel behind a feeder breaker: the graph knows the feeder's breaker, the panel has a main too."""
    own = panel.facts.get("main")
    service = plan.installation.parts.get(SERVICE)
    if own is None or own.missing or (service is not None and service.name in supply):
        return []
    return [plan.say("order.own_main", panel=panel.name)]


def _away(plan: Plan, panel: Part) -> dict[str, str]:
    """Breakers in a panel of another building than this one: name → the panel's name."""
    buildings = {each.id: each.building for each in plan.survey.job.panels}
    found = {}
    for part in plan.installation.of_kind("breaker"):
        there = plan.installation.parts.get(part.id.partition("/")[0])
        if there is not None and there.kind == "busbar" and buildings.get(there.id) != buildings.get(panel.id):
            found[part.name] = there.name
    return found


def direct_current(plan: Plan, inverter: Device) -> Isolation:
    """How the DC side of an inverter is made dead: every battery and array on it is held off, then it is waited."""
    graph = plan.installation
    held: dict[str, list[str]] = {}
    kept: dict[str, list[str]] = {}
    live: list[str] = []
    ids: dict[bool, list[str]] = {True: [], False: []}
    sources = [part for part in graph.feeding(inverter.id) if part.kind in ("battery", "array")]
    plugged = {each.id for each in plan.of_role("battery") if plugs_live(each.sheet)}
    for source in sources:
        breaks = [part for part in graph.path(source.id, inverter.id) if part.kind in BREAKS]
        ids[source.existing] += [part.id for part in breaks]
        way = [part.name for part in breaks]
        if not way and (not source.existing or source.kind == "array"):
            way = [plan.say(f"order.break_{source.kind}", name=source.name)]
        if source.id in plugged:
            way = [plan.say("order.break_leads", name=source.name), *way]
        if not way:
            live.append(source.name)
        for name in way:
            (held if source.existing else kept).setdefault(name, []).append(source.name)
    keys = {source.id: "leads" if source.id in plugged else source.kind for source in sources}
    told = [plan.say(f"order.{keys[source.id]}_side", name=source.name) for source in sources]
    told.append(plan.say("order.charged", name=inverter.name, time=_wait(plan, inverter)))
    name = plan.say("order.dc_side", name=inverter.name)
    return Isolation(
        f"{inverter.id}-dc", name, _openings(held), (), _openings(kept), tuple(live), pairs(DIRECT), True, tuple(told),
        opened=tuple(dict.fromkeys(ids[True])), locked=tuple(dict.fromkeys(ids[False])),
        terminals=tuple(f"{inverter.id}:{side}" for side in ("dc", "pv")),
    )  # fmt: skip


def _wait(plan: Plan, inverter: Device) -> str:
    """How long the DC side stays charged: as the sheet states it, and as a step of it waits; the longest counts."""
    waits = [step.does.time for step in inverter.sheet.steps if step.does is not None and step.does.change == "wait"]
    waits.append(None if inverter.sheet.dc is None else inverter.sheet.dc.discharge_time)
    known = [float(each.number) for each in waits if each is not None]
    return show(max(known), "s") if known else plan.say("order.wait_manual")


def _opened(source: Part, switches: list[Part]) -> list[Part]:
    """Of the switches from a source to a panel, those that are opened. Of the utility the nearest to the panel, and
    where that is the service disconnect also every one before it; of another source the nearest to it, so that all
    between it and the panel is dead."""
    if source.kind != "utility":
        return switches[:1]
    return switches if switches[-1].id == SERVICE else switches[-1:]


def pairs(conductors: tuple[str, ...]) -> tuple[str, ...]:
    """Every pair once: ``L1–L2``, ``L1–N`` and so on."""
    return tuple(f"{a}–{b}" for a, b in combinations(conductors, 2))


def _openings(held: dict[str, list[str]], away: Mapping[str, str] | None = None) -> tuple[Opening, ...]:
    return tuple(Opening(switch, tuple(sources), (away or {}).get(switch, "")) for switch, sources in held.items())
