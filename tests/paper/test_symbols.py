"""One-line symbols: each stands on its line, its ends lie where lines join it; a family for each standard."""

import pytest

from standfast.paper import symbols
from standfast.paper.drawing import Drawing
from standfast.paper.symbols import ANSI, Family
from standfast.paper.symbols_iec import IEC

FAMILIES = (ANSI, IEC)
EACH = [(family, name) for family in FAMILIES for name in sorted(family.drawn)]


def picture(family: Family, name: str) -> str:
    drawing = Drawing("", "", 60, 40)
    family.drawn[name][0](drawing, (30, 20))
    return drawing.svg()


@pytest.mark.parametrize(("family", "name"), EACH, ids=[f"{name}, {family.standard}" for family, name in EACH])
def test_a_symbol_draws_something_and_its_ends_are_a_height_apart(family: Family, name: str) -> None:
    drawing = Drawing(name, "", 60, 40)
    ends = family.drawn[name][0](drawing, (30, 20))
    assert "<path" in drawing.svg() or "<circle" in drawing.svg()
    assert drawing.flaws() == []
    if name != "bonding jumper":
        assert ends.top[1] - ends.bottom[1] == 2 * symbols.HALF
    assert ends.left[0] < ends.right[0]


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.standard)
def test_no_two_symbols_of_a_family_look_alike(family: Family) -> None:
    assert len({picture(family, name) for name in family.drawn}) == len(family.drawn)


def test_every_symbol_of_one_family_has_its_like_in_the_other() -> None:
    assert set(ANSI.drawn) <= set(IEC.drawn)
    for name in ("breaker", "switch", "meter", "fuse"):
        assert picture(ANSI, name) != picture(IEC, name)


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.standard)
def test_the_legend_fits_a_sheet(family: Family) -> None:
    drawing = Drawing("Legend", "", 520, 60)
    symbols.legend(drawing, tuple(family.drawn), 5, 50, family=family)
    assert drawing.flaws() == []
    assert ("grounding" in drawing.svg()) is (family is ANSI)
