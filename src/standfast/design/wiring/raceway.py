"""Which trade size a run takes, and how full it is."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.design.wiring.pieces import Piece
from standfast.design.wiring.runs import Run
from standfast.rulebooks.nfpa70 import raceways
from standfast.sheet import Check, Value, at_most, attempt, chosen, missing, settle, total, work
from standfast.shelf import Edition


class Raceway(NamedTuple):
    """The raceway of one run: kind, trade size, area of the conductors and limit in in2, fill in per cent.

    Attributes:
        run: the run; in a change, only as long as that.
        kind: word.
        trade_size: word.
        area: of the conductors in it, in2.
        limit: of that area, in2.
        percent: fill.
        changes: other kinds that sections of the run go through.
    """

    run: Run
    kind: Value
    trade_size: Value
    area: Value
    limit: Value
    percent: Value
    changes: tuple["Raceway", ...] = ()

    @property
    def longest(self) -> Value:
        """Length of this kind at the bad end of the survey, without its changes, in ft."""
        if not self.changes:
            return self.run.longest
        changed = total("L_changed", [each.run.longest for each in self.changes], "ft")
        return work("L_own", "L_max - L_changed", "ft", None, changed, L_max=self.run.longest)

    @property
    def kinds(self) -> tuple["Raceway", ...]:
        """This one and its changes."""
        return (self, *self.changes)


def plan(book: Edition, run: Run, groups: list[raceways.Group]) -> Raceway:
    """The raceway of a run: the trade size that the job fixes, else the smallest that takes the conductors.

    Args:
        book: the code.
        run: the run.
        groups: the conductors of the circuit, equipment grounding conductor included.
    """
    full = max((each.others for each in run.pieces), key=lambda each: 0.0 if each.missing else each.quantity)
    made = _plan(book, run if run.others.missing else run._replace(others=full), groups)
    changed = {each.raceway.number: each for each in run.sections if not each.raceway.missing}
    changed.pop(run.raceway.number, None)
    return made._replace(changes=tuple(_plan(book, _through(run, each), groups) for each in changed.values()))


def _through(run: Run, piece: Piece) -> Run:
    """A run as far as it goes through the raceway of a piece, in the trade size that it takes."""
    same = [each for each in run.sections if each.raceway.number == piece.raceway.number]
    length = total("L_max", [each.longest for each in same], "ft")
    return run._replace(raceway=piece.raceway, longest=length, trade_size=None, sections=())


def _plan(book: Edition, run: Run, groups: list[raceways.Group]) -> Raceway:
    unknown = _unknown(run, groups)
    if unknown is not None:
        return _unsized(run, unknown)
    size = run.trade_size
    if size is None:
        size = attempt("trade_size", "", lambda: _smallest(book, run, groups))
    if size.missing:
        return _unsized(run, size)

    def ask(symbol: str, unit: str, at: int, size: Value = size) -> Value:
        return attempt(symbol, unit, lambda: raceways.fill(book, run.raceway, size, groups)[at])

    return Raceway(
        run, run.raceway, size, ask("A_cond", "in2", 0), ask("A_lim", "in2", 1), ask("fill_pct", "%", 2)
    )  # fmt: skip


def checks(task: Material, circuit: str, found: Raceway) -> Iterator[Check]:
    """The raceway is not too full."""
    clause, title = task.nec.clause("raceway_fill"), f"Fill of the raceway {found.run.id}"
    id = f"wiring.raceway-fill/{circuit}/{found.run.id}"
    yield settle(id, title, clause, lambda: at_most(id, title, clause, found.area, found.limit))
    for each in found.changes:
        yield _change(task, circuit, each)


def _change(task: Material, circuit: str, found: Raceway) -> Check:
    clause, title = task.nec.clause("raceway_fill"), f"Fill of the raceway {found.run.id} where it is {found.kind.word}"
    id = f"wiring.raceway-fill/{circuit}/{found.run.id}/{found.kind.word}"
    return settle(id, title, clause, lambda: at_most(id, title, clause, found.area, found.limit))


def _smallest(book: Edition, run: Run, groups: list[raceways.Group]) -> Value:
    for word in raceways.trade_sizes(book, run.raceway):
        size = chosen("trade_size", word, "", "smallest that takes the conductors", None, run.raceway)
        found = raceways.fill(book, run.raceway, size, groups)
        if found.area.quantity <= found.limit.quantity:
            return chosen("trade_size", word, "", "smallest that takes the conductors",
                          book.clause("raceway_fill"), found.area, found.limit)  # fmt: skip
    return missing("trade_size", "", f"no trade size of {run.raceway.word} takes the conductors: use two raceways")


def _unknown(run: Run, groups: list[raceways.Group]) -> Value | None:
    inputs = [run.raceway, run.others, *(value for group in groups for value in group)]
    if any(each.missing for each in inputs):
        return chosen("trade_size", "", "", "", None, *inputs)
    if run.others.quantity > 0:
        need = f"routes.{run.id}: sizes of the other conductors in this raceway, or a raceway of its own"
        return missing("trade_size", "", need)
    return None


def _unsized(run: Run, unknown: Value) -> Raceway:
    """A raceway of which neither size nor fill is known."""
    area, limit, percent = (
        missing(symbol, unit, unknown.how, unknown)
        for symbol, unit in (("A_cond", "in2"), ("A_lim", "in2"), ("fill_pct", "%"))
    )
    return Raceway(run, run.raceway, unknown, area, limit, percent)
