"""The hard rest: the same spots as a programme in whole numbers, for HiGHS (extra `opt`)."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.siting.search.field import Field, Open, members

MOST_BRANCHES = 20_000
"""Branches that the solver may follow; a limit of time would make the answer hang on the machine."""


class Solved(NamedTuple):
    """What the solver says.

    Attributes:
        best: the placement; None where none was found.
        bound: no placement costs less; without end where there is none.
        proven: nothing costs less than that placement, or there is none.
    """

    best: Open | None
    bound: float
    proven: bool


class Row(NamedTuple):
    """So much at least and at most, of spots by their columns."""

    low: float
    high: float
    of: dict[int, int]


def solve(field: Field, start: Open) -> Solved | None:
    """The cheapest placement among the spots of a field; None where HiGHS is not installed.

    Args:
        field: the spots.
        start: nothing placed yet, and the spots that are worth a look.
    """
    try:
        import highspy
    except ImportError:
        return None
    units = list(members(start.free))
    costs = [field.spots.places[at][0].cost for at in units] + [0] * len(field.strips.places)
    rows = list(_rows(field, start, {at: column for column, at in enumerate(units)}))
    # Highs itself writes a banner on the standard output when it is made; the class below it does not
    model = highspy._Highs()  # type: ignore[attr-defined]
    options = {"output_flag": False, "threads": 1, "mip_rel_gap": 0.0, "mip_abs_gap": 0.5}
    for name, value in {**options, "mip_max_nodes": MOST_BRANCHES}.items():
        model.setOptionValue(name, value)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(costs), len(rows)
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = [float(cost) for cost in costs], [0.0] * len(costs), [1.0] * len(costs)
    lp.integrality_ = [highspy.HighsVarType.kInteger] * len(costs)
    lp.row_lower_, lp.row_upper_ = [row.low for row in rows], [row.high for row in rows]
    starts = [0]
    for row in rows:
        starts.append(starts[-1] + len(row.of))
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = starts
    lp.a_matrix_.index_ = [column for row in rows for column in row.of]
    lp.a_matrix_.value_ = [float(value) for row in rows for value in row.of.values()]
    model.passModel(lp)
    model.run()
    status, info = model.getModelStatus(), model.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Solved(None, math.inf, True)
    best: Open | None = None
    if info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible:
        values = model.getSolution().col_value
        best = _placed(field, start, [at for column, at in enumerate(units) if round(values[column])])
    return Solved(best, info.mip_dual_bound, status == highspy.HighsModelStatus.kOptimal and best is not None)


def _placed(field: Field, start: Open, taken: list[int]) -> Open | None:
    """The placement step by step, so that the field and not the solver says that it is one."""
    here: Open | None = start
    for at in taken:
        if here is None or not here.free >> at & 1:
            return None
        here = field.take(here, at)
    return here


def _rows(field: Field, start: Open, columns: dict[int, int]) -> Iterator[Row]:
    """So many units of each group, one place for each strip, and what excludes what."""
    spots, strips, first = field.spots, field.strips, len(columns)
    for at, wanted in enumerate(start.counts):
        if wanted:
            yield _exactly(wanted, [columns[each] for each in members(start.free & spots.of[at])])
    for wanted in field.wanted:
        yield _exactly(1, [first + each for each in members(wanted)])
    for clique in sorted({each & start.free for at in columns for each in spots.windows(at)}):
        if clique & clique - 1:
            yield Row(-math.inf, 1, {columns[each]: 1 for each in members(clique)})
    for at, column in columns.items():
        spot, group = spots.places[at]
        against = start.free & ~spots.beside(spot, group) & ~spots.alike(at)
        for other, wanted in enumerate(start.counts):
            excluded = [columns[each] for each in members(against & spots.of[other]) if each != at]
            if excluded:
                yield Row(-math.inf, wanted, {**dict.fromkeys(excluded, 1), column: wanted})
        for wanted in field.wanted:
            left = wanted & strips.beside(spot, group)
            if left != wanted:
                yield Row(0, math.inf, {**{first + each: 1 for each in members(left)}, column: -1})


def _exactly(wanted: int, columns: list[int]) -> Row:
    return Row(wanted, wanted, dict.fromkeys(columns, 1))
