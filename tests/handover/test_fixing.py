"""The fixing detail: drawn from stated sizes only, to scale, for wood and for concrete."""

from importlib import resources

import pytest

from standfast import shelf
from standfast.design.anchorage.whole import Anchorage
from standfast.design.whole import design
from standfast.equipment import prices
from standfast.equipment.read import find
from standfast.handover.drawings.beside_fixing import beside_wall
from standfast.handover.drawings.fixing import PAPER, fixing_detail
from standfast.paper.document import Table
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.sheets import ANSI_B
from standfast.sheet import missing
from standfast.survey import read
from standfast.survey.house import Wall

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
ROLES = ("battery", "breaker", "disconnect", "island_switch", "fastener", "anchor", "aid")
TIMBER = DEMO[DEMO.index("[walls.build_up]") : DEMO.index("[[walls.obstacles]]")]
CONCRETE = """[walls.build_up]
kind = "concrete"
lining = "none"
concrete_strength = "3000 psi"
concrete_kind = "normalweight"
concrete_thickness = "8 in"

"""


def held(text: str = DEMO) -> tuple[Anchorage, Wall]:
    survey = read(text).survey
    assert survey is not None
    found = {role: find(getattr(survey.job.equipment, role)).sheet for role in ROLES}
    sheets = {role: sheet for role, sheet in found.items() if sheet is not None}
    made = design(survey, sheets, shelf.adoption("us-2021"), prices.shipped())
    return made.anchorages[0], next(wall for wall in survey.job.walls if wall.id == made.siting.places[0].wall)


@pytest.fixture(scope="module")
def wood() -> tuple[Anchorage, Wall]:
    return held()


def texts(drawing: Drawing) -> list[str]:
    drawing.svg()
    assert drawing.flaws() == []
    return [mark.text for _, mark in drawing.texts]


def test_wood_shows_screw_layers_and_penetration(wood: tuple[Anchorage, Wall]) -> None:
    drawing = fixing_detail(*wood)
    said = texts(drawing)
    assert {"3-3/8 in", "86 mm", "4 in", "102 mm", "1/2 in (13 mm)"} <= set(said)  # 4 in less 1/2 in less 1/8 in
    assert "lead hole 3/16 in" in said
    assert {"wood stud", "board: carries nothing", "steel bracket"} <= set(drawing.keys)


def test_concrete_shows_the_anchor_and_its_hole() -> None:
    drawing = fixing_detail(*held(DEMO.replace(TIMBER, CONCRETE, 1)))
    said = " ".join(texts(drawing))
    assert "concrete" in drawing.keys and "board: carries nothing" not in drawing.keys
    assert "hole 3/8 in" in said


def test_a_size_that_is_not_stated_is_not_drawn(wood: tuple[Anchorage, Wall]) -> None:
    anchorage, wall = wood
    unknown = anchorage._replace(lining=missing("t_lining", "mm", "lining_thickness in [walls.build_up]"))
    with pytest.raises(DoesNotFit, match="needs the thickness of the lining: lining_thickness in"):
        fixing_detail(unknown, wall)
    with pytest.raises(DoesNotFit, match="needs a fastener that holds"):
        fixing_detail(anchorage._replace(fixing=None), wall)


def test_the_table_gives_every_hole_in_both_units_and_every_check(wood: tuple[Anchorage, Wall]) -> None:
    holes, checks = (block for block in beside_wall([wood[0]], wood[1]) if isinstance(block, Table))
    assert len(holes.rows) == len(wood[0].holes) == 6
    x, y = wood[0].holes[0].x.quantity, wood[0].holes[0].y.quantity
    assert f"({x:.0f} mm)" in str(holes.rows[0][1]) and f"({y:.0f} mm)" in str(holes.rows[0][2])
    assert len(checks.rows) == sum(check.verdict != "not applicable" for check in wood[0].checks)


def test_drawing_and_table_share_the_sheet() -> None:
    assert 2 * PAPER[0] + 8 == pytest.approx(ANSI_B.drawing[0])
