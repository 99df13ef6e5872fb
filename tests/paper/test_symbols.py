"""One-line symbols: each stands on its line, and its ends lie where lines join it."""

import pytest

from standfast.paper import symbols
from standfast.paper.drawing import Drawing


@pytest.mark.parametrize("name", sorted(symbols.LEGEND))
def test_a_symbol_draws_something_and_its_ends_are_a_height_apart(name: str) -> None:
    drawing = Drawing(name, "", 60, 40)
    ends = symbols.LEGEND[name][0](drawing, (30, 20))
    assert "<path" in drawing.svg() or "<circle" in drawing.svg()
    assert drawing.flaws() == []
    if name != "bonding jumper":
        assert ends.top[1] - ends.bottom[1] == 2 * symbols.HALF
    assert ends.left[0] < ends.right[0]


def test_no_two_symbols_look_alike() -> None:
    seen = set()
    for symbol, _ in symbols.LEGEND.values():
        drawing = Drawing("", "", 60, 40)
        symbol(drawing, (30, 20))
        seen.add(drawing.svg())
    assert len(seen) == len(symbols.LEGEND)


def test_the_legend_fits_a_sheet() -> None:
    drawing = Drawing("Legend", "", 430, 60)
    symbols.legend(drawing, tuple(symbols.LEGEND), 5, 50)
    assert drawing.flaws() == []
    assert "grounding" in drawing.svg()
