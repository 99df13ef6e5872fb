"""What the three-line diagram says: every conductor from the utility to each source, through what it runs.

The way is cut at busbars into strips: the service, each feeder on the way of a source, the circuit of each source, and
the DC side of each inverter. Each strip goes from device to device; what nobody stated is drawn as not known.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.installation.graph import PartKind
from standfast.design.wiring.whole import Wiring
from standfast.handover.drawings.one_line_inside import MAIN, is_inside
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.legs import System, line_of, system_of
from standfast.survey.power import Circuit

SOURCES: tuple[PartKind, ...] = ("inverter", "generator")
CELLS: tuple[PartKind, ...] = ("battery", "array")


class Stop(NamedTuple):
    """A device on its strip.

    Attributes:
        part: the part of the graph.
        poles: conductors that it opens; None where it opens none.
        unknown: what is not known of how it opens them; empty where all is.
        marks: conductor to the mark of the terminal that it ends on, as the data sheet names it.
        terminals: names of its DC terminals, as the data sheet has them; empty where it names none.
    """

    part: Part
    poles: tuple[str, ...] | None = None
    unknown: str = ""
    marks: Mapping[str, str] = {}
    terminals: str = ""


class Gap(NamedTuple):
    """The conductors between two devices: the number of their run, and which conductors are run; `unknown` ones may."""

    run: str
    conductors: tuple[str, ...]
    unknown: tuple[str, ...] = ()


class Strip(NamedTuple):
    """Conductors side by side from one busbar to the next, or to a source: one more device than gaps."""

    title: str
    conductors: tuple[str, ...]
    stops: tuple[Stop, ...]
    gaps: tuple[Gap, ...]


class ThreeLine(NamedTuple):
    """Everything that the three-line diagram says, beside what the one-line diagram does."""

    strips: tuple[Strip, ...]
    facts: OneLine


def three_line(
    job: JobFile, sheets: Mapping[str, SheetFile], wiring: Wiring, facts: OneLine
) -> ThreeLine:  # fmt: skip
    """Everything that the diagram says.

    Args:
        job: the job file.
        sheets: data sheets by role.
        wiring: what was worked out.
        facts: what the one-line diagram says: names, runs, bonds.

    Raises:
        NoSystem: where the job does not say which system is delivered.
    """
    told = _Telling(job, sheets, wiring, facts)
    return ThreeLine(tuple(told.strips()), facts)


class _Telling:
    def __init__(self, job: JobFile, sheets: Mapping[str, SheetFile], wiring: Wiring, facts: OneLine) -> None:
        self.job, self.sheets, self.wiring, self.facts = job, sheets, wiring, facts
        self.installation: Installation = facts.installation
        self.system: System = system_of(job.content.supply.system)
        self.numbers = {id: str(number) for number, run in enumerate(facts.runs, 1) for id in run.ids}
        circuits = wiring.circuits
        self.neutrals = {tube.run.id: each.neutral for each in circuits for tube in each.raceways}

    def strips(self) -> Iterator[Strip]:
        done: set[tuple[str, ...]] = set()
        for source in self.installation.of_kind(*SOURCES):
            for way in self._cut(source):
                ids = tuple(part.id for part in way)
                if ids not in done:
                    done.add(ids)
                    yield self._strip(way)
        for inverter in self.installation.of_kind("inverter"):
            for cells in self.installation.of_kind(*CELLS):
                way = self.installation.path(inverter.id, cells.id)
                between = self.installation.conductors(inverter.id, cells.id)
                outside = any(link.kind == "conductor" for link in between)  # inside a unit nobody wires anything
                if outside and not any(part.kind in ("busbar", *SOURCES) for part in way[1:]):
                    yield self._dc(way)

    def _cut(self, source: Part) -> Iterator[list[Part]]:
        """The way from the utility to a source, cut at its busbars."""
        for utility in self.installation.of_kind("utility"):
            piece: list[Part] = []
            for part in self.installation.path(utility.id, source.id):
                piece.append(part)
                if part.kind == "busbar" and len(piece) > 1:
                    yield piece
                    piece = [part]
            if len(piece) > 1:
                yield piece

    def _strip(self, way: Sequence[Part]) -> Strip:
        lines, n, g = self.system[:3]
        used = self._used(way)
        every = (*lines, n, g)
        stops = tuple(self._stop(part, used) for part in way)
        links = self.installation.conductors(way[0].id, way[-1].id)
        grounded = self._grounded(way)
        gaps = tuple(self._gap(link, used, number >= grounded) for number, link in enumerate(links))
        return Strip(self._title(way), every, stops, gaps)

    def _grounded(self, way: Sequence[Part]) -> int:
        """The device from which on a ground conductor runs: on the way in, the first that joins neutral and ground."""
        if way[0].kind != "utility":
            return 0
        joined = self.facts.joined
        found = (n for n, part in enumerate(way) if joined.get(part.id) or part.id == "service-disconnect")
        return next(found, len(way))

    def _title(self, way: Sequence[Part]) -> str:
        if way[0].kind == "utility":
            return f"Service: utility to {way[-1].name}"
        if way[-1].kind == "busbar":
            return f"Feeder: {way[0].name} to {way[-1].name}"
        return f"Circuit of {way[-1].name}: from {way[0].name}"

    def _used(self, way: Sequence[Part]) -> tuple[str, ...]:
        """The lines that run on behind the first breaker: as many as it has poles, by the spaces that it takes."""
        first = next((part for part in way[1:] if part.kind == "breaker"), None)
        lines = self.system.lines
        if first is None or way[0].kind != "busbar":
            return lines
        poles, circuit = self._poles(first), self._circuit(first)
        if poles is None or poles >= len(lines):
            return lines
        if circuit is not None and circuit.spaces:
            found = dict.fromkeys(line_of(space, lines) for space in circuit.spaces)
            return tuple(line for line in lines if line in found)
        return lines[:poles]

    def _stop(self, part: Part, used: tuple[str, ...]) -> Stop:
        n = self.system.neutral
        if part.kind in ("breaker", "fuse"):
            poles = self._poles(part)
            if part.id == "service-disconnect" or part.id.endswith(MAIN):
                metric = len(self.system.lines) != len(used) or self.system.earth == "earth"
                return Stop(part, used, "N: opened or not, not known" if metric else "")
            if poles is None:
                return Stop(part, None, "poles not known")
            return Stop(part, (*used, n) if poles > len(used) else used[:poles])
        if part.kind in ("disconnect", "transfer equipment"):
            return self._switch(part, used)
        if part.kind in SOURCES:
            return Stop(part, None, "", self._marks(part, used))
        return Stop(part)

    def _switch(self, part: Part, used: tuple[str, ...]) -> Stop:
        """A switch opens the lines; the neutral where its data sheet says so, or by one pole more."""
        n = self.system.neutral
        if part.existing:
            return Stop(part, used, "neutral: opened or not, not known")
        sheet = self.sheets.get(part.role or "disconnect")
        switch = None if sheet is None else sheet.content.switch
        if switch is None:
            return Stop(part, None, "poles not known")
        if part.kind == "transfer equipment":
            said = {True: (*used, n), False: used}
            if switch.neutral_switched is None:
                return Stop(part, used, "neutral: opened or not, not known")
            return Stop(part, said[switch.neutral_switched])
        if switch.poles is None:
            return Stop(part, None, "poles not known")
        return Stop(part, (*used, n) if int(switch.poles) > len(used) else used)

    def _gap(self, link: Link, used: tuple[str, ...], grounded: bool) -> Gap:
        n, g = self.system.neutral, self.system.ground
        ground = (g,) if grounded else ()
        if link.kind != "conductor" or link.id in ("service conductors", "service entrance"):
            return Gap(self.numbers.get(link.id, ""), (*used, n, *ground))
        runs = True if len(used) == 1 else self._neutral(link.id)  # one line alone needs its neutral
        return Gap(
            self.numbers.get(link.id, ""), (*used, *((n,) if runs else ()), *ground), (n,) if runs is None else ()
        )

    def _neutral(self, link: str) -> bool | None:
        """Whether a neutral runs along a link; None where nobody said."""
        route = link.partition(", ")[0]
        if route in self.neutrals:
            value = self.neutrals[route]
            return None if value.missing else value.number is not False and value.number != "none"
        if any(route == id or link == id for links in self._metric() for id in links):
            return True
        known = next((each for each in self.job.content.routes if each.id == route), None)
        if known is None or known.conductors is None or known.conductors.neutral is None:
            return None
        return known.conductors.neutral != "none"

    def _metric(self) -> list[tuple[str, ...]]:
        """Links of the circuits of a metric job: their cables have a neutral."""
        return [] if self.wiring.metric is None else [each.links for each in self.wiring.metric.circuits]

    def _poles(self, part: Part) -> int | None:
        circuit = self._circuit(part)
        if circuit is not None:
            return circuit.poles or (len(circuit.spaces) or None)
        sheet = self.sheets.get(part.role)
        if sheet is None or sheet.content.switch is None or sheet.content.switch.poles is None:
            return None
        return int(sheet.content.switch.poles)

    def _circuit(self, part: Part) -> Circuit | None:
        known = self.facts.circuits.get(part.id)
        if known is None:
            return None
        panel, id = known
        found = (each for each in self.job.content.panels if each.id == panel)
        return next((one for each in found for one in each.circuits if one.id == id), None)

    def _marks(self, part: Part, used: tuple[str, ...]) -> dict[str, str]:
        """Names of the terminals that lines, neutral and ground end on."""
        sheet = self.sheets.get(part.role)
        if sheet is None:
            return {}
        n, g = self.system.neutral, self.system.ground
        uses = {"ac line": used, "ac neutral": (n,), "ground": (g,)}
        found: dict[str, str] = {}
        for terminal in sheet.content.terminals:
            ends = uses.get(terminal.use or "", ())
            names = [each.strip() for each in (terminal.name or terminal.id).split(",")]
            for number, conductor in enumerate(ends):
                found[conductor] = names[number] if len(names) == len(ends) else (terminal.name or terminal.id)
        return found

    def _dc(self, way: Sequence[Part]) -> Strip:
        """From an inverter to cells or modules: positive, negative, equipment ground."""
        every = ("+", "−", self.system.ground)
        use = "pv" if way[-1].kind == "array" else "dc"
        stops = tuple(self._dc_stop(part, use) for part in way)
        gaps = tuple(
            Gap(self.numbers.get(link.id, ""), every if link.kind == "conductor" else every[:2])
            for link in self.installation.conductors(way[0].id, way[-1].id)
        )
        return Strip(f"DC of {way[-1].name}", every, stops, gaps)

    def _dc_stop(self, part: Part, use: str) -> Stop:
        if part.kind not in ("disconnect", "fuse", "breaker"):
            known = self.sheets.get(part.role) if part.role else None
            ends = [] if known is None else [each for each in known.content.terminals if each.use == use]
            return Stop(part, terminals="; ".join(each.name or each.id for each in ends))
        if is_inside(part):
            return Stop(part, None, "inside the unit, poles not stated")
        sheet = self.sheets.get(part.role)
        switch = None if sheet is None else sheet.content.switch
        if switch is None or switch.poles is None:
            return Stop(part, None, "poles not known")
        return Stop(
            part,
            ("+", "−") if int(switch.poles) > 1 else ("+",),
            "" if int(switch.poles) > 1 else "which pole: as the drawing of its maker",
        )
