"""Laws of runs that are told piece by piece, against an independent reading of the rule."""

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.design.wiring.pieces import Portion, deciding
from standfast.sheet import Value
from standfast.sheet import given as stated
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
FEET, TENTH = 10.0, 0.1
Pieces = list[tuple[float, float]]
"""Length in ft and factor of each."""

pieces = st.lists(
    st.tuples(st.integers(1, 60), st.sampled_from([0.35, 0.5, 0.71, 0.82, 0.91, 1.0])), min_size=1, max_size=6
)


def say(symbol: str, number: float, unit: str) -> Value:
    return stated(symbol, number, unit, "test")


def found(run: Pieces) -> float:
    portions = [
        Portion(f"p{n}", say("L", feet, "ft"), say("k_amb", factor, "1"), say("k_adj", 1.0, "1"))
        for n, (feet, factor) in enumerate(run)
    ]
    heat, bundling = deciding(NEC, portions, say("L_min", sum(feet for feet, _ in run), "ft"))
    return heat.quantity * bundling.quantity


def by_hand(run: Pieces) -> float:
    """The highest factor below which no more than 10 ft and a tenth of the circuit lie."""
    most = min(FEET, TENTH * sum(feet for feet, _ in run))
    return max(level for _, level in run if sum(feet for feet, factor in run if factor < level) <= most)


@given(pieces)
def test_the_piece_that_decides_is_the_one_of_the_rule(run: Pieces) -> None:
    assert found(run) == by_hand(run)


@settings(max_examples=60)
@given(pieces, st.integers(0, 5), st.sampled_from([0.35, 0.5, 0.71]))
def test_a_hotter_piece_never_carries_more(run: Pieces, at: int, factor: float) -> None:
    at %= len(run)
    hotter = [(feet, min(own, factor) if n == at else own) for n, (feet, own) in enumerate(run)]
    assert found(hotter) <= found(run)


@settings(max_examples=60)
@given(pieces, st.integers(0, 5))
def test_in_whatever_order_the_pieces_are_told(run: Pieces, by: int) -> None:
    by %= len(run)
    assert found(run[by:] + run[:by]) == found(run)


@settings(max_examples=60)
@given(pieces, st.integers(1, 59))
def test_a_piece_that_is_told_in_two_parts_changes_nothing(run: Pieces, cut: int) -> None:
    feet, factor = run[0]
    if cut >= feet:
        return
    assert found([(cut, factor), (feet - cut, factor), *run[1:]]) == found(run)
