"""The directory of each panel as it will hang in its door: what every space holds after the work."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.circuits import Named, serves
from standfast.handover.legs import SYSTEMS, earth_of, line_of
from standfast.paper.schedule import NOT_KNOWN, Cell, Schedule
from standfast.reading.quantities import amount
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel
from standfast.survey.spaces import Held, as_built
from standfast.units import show

SPARE = "spare space"
UNSURVEYED = "not surveyed"
HEAD = (
    "panel",
    "space",
    "serves",
    "breaker A",
    "poles",
    "device",
    "curve",
    "residual device",
    "line",
    "source",
    "state",
)


class Row(NamedTuple):
    """One space of a panel, or one circuit whose spaces nobody surveyed.

    Attributes:
        space: its number; None where it is not known.
        serves: what it feeds, by the one name of the installation.
        rating: amperes and poles, ``30/2``; empty where the space holds none.
        held: the circuit; None for an empty space.
        first: the first space of the circuit, where this one is not it.
        source: true where power comes in through it.
        named: names and protection of the circuit; None where the installation does not hold it.
    """

    space: int | None
    serves: str
    rating: str = ""
    held: Held | None = None
    first: int | None = None
    source: bool = False
    named: Named | None = None


class Directory(NamedTuple):
    """The directory of one panel.

    Attributes:
        panel: the panel.
        name: of the panel.
        rows: its spaces in order, then circuits whose spaces nobody surveyed.
        metric: true where its ways are counted in one row, with device, curve and residual device.
    """

    panel: Panel
    name: str
    rows: tuple[Row, ...]
    metric: bool


def directories(job: Job, circuits: Mapping[tuple[str, str], Named]) -> list[Directory]:
    """The directory of every panel, as it will be.

    Args:
        job: the job file.
        circuits: names of the circuits, by panel and circuit.
    """
    names = {panel.id: panel.name or panel.id for panel in job.panels}
    metric = has_ways(job)
    return [Directory(each, names[each.id], _rows(job, each, circuits, names), metric) for each in job.panels]


def has_ways(job: Job) -> bool:
    """Whether boards have ways in one row, as in metric countries, and no numbered spaces in two columns."""
    return earth_of(job.supply.system) == "earth"


def _rows(
    job: Job, panel: Panel, circuits: Mapping[tuple[str, str], Named], names: Mapping[str, str]
) -> tuple[Row, ...]:
    built = as_built(job, panel.id)
    taken = {space: held for held in built for space in held.spaces}
    loose = [held for held in built if not held.spaces]
    empty = UNSURVEYED if loose else SPARE
    found: list[Row] = []
    for space in range(1, max([panel.spaces or 0, *taken]) + 1):
        held = taken.get(space)
        if held is None:
            found.append(Row(space, empty))
        elif space != held.spaces[0]:
            found.append(Row(space, f"with {held.spaces[0]}", held=held, first=held.spaces[0]))
        else:
            found.append(_row(space, panel, held, circuits, names))
    return (*found, *(_row(None, panel, held, circuits, names) for held in loose))


def _row(
    space: int | None, panel: Panel, held: Held, circuits: Mapping[tuple[str, str], Named], names: Mapping[str, str]
) -> Row:
    circuit = held.circuit
    known = circuits.get((panel.id, circuit.id))
    source = known.source if known is not None else circuit.source_output is not None
    return Row(
        space, serves(circuits, panel.id, circuit) + _moved(circuit, names), rating(held), held, None, source, known
    )


def _moved(circuit: Circuit, names: Mapping[str, str]) -> str:
    if circuit.moved_from is None:
        return ""
    spaces = ", ".join(str(each) for each in circuit.moved_spaces)
    return f" (moved from {names.get(circuit.moved_from, circuit.moved_from)} {spaces})".replace(" )", ")")


def rating(held: Held) -> str:
    """Amperes and poles of a breaker: ``30/2``; a question mark for what nobody said."""
    circuit = held.circuit
    amperes = "?" if circuit.breaker is None else show(float(circuit.breaker.number), "")
    return f"{amperes}/{'?' if held.poles is None else held.poles}"


def schedule(job: Job, circuits: Mapping[tuple[str, str], Named]) -> Schedule:
    """Every directory as rows for spreadsheets."""
    rows: list[tuple[Cell, ...]] = []
    system = SYSTEMS.get(job.supply.system or "")
    for each in directories(job, circuits):
        for row in each.rows:
            line = "" if system is None or row.space is None or each.metric else line_of(row.space, system.lines)
            rows.append((each.name, *_cells(row), line, "yes" if row.source else "", _state(row)))
    return Schedule("directory", HEAD, tuple(rows))


def _cells(row: Row) -> tuple[Cell, ...]:
    space: Cell = NOT_KNOWN if row.space is None else float(row.space)
    if row.held is None or row.first is not None:
        return space, row.serves, "", "", "", "", ""
    circuit = row.held.circuit
    amperes: Cell = NOT_KNOWN if circuit.breaker is None else amount(circuit.breaker, "A")
    poles: Cell = NOT_KNOWN if row.held.poles is None else float(row.held.poles)
    known = row.named
    protected = ("", "", "") if known is None else (known.device, known.curve, known.residual)
    return (space, row.serves, amperes, poles, *protected)


def _state(row: Row) -> str:
    return "" if row.held is None else row.held.circuit.state or NOT_KNOWN
