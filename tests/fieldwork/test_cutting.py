"""Pieces are cut from as few bars as can be, and the bound beside the plan holds."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.fieldwork.cutting import cut

PIECES = st.lists(st.integers(1, 60), max_size=9)


def fewest(pieces: list[int], bar: int, kerf: int) -> int:
    """By trying every assignment of pieces to bars, one bar more at a time."""
    for number in range(len(pieces) + 1):
        for given_to in product(range(number), repeat=len(pieces)):
            used = [[pieces[at] for at, to in enumerate(given_to) if to == one] for one in range(number)]
            if all(sum(each) + kerf * max(0, len(each) - 1) <= bar for each in used):
                return number
    raise AssertionError(pieces)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 60), max_size=6), st.sampled_from([0, 1, 3]))
def test_as_few_bars_as_trying_everything_finds(pieces: list[int], kerf: int) -> None:
    found = cut(pieces, 60, kerf)
    assert found.proven
    assert len(found.bars) == found.bound == fewest(pieces, 60, kerf)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.integers(0, 80), max_size=25), st.sampled_from([0, 2]), st.sampled_from([0, 500]))
def test_every_piece_is_cut_once_and_the_bound_never_passes_the_plan(pieces: list[int], kerf: int, budget: int) -> None:
    found = cut(pieces, 60, kerf, budget)
    placed = sorted(place for bar in found.bars for place in bar)
    assert sorted([*placed, *found.too_long]) == [place for place, length in enumerate(pieces) if length > 0]
    assert all(pieces[place] > 60 for place in found.too_long)
    for bar, waste in zip(found.bars, found.waste, strict=True):
        used = sum(pieces[place] for place in bar) + kerf * (len(bar) - 1)
        assert used <= 60
        assert waste == 60 - used
    assert len(found.bars) >= found.bound
    assert found.proven == (len(found.bars) == found.bound)


@settings(max_examples=300, deadline=None)
@given(PIECES, st.data())
def test_a_longer_piece_never_needs_fewer_bars(pieces: list[int], data: st.DataObject) -> None:
    """And neither does one more piece."""
    before = cut(pieces, 60)
    assert len(cut([*pieces, data.draw(st.integers(1, 60))], 60).bars) >= len(before.bars)
    if pieces:
        at = data.draw(st.integers(0, len(pieces) - 1))
        longer = [*pieces[:at], data.draw(st.integers(pieces[at], 60)), *pieces[at + 1 :]]
        assert len(cut(longer, 60).bars) >= len(before.bars)


def test_first_fit_alone_would_take_one_bar_more() -> None:
    """Cut longest first, 6 + 3 and 5 + 4 leave two pieces over; 5 + 3 + 2 and 6 + 4 do not."""
    pieces = [6, 5, 4, 3, 2]
    assert len(cut(pieces, 10, budget=0).bars) == 2
    harder = [44, 24, 24, 22, 21, 17, 8, 8, 6, 6]
    plan, found = cut(harder, 60, budget=0), cut(harder, 60)
    assert len(found.bars) == found.bound <= len(plan.bars)


@pytest.mark.oracle
def test_as_few_bars_as_a_solver_finds() -> None:
    """Against OR-tools CP-SAT on jobs of usual size."""
    from random import Random

    from ortools.sat.python import cp_model

    chance = Random(5)
    for _ in range(12):
        pieces = [chance.randrange(200, 3048) * 10 for _ in range(chance.randrange(4, 15))]
        model, bar, most = cp_model.CpModel(), 30480, len(pieces)
        used = [model.new_bool_var(f"u{one}") for one in range(most)]
        into = [[model.new_bool_var(f"x{at}.{one}") for one in range(most)] for at in range(most)]
        for row in into:
            model.add_exactly_one(row)
        for one in range(most):
            model.add(sum(pieces[at] * into[at][one] for at in range(most)) <= bar * used[one])
        for one in range(1, most):
            model.add_implication(used[one], used[one - 1])
        model.minimize(sum(used))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        assert solver.solve(model) == cp_model.OPTIMAL
        found = cut(pieces, bar)
        assert found.proven
        assert len(found.bars) == round(solver.objective_value)
