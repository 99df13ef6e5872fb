"""Panel schedules before and after the work, and the load calculation beside them."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation.circuits import Named, of, serves
from standfast.handover.directory import has_ways, rating
from standfast.handover.legs import SYSTEMS, earth_of, line_of
from standfast.paper.document import Block, Facts, Heading, Keep, Sheet, Table, Text, Words, bold
from standfast.sheet import Value
from standfast.sheet.printed import amount
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel
from standfast.survey.spaces import Held, as_built, as_found
from standfast.units import Quantity, show

CODE = "E2"
"""Number of their sheet."""
_FREE = "free"
_UNKNOWN = "not known"


class Known(NamedTuple):
    """What the installation says of panels.

    Attributes:
        circuits: names of the circuits, by panel and circuit.
        faults: greatest fault current at each panel, by its id.
        labels: numbers of the labels on each panel, by its name.
    """

    circuits: Mapping[tuple[str, str], Named] = {}
    faults: Mapping[str, Value] = {}
    labels: Mapping[str, Sequence[str]] = {}


def sheet(job: Job, load: Sequence[Block], known: Known) -> Sheet:
    """The sheet of panel schedules: existing, then as it will be; then the load calculation.

    Args:
        job: the job file.
        load: the load calculation as cards.
        known: what the installation says of the panels.
    """
    made = _Schedules(job, known)
    blocks: list[Block] = []
    for panel in job.panels:
        found, built = as_found(job, panel.id), as_built(job, panel.id)
        if panel.state == "new":
            blocks.append(Keep(made.schedule(panel, "new", built)))
        elif [_held(each) for each in found] == [_held(each) for each in built]:
            blocks.append(Keep(made.schedule(panel, "existing, stays as it is", built)))
        else:
            blocks.append(Keep(made.schedule(panel, "existing", found, before=True)))
            blocks.append(Keep(made.schedule(panel, "as it will be", built)))
    blocks.append(Heading("Load calculation"))
    blocks += load or [Words("No load calculation was made: see the open checks.")]
    return Sheet(CODE, "Panel schedules and load calculation", blocks, columns=2)


def _held(held: Held) -> tuple[str, tuple[int, ...]]:
    return held.circuit.id, held.spaces


class _Schedules:
    """Panel schedules of a job, under the names of its installation."""

    def __init__(self, job: Job, known: Known) -> None:
        self.job, self.known = job, known
        self.panels = {panel.id: panel.name or panel.id for panel in job.panels}
        system = SYSTEMS.get(job.supply.system or "")
        self.lines: tuple[str, ...] = () if system is None else system.lines
        self.metric = has_ways(job)

    def schedule(self, panel: Panel, state: str, circuits: list[Held], *, before: bool = False) -> list[Block]:
        """One schedule.

        Args:
            panel: the panel.
            state: for its heading.
            circuits: what it holds then.
            before: true for what was found before the work.
        """
        placed = [each for each in circuits if each.spaces]
        loose = [each for each in circuits if not each.spaces]
        blocks: list[Block] = [
            Heading(f"{self.panels[panel.id]}: {state}"), Facts(list(self._facts(panel, circuits, before)), 26, 8.5)
        ]  # fmt: skip
        if placed or not loose:
            blocks.append(self._grid(panel, placed, _UNKNOWN if loose else _FREE, before))
        if loose:
            rows: list[list[Text]] = [[*self._told(panel, each), _of(each.circuit)] for each in loose]
            head = ["Circuit", "A/P", "VA", "State"]
            blocks.append(Table(head, rows, [4, 1.2, 1.4, 1.4], "Spaces not surveyed", [1, 2]))
        return blocks

    def _facts(self, panel: Panel, circuits: list[Held], before: bool) -> Iterator[tuple[str, str]]:
        yield "System", self.job.supply.system or _UNKNOWN
        main = "lugs, no main breaker" if panel.main_lugs and panel.main is None else f"main {_text(panel.main)}"
        yield "Busbar", f"{_text(panel.busbar)}, {main}"
        fed = _UNKNOWN if panel.fed_from is None else self.panels.get(panel.fed_from, panel.fed_from)
        how = f" by {panel.fed_by}" if panel.fed_by is not None else ""
        at = f"{panel.feed} of the busbar" if panel.feed is not None else "at which place of the busbar is not known"
        yield "Fed from", f"{fed}{how}" if self.metric else f"{fed}{how}, {at}"
        fault = self.known.faults.get(panel.id)
        arrives = "" if fault is None or before else f"; greatest fault current {amount(fault)}"
        withstands, breaks = _text(panel.short_circuit_rating), _text(panel.breaker_interrupting)
        yield "Withstands", f"{withstands}; breakers interrupt {breaks}{arrives}"
        bonded = {True: "joined in it", False: "apart", None: _UNKNOWN}[panel.neutral_bonded]
        yield f"Neutral, {earth_of(self.job.supply.system)}", bonded
        yield "Ways" if self.metric else "Spaces", _UNKNOWN if panel.spaces is None else str(panel.spaces)
        labels = self.known.labels.get(self.panels[panel.id])
        if labels and not before:
            yield "Labels", ", ".join(labels)
        yield "Connected load", self._load(circuits)

    def _load(self, circuits: list[Held]) -> str:
        """Connected load of every line; what nobody placed is told apart."""
        lines, loose, unknown = dict.fromkeys(self.lines, 0.0), 0.0, 0
        for held in circuits:
            circuit = held.circuit
            if circuit.load is None:
                unknown += circuit.source_output is None and circuit.feeds is None
            elif held.spaces and self.lines and not self.metric:
                for space in held.spaces:
                    lines[line_of(space, self.lines)] += float(circuit.load.number) / len(held.spaces)
            else:
                loose += float(circuit.load.number)
        told = [f"{line} {show(load, 'VA')}" for line, load in lines.items() if load]
        if len(told) > 1:
            told.append(f"together {show(sum(lines.values()), 'VA')}")
        if loose:
            told.append(f"{'' if not told else 'on lines that are not known '}{show(loose, 'VA')}")
        if unknown:
            told.append(f"of {unknown} circuits not known")
        return ", ".join(told) or "none"

    def _grid(self, panel: Panel, circuits: list[Held], empty: str, before: bool) -> Table:
        """Spaces as they lie in the panel: odd numbers on the left, even ones on the right; `empty` where none lies.

        Of a board with ways each way in a row of its own.
        """
        held = {space: each for each in circuits for space in each.spaces}
        last = max([panel.spaces or 0, *held])
        side = ["", "Circuit", "A/P", "VA"]
        if self.metric:
            ways = [[str(way), *self._way(panel, held.get(way), way, empty, before)] for way in range(1, last + 1)]
            head = ["Way", "Circuit", "A/P", "VA", "Device", "Curve", "RCD"]
            return Table(head, ways, [0, 4, 1, 1.4, 1.2, 1.2, 1.6], "", [0, 2, 3], 8)
        rows: list[list[Text]] = []
        for odd in range(1, last + 1, 2):
            row: list[Text] = []
            for space in (odd, odd + 1):
                row += [str(space), *self._cell(panel, held.get(space), space, empty, before)]
            rows.append(row)
        return Table(side * 2, rows, [0, 3, 1, 1.5] * 2, "", [0, 2, 3, 4, 6, 7], 8)

    def _way(self, panel: Panel, held: Held | None, way: int, empty: str, before: bool) -> list[Text]:
        told = self._cell(panel, held, way, empty, before)
        if held is None or way != held.spaces[0]:
            return [*told, "", "", ""]
        known = of(self.known.circuits, panel.id, held.circuit)
        if known is None:
            return [*told, _UNKNOWN, _UNKNOWN, _UNKNOWN]
        return [*told, known.device or _UNKNOWN, known.curve or _UNKNOWN, known.residual or "none stated"]

    def _cell(self, panel: Panel, held: Held | None, space: int, empty: str, before: bool) -> list[Text]:
        if held is None:
            return [empty, "", ""]
        if space != held.spaces[0]:
            return [f"with {held.spaces[0]}", "", ""]
        circuit = held.circuit
        name, amperes, load = self._told(panel, held)
        if not before and circuit.moved_from is not None:
            spaces = ", ".join(str(each) for each in circuit.moved_spaces)
            name = f"{name} (from {self.panels.get(circuit.moved_from, circuit.moved_from)} {spaces})"
        return [bold(f"NEW {name}") if circuit.state == "new" else name, amperes, load]

    def _told(self, panel: Panel, held: Held) -> tuple[str, str, str]:
        """What a circuit serves, amperes and poles, and its load, or what it brings in."""
        circuit = held.circuit
        load = "" if circuit.load is None else show(float(circuit.load.number), "")
        known = of(self.known.circuits, panel.id, circuit)
        output = _text(circuit.source_output) if circuit.source_output is not None else known.output if known else ""
        if output:
            load = f"source {output}".replace(" ", "\u00a0")
        return serves(self.known.circuits, panel.id, circuit), rating(held), load


def _of(circuit: Circuit) -> Text:
    return bold("new") if circuit.state == "new" else circuit.state or _UNKNOWN


def _text(quantity: Quantity | None) -> str:
    return _UNKNOWN if quantity is None else quantity.text
