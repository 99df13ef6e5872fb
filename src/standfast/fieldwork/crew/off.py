"""When each circuit of the house is without power, from the isolation model and the times of the steps.

A circuit has power while closed gates join its panel to the utility. A switch that a step opens is open from the begin
of the step; one that it closes is closed at its end: both make the time without power longer than it is, never shorter.
A circuit that moves to another panel belongs to the old one until the step that moves it ends. A new inverter gives no
power before the grid does: it is what waits for the grid that is asked here.
"""

from collections.abc import Container, Iterable, Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.solve import Slot
from standfast.fieldwork.order.acts import Site
from standfast.fieldwork.order.house import House
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.survey.power import Circuit, Panel


class Load(NamedTuple):
    """One circuit of the house.

    Attributes:
        id: panel and circuit.
        name: what the panel schedule says.
        panel: name of the panel that it is in after the work.
        sensitive: what on it somebody depends on.
        home: the zone that it is in at the begin.
        new: the zone that it is in after the work; the same where it stays.
        move: id of the step that moves it; empty where it stays.
    """

    id: str
    name: str
    panel: str
    sensitive: tuple[str, ...]
    home: str
    new: str
    move: str = ""


class Off(NamedTuple):
    """A stretch of time in which a circuit has no power, minutes from arrival, and the steps that begin and end it; the
    last is empty where it does not come back."""

    load: str
    start: int
    end: int
    by: str
    back: str = ""


class _Event(NamedTuple):
    at: int
    turn: int
    step: WorkStep
    ends: bool


class Outage:
    """What is without power when, for any schedule of the same steps."""

    def __init__(self, house: House, utility: Container[str], steps: Sequence[WorkStep], loads: Sequence[Load]) -> None:
        self.loads = tuple(loads)
        self._site = house.site
        self._steps = [step for step in steps if step.turns or step.id in {load.move for load in loads}]
        self._fed: dict[frozenset[str], frozenset[str]] = {}
        self._utility = [zone for name, zone in house.site.sources.items() if name in utility]

    def darkening(self) -> list[str]:
        """The gates whose opening alone leaves a circuit without power that had it."""
        closed = {gate.id for gate in self._site.gates if gate.closed}
        lit = [load for load in self.loads if self._has(load, closed, set())]
        return [gate for gate in closed if any(not self._has(load, closed - {gate}, set()) for load in lit)]

    def windows(self, slots: Mapping[str, Slot]) -> list[Off]:
        """Every stretch without power, circuit by circuit; steps that have no time yet are left out."""
        closed = {gate.id for gate in self._site.gates if gate.closed}
        moved, since = set[str](), dict[str, tuple[int, str]]()
        dark = {load.id for load in self.loads if not self._has(load, closed, moved)}  # before anybody came
        found = list[Off]()
        for event in self._events(slots):
            for turn in event.step.turns:
                if turn.change == "open" and not event.ends:
                    closed.discard(turn.gate)
                elif turn.change == "close" and event.ends:
                    closed.add(turn.gate)
            if event.ends:
                moved.add(event.step.id)
            for load in self.loads:
                on = self._has(load, closed, moved)
                if on and load.id in since:
                    found.append(Off(load.id, since[load.id][0], event.at, since.pop(load.id)[1], event.step.id))
                elif not on and load.id not in since and load.id not in dark:
                    since[load.id] = (event.at, event.step.id)
        last = max((slot.free for slot in slots.values()), default=0)
        return found + [Off(id, at, last, by) for id, (at, by) in since.items()]

    def _events(self, slots: Mapping[str, Slot]) -> list[_Event]:
        found = list[_Event]()
        for turn, step in enumerate(each for each in self._steps if each.id in slots):
            slot = slots[step.id]
            found += [_Event(slot.start, turn, step, ends=False), _Event(slot.end, turn, step, ends=True)]
        return sorted(found, key=lambda each: (each.at, not each.ends, each.turn))

    def _has(self, load: Load, closed: set[str], moved: set[str]) -> bool:
        zone = load.new if load.move in moved else load.home
        return zone in self._reached(frozenset(closed))

    def _reached(self, closed: frozenset[str]) -> frozenset[str]:
        if closed not in self._fed:
            self._fed[closed] = fed(self._site, self._utility, closed)
        return self._fed[closed]


def fed(site: Site, zones: Iterable[str], closed: Container[str]) -> frozenset[str]:
    """The zones that closed gates join to some zones, those themselves too."""
    seen = set(zones)
    waiting = list(seen)
    while waiting:
        here = waiting.pop()
        for gate in site.gates:
            if gate.id in closed and here in (gate.a, gate.b):
                there = gate.b if here == gate.a else gate.a
                waiting += [there] if there not in seen else []
                seen.add(there)
    return frozenset(seen)


def loads_of(plan: Plan, house: House, steps: Sequence[WorkStep]) -> list[Load]:
    """The circuits of the house that are there before the work: what feeds a load, and no panel and no source.

    Years later, when every part of the job is there before the work, its new circuits are too.
    """
    ids, found = {step.id for step in steps}, list[Load]()
    built = all(part.existing for part in plan.installation.parts.values())
    for panel in plan.survey.job.panels:
        if panel.id not in plan.installation.parts:
            continue
        for circuit in panel.circuits:
            there = built or circuit.state != "new"
            if circuit.feeds is None and circuit.source_output is None and there:
                found.append(_load(plan, house, panel, circuit, ids))
    return found


def _load(plan: Plan, house: House, panel: Panel, circuit: Circuit, ids: set[str]) -> Load:
    move, here = f"job.move-{panel.id}", house.site.zone(panel.id)
    moves = panel.state == "new" and move in ids
    home = _old_zone(plan, house, circuit) if moves else here
    name, panel_name = circuit.name or circuit.id, panel.name or panel.id
    return Load(f"{panel.id}/{circuit.id}", name, panel_name, circuit.sensitive, home, here, move if moves else "")


def _old_zone(plan: Plan, house: House, circuit: Circuit) -> str:
    """The zone that a circuit is moved from; where the survey does not say, that of the utility: it has power until the
    first switch between is opened, which makes the time without power longer."""
    if circuit.moved_from is not None and circuit.moved_from in plan.installation.parts:
        return house.site.zone(circuit.moved_from)
    first = next((part for part in plan.installation.of_kind("busbar") if part.existing), None)
    return house.site.zone(first.id) if first is not None else ""
