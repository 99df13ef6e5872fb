"""Greatest and least fault current at every place from the service to the terminals of each source.

Greatest: of the loop between two lines and that to the neutral, whichever is more, and on top of it what every source
of the house adds, as a plain sum, which is never less than the vector sum. Least: what the grid alone drives from a
line into the equipment grounding conductor, or between two lines, at the far end; sources may be away, so that they
add nothing to it.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.wiring import fault_pieces
from standfast.design.wiring.fault_pieces import Piece
from standfast.design.wiring.fault_source import Grid, Loops, aligned
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import UTILITY
from standfast.design.wiring.unit import UnitCircuit
from standfast.rulebooks.handbook import fault_path
from standfast.rulebooks.handbook.fault_path import Impedance
from standfast.sheet import Value, attempt, given, work, worst

SERVICE = "service-disconnect"


class Level(NamedTuple):
    """Fault currents at one place, in kA.

    Attributes:
        at: id of the part of the installation.
        line_line, line_neutral: greatest that the grid drives round each loop.
        added: what the sources of the house add.
        greatest: the greater loop and what is added.
        least: the lesser loop of the grid alone, to ground or between lines.
    """

    at: str
    line_line: Value
    line_neutral: Value
    added: Value
    greatest: Value
    least: Value


class Reach(NamedTuple):
    """How far from the service a place is: pieces on the way to it."""

    at: str
    pieces: tuple[Piece, ...]


def levels(task: Material, grid: Grid, reaches: Sequence[Reach], added: Value) -> dict[str, Level]:
    """The fault currents at places.

    Args:
        task: the job.
        grid: at the service.
        reaches: each place with the pieces between it and the service.
        added: what the sources of the house add, in kA.
    """
    return {each.at: _level(task, grid, each, added) for each in reaches}


def reaches(
    task: Material, panels: Sequence[str], feeders: Sequence[Feeder], units: Sequence[UnitCircuit], lost: Sequence[str]
) -> Iterator[Reach]:  # fmt: skip
    """Every place: the service, the panels, and the disconnect and terminals of every source.

    Args:
        task: the job.
        panels: nearest to the service last.
        feeders: of these panels.
        units: circuits of the sources whose panel is known.
        lost: sources whose panel nobody said; what lies between them and the service is not taken off.
    """
    above = {each.panel: each for each in feeders}
    ways: dict[str, tuple[Piece, ...]] = {SERVICE: ()}
    yield Reach(SERVICE, ())
    for panel in reversed(panels):
        ways[panel] = _to_panel(task, panel, above.get(panel), ways)
        yield Reach(panel, ways[panel])
    for each in units:
        yield from _of_source(task, each, ways.get(each.panel, ()))
    for source in lost:
        yield Reach(terminals(task, source), ())


def _to_panel(
    task: Material, panel: str, feeder: Feeder | None, ways: Mapping[str, tuple[Piece, ...]]
) -> tuple[Piece, ...]:  # fmt: skip
    """The pieces from the service to a panel; one that nothing is known of where nobody said what feeds it."""
    if feeder is not None and feeder.above in ways:
        return (*ways[feeder.above], *fault_pieces.of_feeder(task, feeder))
    if feeder is None and task.panel(panel).fed_from == UTILITY:
        return ()
    return (fault_pieces.unsaid(task, f"panels.{panel}.fed_from"),)


def terminals(task: Material, source: str) -> str:
    """The part of the installation that holds the AC terminals of a source."""
    return source if task.role == "inverter" else f"{source}/inverter"


def _of_source(task: Material, made: UnitCircuit, start: tuple[Piece, ...]) -> Iterator[Reach]:
    """The disconnect in the run, where there is one, and the terminals."""
    pieces = list(fault_pieces.of_circuit(task, made.circuit))
    pieces.reverse()  # a circuit holds its runs from the source to the panel
    place, way = f"{made.id}/disconnect", list(start)
    met = "disconnect" not in task.sheets
    for piece in pieces:
        way.append(piece)
        if place in piece.ends and not met:
            met = True
            yield Reach(place, tuple(way))
    if not met:
        yield Reach(place, start)  # nobody said where it stands: at the panel, where the current is greatest
    yield Reach(terminals(task, made.id), tuple(way))


def _level(task: Material, grid: Grid, reach: Reach, added: Value) -> Level:
    lines, neutral = _greatest(task, grid, reach)
    most = attempt("I_grid", "kA", lambda: worst("I_grid", [lines, neutral], "max"))
    total = work("I_fault", "I_sc + I_added", "kA", None, I_sc=most, I_added=added)
    return Level(reach.at, lines, neutral, added, total, _least(task, grid, reach))


def _greatest(task: Material, grid: Grid, reach: Reach) -> tuple[Value, Value]:
    """Both loops; at the service what the utility states, and undiminished where nothing may be taken off."""
    if not reach.pieces:
        if grid.greatest is None or task.job.has("supply.fault_current"):
            return grid.strong, grid.strong
        return _currents(task, grid, grid.greatest, three_phase=True)
    if grid.greatest is not None:
        ones = [fault_pieces.greatest(task, each) for each in reach.pieces]
        if fault_path.told(ones):
            found = Loops(_way(task, grid.greatest.lines, ones, ones), _way(task, grid.greatest.neutral, ones, ones))
            return _currents(task, grid, found, three_phase=True)
    why = grid.undiminished if grid.greatest is None else _unmeasured(task, reach)
    whole = work("I_k", "k_way * I_sc", "kA", task.handbook.clause("fault_vector"), why, I_sc=grid.strong)
    return whole, whole


def _unmeasured(task: Material, reach: Reach) -> Value:
    """A factor of one where some conductor on the way is not known."""
    lacking = [fault_pieces.greatest(task, each).r for each in reach.pieces]
    need = "; ".join(dict.fromkeys(each.how for each in lacking if each.missing))
    return task.handbook.bounding("undiminished", f"{need}: taken undiminished, never less than the true current")


def _least(task: Material, grid: Grid, reach: Reach) -> Value:
    out, back = list[Impedance](), list[Impedance]()
    for each in reach.pieces:
        line, ground = fault_pieces.least(task, each)
        out.append(line)
        back.append(ground)
    start = grid.least
    if aligned(task):
        out, back = [_flat(each) for each in out], [_flat(each) for each in back]
        start = Loops(_flat(start.lines), _flat(start.neutral))
    found = Loops(_way(task, start.lines, out, out), _way(task, start.neutral, out, back))
    lines, ground_fault = _currents(task, grid, found, three_phase=False)
    return attempt("I_least", "kA", lambda: worst("I_least", [lines, ground_fault], "min"))


def _way(task: Material, start: Impedance, out: Sequence[Impedance], back: Sequence[Impedance]) -> Impedance:
    return fault_path.in_series(task.handbook, [start, *out, *back])


def _currents(task: Material, grid: Grid, loops: Loops, *, three_phase: bool) -> tuple[Value, Value]:
    """Currents of both loops; of three phases the fault of all of them, where the greatest is asked for."""
    book = task.handbook
    lines = attempt("I_LL", "kA", lambda: fault_path.in_loop(book, grid.lines, loops.lines))
    if three_phase and not grid.split.missing and not grid.split.yes:
        lines = work("I_3", "2 / sqrt(3) * I_LL", "kA", book.clause("fault_vector"), I_LL=lines)
    return lines, attempt("I_LN", "kA", lambda: fault_path.in_loop(book, grid.neutral, loops.neutral))


def _flat(piece: Impedance) -> Impedance:
    """Its magnitude as a plain number: in a row with others never less than the vector sum."""
    size = work("Z", "hypot(R, X)", "mohm", None, R=piece.r, X=piece.x)
    return Impedance(size, given("X", 0.0, "mohm", "magnitudes are added as plain numbers"))


def greatest(found: Mapping[str, Level]) -> dict[str, Value]:
    """The greatest fault current in kA by part of the installation."""
    return {at: each.greatest for at, each in found.items()}
