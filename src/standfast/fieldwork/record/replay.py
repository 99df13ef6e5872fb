"""The isolation state replayed from what was really done: what is live, what is unsafe, untested or worth nothing now.

The order of work is proven before the day; this tells of the day itself, also where it was done out of order or twice.
A gate that is open without the lock that it takes counts as closed, and every source runs, as in the proof.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from standfast.fieldwork.order.acts import Act, Gate
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.order.power import Power
from standfast.fieldwork.order.redo import invalidated
from standfast.fieldwork.record.causal import Known, after
from standfast.fieldwork.record.event import Event
from standfast.fieldwork.work_order import Decided

Danger = Literal[
    "live", "not proved dead", "live again after the proof", "still charged", "cover on", "cover off", "sensor open"
]


class Unsafe(NamedTuple):
    """Something that would be unsafe now, or was when it was done.

    Attributes:
        step: the step; empty where the state itself is unsafe.
        what: terminal, cover or sensor.
        why: what is wrong with it.
        source, gates: what feeds it, and through which gates; empty where that is not the point.
    """

    step: str
    what: str
    why: Danger
    source: str = ""
    gates: tuple[str, ...] = ()


class Untested(NamedTuple):
    """Conductors that are fed now though the step that tests them was not done, or counts no longer."""

    step: str
    terminal: str
    source: str


class Now(NamedTuple):
    """Where the work stands.

    Attributes:
        live: terminals that are live now, each with the source that feeds it.
        unsafe: what would be unsafe in the steps that are next, and sensors that are open under load.
        was: what was unsafe when it was done, in that order.
        untested: conductors that are fed without their test.
        again: done steps that count no longer, in the order of the plan.
        open: gates that are open, by their ids.
        locks: gates whose lock is on.
        covers_off: covers that are off now; the temporary parts that are in stand in `temporary`.
        temporary: what must not stay, and is there.
        unknown: ids of done steps that the plan does not have.
    """

    live: tuple[tuple[str, str], ...]
    unsafe: tuple[Unsafe, ...]
    was: tuple[Unsafe, ...]
    untested: tuple[Untested, ...]
    again: tuple[str, ...]
    open: tuple[str, ...]
    locks: tuple[str, ...]
    covers_off: tuple[str, ...]
    temporary: tuple[str, ...]
    unknown: tuple[str, ...]


class Line(NamedTuple):
    """Done steps in the order in which they were done, and pairs of which nobody knows the order."""

    steps: tuple[str, ...]
    unsure: tuple[tuple[str, str], ...]


def replay(decided: Decided, done_in_order: Sequence[str]) -> Now:
    """Replay what was done.

    Args:
        decided: the house and the acts of the plan.
        done_in_order: ids of the steps that were done, in the order in which they really were; one may come twice.
    """
    state = _House(decided)
    of_step: dict[str, list[Act]] = {}
    for act in decided.acts.all:
        of_step.setdefault(step_of(act.id), []).append(act)
    was, unknown = list[Unsafe](), list[str]()
    for step in done_in_order:
        if step not in of_step:
            unknown.append(step)
        for act in of_step.get(step, ()):
            was += state.dangers(act)
            state.does(act)
        was += state.sensors()
    finished = {step_of(id) for id in state.done}
    coming = [act for act in decided.acts.all if act.id not in state.counts and _is_next(act, state, finished)]
    unsafe = [*state.sensors(), *(each for act in coming for each in state.dangers(act))]
    again = {step_of(each) for each in state.done - state.counts}
    fed, on = state.fed(), state.on
    site = decided.house.site
    terminals = sorted({*site.terminals, *fed})
    return Now(
        tuple((each, fed[site.zone(each)][0]) for each in terminals if site.zone(each) in fed),
        tuple(dict.fromkeys(unsafe)), tuple(dict.fromkeys(was)), tuple(state.untested()),
        tuple(dict.fromkeys(step_of(act.id) for act in decided.acts.all if step_of(act.id) in again)),
        tuple(sorted(set(state.closed) - {id for id, closed in state.closed.items() if closed})),
        tuple(sorted(id for id, locked in state.locked.items() if locked)),
        tuple(sorted(site.covers - site.temporary - on)), tuple(sorted(site.temporary & on)),
        tuple(dict.fromkeys(unknown)),
    )  # fmt: skip


def _is_next(act: Act, state: "_House", finished: set[str]) -> bool:
    """Whether everything before the step of an act is done."""
    own = step_of(act.id)
    return all(step_of(before) in (*finished, own) for before in state.before(act, own))


class _House:
    """Gates, covers, proofs and charge as they are after some acts."""

    def __init__(self, decided: Decided) -> None:
        self.site, self.acts = decided.house.site, decided.acts
        self.gates = {gate.id: gate for gate in self.site.gates}
        self.closed = {gate.id: gate.closed for gate in self.site.gates}
        self.locked = {gate.id: gate.locked for gate in self.site.gates}
        self.on = set(self.site.covers)
        self.proved, self.lapsed = set[str](), set[str]()
        self.charged, self.done, self.counts = set[str](), set[str](), set[str]()
        self._power = Power(self.site, self.acts)
        self._settle()

    def before(self, act: Act, own: str) -> list[str]:
        """Acts that the acts of one step wait for."""
        return [id for each in self.acts.all if step_of(each.id) == own for id in each.after]

    def does(self, act: Act) -> None:
        """One act is done."""
        if act.gate and act.gate in self.gates:
            if act.change in ("open", "close"):
                self.closed[act.gate] = act.change == "close"
            else:
                self.locked[act.gate] = act.change == "lock"
        self.on.discard(act.uncovers)
        if act.covers:
            self.on.add(act.covers)
        fed = self.fed()
        self.charged -= {self.site.zone(each) for each in act.waits} - set(fed)
        for each in act.proves:
            if self.site.zone(each) not in fed and self.site.zone(each) not in self.charged:
                self.proved.add(each)
                self.lapsed.discard(each)
        self.done.add(act.id)
        self.counts -= {each for each in invalidated(self.acts, self.done, act.id) if not self._proof(each)}
        self.counts.add(act.id)
        self._settle()

    def _proof(self, id: str) -> bool:
        """An act that proves dead and nothing more: whether it counts is told by what was fed since."""
        act = self.acts.all[self.acts.number[id]]
        return bool(act.proves) and not act.clears and not act.groups

    def _settle(self) -> None:
        fed = self.fed()
        self.charged |= self.site.charged & set(fed)
        gone = {each for each in self.proved if self.site.zone(each) in fed}
        self.proved -= gone
        self.lapsed |= gone

    def fed(self, *, by_position: bool = False) -> dict[str, tuple[str, tuple[str, ...]]]:
        """Zones that can be live: the source of each and the gates between; an open gate without its lock lets through.

        Args:
            by_position: where an open gate parts without a lock too.
        """
        beside: dict[str, list[tuple[str, str]]] = {}
        for gate in self.gates.values():
            if self.closed[gate.id] or (not by_position and gate.locks and not self.locked[gate.id]):
                beside.setdefault(gate.a, []).append((gate.b, gate.id))
                beside.setdefault(gate.b, []).append((gate.a, gate.id))
        found: dict[str, tuple[str, tuple[str, ...]]] = {}
        waiting: list[tuple[str, str, tuple[str, ...]]] = [(at, name, ()) for name, at in self.site.sources.items()]
        while waiting:
            zone, source, gates = waiting.pop(0)
            if zone not in found:
                found[zone] = (source, gates)
                waiting += [(there, source, (*gates, gate)) for there, gate in beside.get(zone, ())]
        return found

    def dangers(self, act: Act) -> Iterator[Unsafe]:
        """What is unsafe where an act is done now."""
        step, fed = step_of(act.id), self.fed()
        for each in act.touches:
            zone = self.site.zone(each)
            if zone in fed:
                yield Unsafe(step, each, "live", *fed[zone])
            elif each in self.lapsed:
                yield Unsafe(step, each, "live again after the proof")
            elif zone in self.charged:
                yield Unsafe(step, each, "still charged")
            elif each not in self.proved and self._power.ways(zone):
                yield Unsafe(step, each, "not proved dead")
        yield from (Unsafe(step, each, "cover on") for each in act.reaches if each in self.on)
        yield from (Unsafe(step, each, "cover off") for each in act.shut if each not in self.on)

    def sensors(self) -> Iterator[Unsafe]:
        """Measuring transformers that sit round a live conductor with their secondary open."""
        fed = self.fed()
        for each in self.site.sensors:
            joined = each.secondary in self.on or each.shorting in self.on
            if each.around in self.on and not joined and each.zone in fed:
                yield Unsafe("", each.secondary, "sensor open", *fed[each.zone])

    def untested(self) -> Iterator[Untested]:
        """Conductors that the work fed, with a test that was not done or counts no longer."""
        fed = self.fed(by_position=True)
        for act in self.acts.all:
            if act.clears and act.id not in self.counts:
                for each in act.clears:
                    source, gates = fed.get(self.site.zone(each), ("", ()))
                    if source and any(self._by_work(self.gates[gate]) for gate in gates):
                        yield Untested(step_of(act.id), each, source)

    def _by_work(self, gate: Gate) -> bool:
        """Whether the work closed a gate: it was open before, or was opened since."""
        return any(self.acts.all[place].id in self.done for place in self.acts.of_gate.get(gate.id, ()))


def line(told: Known) -> Line:
    """The order in which steps were done, as far as anybody knows it.

    What two people did at one time without knowing of each other stands in the order of their devices, and as a pair in
    `unsure`.
    """
    left = [each for each in told.counting("done", "reading") if each.type == "done" or each.data.get("done") is True]
    placed = list[Event]()
    while left:
        ready = [each for each in left if not any(after(each, other) for other in left)]
        nearest = (ready or left)[0]
        placed.append(nearest)
        left.remove(nearest)
    unsure = [
        (one.step, other.step)
        for place, one in enumerate(placed)
        for other in placed[place + 1 :]
        if one.step != other.step and not after(other, one)
    ]
    return Line(tuple(each.step for each in placed), tuple(dict.fromkeys(unsure)))
