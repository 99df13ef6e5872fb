"""Elevation and plan of the wall: what they show, at which scale, and that a draughtsman would sign them."""

from collections.abc import Callable
from importlib.resources import files

import pytest

from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.equipment.read import DataSheet, find
from standfast.handover.drawings.elevation import elevation
from standfast.handover.drawings.plan import plan
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.shelf import adoption
from standfast.survey import Survey, read

US = adoption("us-2021")
DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
Swap = tuple[str, str]
END_WALL: Swap = (
    'wall = "side wall"\nleft = "0 ft"\nright = "20 ft"',
    'wall = "end wall"\nleft = "6 ft"\nright = "16 ft"',
)
BOLLARD: Swap = (
    'clear_height = "7 ft"\nprotection = "none"',
    'clear_height = "7 ft"\nprotection = "bollard"\nprotection_distance = "40 in"',
)
OUTDOORS: tuple[Swap, ...] = (
    ("openings = []\n", ""),
    ('id = "garage-east"\nroom = "garage"', 'id = "garage-east"\nroom = "yard"'),
    (
        '[[rooms]]\nid = "kitchen"',
        '[[rooms]]\nid = "yard"\nkind = "outside"\nother_storage = "0 kWh"\n\n[[rooms]]\nid = "kitchen"',
    ),
    (
        '[[walls.obstacles]]\nid = "outlet"',
        '[[walls.openings]]\nid = "kitchen-window"\nkind = "window"\nleft = "17 ft"\nbottom = "40 in"\nwidth = "2 ft"\n'
        'height = "4 ft"\nleads_into = "kitchen"\n\n[[walls.obstacles]]\nid = "gas-vent"\nkind = "gas regulator vent"\n'
        'left = "20 ft"\nbottom = "30 in"\nwidth = "0 in"\nheight = "0 in"\ndepth = "4 in"\n\n'
        '[[walls.obstacles]]\nid = "outlet"',
    ),
)  # fmt: skip
NORTH: tuple[Swap, ...] = (('wall = "garage-east"\nhandle', 'wall = "garage-north"\nhandle'),)
CONCRETE: tuple[Swap, ...] = (
    (
        'kind = "timber frame"\nlining = "gypsum board"\nlining_thickness = "1/2 in"',
        'kind = "concrete"\nconcrete_thickness = "6 in"\nconcrete_strength = "3000 psi"\nlining = "none"',
    ),
)
JOBS: dict[str, tuple[Swap, ...]] = {
    "demo": (),
    "end wall": (END_WALL,),
    "behind a bollard": (END_WALL, BOLLARD),
    "outdoors": OUTDOORS,
    "the wall with the door": NORTH,
    "concrete": CONCRETE,
}


def worked(*swaps: Swap) -> tuple[Survey, Siting]:
    text = DEMO
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    survey = read(text).survey
    assert survey is not None
    return survey, site(US, survey, {"battery": _sheet("demo-wall-10"), "fastener": _sheet("demo-lag-5-16")})


def _sheet(id: str) -> DataSheet:
    found = find(id).sheet
    assert found is not None
    return found


Maker = Callable[..., Drawing]


def drawn(maker: Maker, *swaps: Swap) -> Drawing:
    survey, siting = worked(*swaps)
    drawing = maker(survey, US, siting, siting.places[0].wall)
    drawing.finish()
    return drawing


def words(drawing: Drawing) -> str:
    return " ".join(mark.text for _, mark in drawing.texts)


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("maker", [elevation, plan], ids=["elevation", "plan"])
def test_no_text_overlaps_leaves_the_sheet_or_is_too_small(maker: Maker, job: str) -> None:
    drawing = drawn(maker, *JOBS[job])
    assert drawing.flaws() == []
    assert drawing.scale.ratio <= 32


def test_the_elevation_tells_place_holes_studs_and_spaces() -> None:
    survey, siting = worked()
    drawing = elevation(survey, US, siting, siting.places[0].wall)
    svg, text = drawing.svg(), words(drawing)
    for said in ("BATTERY 1", "Main panel (E)", "10 ft 2-1/2 in", "3112 mm", "6401 mm", "height of the wall 9 ft 0 in"):
        assert said in text or all(part in text for part in said.split())
    assert 'id="studs"' in svg and 'id="battery-1"' in svg and 'id="free-space"' in svg
    assert set(drawing.keys) == {
        "working space (NEC 2023 110.26(A), 706.20(C))",
        "dedicated space (NEC 2023 110.26(E)(1))",
        "room for one more unit some day (no verdict)",
    }
    assert "too near" not in text


def test_zones_of_openings_and_gas_are_hatched_outdoors_with_their_clauses() -> None:
    keys = drawn(elevation, *OUTDOORS).keys
    assert "too near an opening (IRC 2021 R328.4(3))" in keys
    assert "too near a gas vent (NFPA 54 2021 5.8.5.1)" in keys
    assert len(set(keys.values())) == len(keys)


def test_an_end_wall_shows_the_driving_path_and_what_protects_the_unit() -> None:
    bare, protected = drawn(plan, END_WALL), drawn(plan, END_WALL, BOLLARD)
    assert "driving path, to the wall" in bare.keys
    assert "bollard" not in words(bare) and "NOT PROTECTED" in words(bare)
    assert "bollard (N)" in words(protected)
    assert "40 in" in words(protected)
    assert "driving path, to the wall" not in drawn(plan).keys


def test_the_plan_tells_the_depth_of_the_working_space_and_the_build_up() -> None:
    text = words(drawn(plan))
    for said in ("36 in", "914 mm", "gypsum board, 1/2 in", "water", "21 ft 0 in, bare", "1-1/2 in = 1 ft (1:8)"):
        assert said in text
    assert "concrete, cut" in drawn(plan, *CONCRETE).keys


def test_a_wall_of_unknown_height_is_not_drawn() -> None:
    survey, siting = worked(('length = "21 ft"\nheight = "9 ft"', 'length = "21 ft"'), ('ceiling = "9 ft"\n', ""))
    with pytest.raises(DoesNotFit, match=r"walls\.garage-east\.height"):
        elevation(survey, US, siting, siting.places[0].wall)


def test_the_same_job_gives_the_same_bytes() -> None:
    assert drawn(elevation).svg() == drawn(elevation).svg()
    assert drawn(plan).svg() == drawn(plan).svg()
