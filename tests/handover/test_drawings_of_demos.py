"""The drawings of the demo jobs with several units, standing units and an inverter of their own."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.handover.contents import Contents
from standfast.handover.gather import gather
from standfast.handover.permit_set import permit_set
from standfast.paper.document import Table
from standfast.paper.drawing import Drawing
from standfast.survey.write import put

DEMOS = ("detached_pair", "stack_outdoors", "cabinet")


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> dict[str, JobPlan]:
    return {name: make_plan(write_demo(name, tmp_path_factory.mktemp(name))) for name in DEMOS}


@pytest.fixture(scope="module")
def gathered(plans: dict[str, JobPlan]) -> dict[str, Contents]:
    return {name: contents(plan) for name, plan in plans.items()}


def contents(plan: JobPlan) -> Contents:
    folder = plan.folder
    return gather(
        plan.survey, folder.text, plan.adoption, plan.sheets, plan.design, plan.ledger, folder.documents
    )  # fmt: skip


def words(drawing: Drawing) -> str:
    drawing.finish()
    return " ".join(mark.text for _, mark in drawing.texts)


def marks(drawing: Drawing, part: str) -> bool:
    return f'id="{part}"' in drawing.svg()


@pytest.mark.parametrize("name", DEMOS)
def test_every_drawing_is_made_and_a_draughtsman_would_sign_it(gathered: Mapping[str, Contents], name: str) -> None:
    made = gathered[name]
    assert not made.undrawn
    for part, drawing in made.drawings.items():
        drawing.finish()
        assert drawing.flaws() == [], part


def test_two_units_stand_on_elevation_and_plan_with_the_gap_between_them(gathered: Mapping[str, Contents]) -> None:
    made = gathered["detached_pair"]
    for part in ("elevation", "plan details"):
        drawing = made.drawings[part]
        assert "BATTERY 1" in words(drawing) and "BATTERY 2" in words(drawing)
        assert "40 in" in words(drawing) and "1016 mm" in words(drawing)
    assert marks(made.drawings["elevation"], "battery-1") and marks(made.drawings["elevation"], "battery-2")
    assert "room for one more unit some day (no verdict)" in made.drawings["elevation"].keys
    assert "Later: A further unit (Battery 3) fits at" in words(made.drawings["elevation"])
    assert "BATTERY 1 AND BATTERY 2" in words(made.drawings["site plan"])


def test_units_that_are_held_alike_share_one_detail_with_the_holes_of_each(gathered: Mapping[str, Contents]) -> None:
    made = gathered["detached_pair"]
    assert [part for part in made.drawings if part.startswith("fixing detail")] == ["fixing detail"]
    holes = next(block for block in made.beside["fixing detail"] if isinstance(block, Table))
    ids = [str(row[0]) for row in holes.rows]
    assert [f"battery-{unit}/H{hole}" in told for unit in (1, 2) for hole in range(1, 7)
            for told in [ids[(unit - 1) * 6 + hole - 1]]] == [True] * 12  # fmt: skip


@pytest.mark.parametrize("name", ["stack_outdoors", "cabinet"])
def test_a_standing_unit_shows_its_brace_its_foot_and_the_holes_of_the_inverter(
    gathered: Mapping[str, Contents], name: str
) -> None:
    made = gathered[name]
    elevation, plan = made.drawings["elevation"], made.drawings["plan details"]
    assert marks(elevation, "holes-inverter-1") and "Inverter (N)" in " ".join(words(elevation).split())
    assert marks(plan, "feet") and "anchor of the foot" in words(plan)
    (foot,) = [part for part in made.drawings if "foot at" in part]
    table = next(block for block in made.beside[foot] if isinstance(block, Table))
    assert [str(row[0]) for row in table.rows] == [
        str({"style": "bold", "text": f"battery-1/F{n}"}) for n in range(1, 5)
    ]
    titles = [str(row[1]) for block in made.beside[foot] if isinstance(block, Table) for row in block.rows]
    assert any("pad" in title or "concrete" in title.lower() for title in titles)


def test_the_pad_stands_on_elevation_and_plan(gathered: Mapping[str, Contents]) -> None:
    made = gathered["stack_outdoors"]
    assert "concrete pad, its top 2 in up" in made.drawings["elevation"].keys
    assert "concrete pad" in made.drawings["plan details"].keys
    assert "Under standing units: concrete pad, 6 in thick" in words(made.drawings["elevation"])


def test_further_drawings_of_a_part_have_sheets_of_their_own(gathered: Mapping[str, Contents]) -> None:
    sheets = {sheet.code: sheet.title for sheet in permit_set(gathered["cabinet"]).document.sheets}
    assert sheets["A4"] == "Fixing detail and holes"
    assert sheets["A4.1"] == "Fixing detail and holes, foot at utility-east"


def test_units_on_two_walls_get_an_elevation_and_a_plan_each(tmp_path: Path) -> None:
    folder = write_demo("one_wall", tmp_path)
    text = (folder / "job.toml").read_text("utf-8")
    second = 'id = "disconnect-2"\nkind = "disconnect"\nleft = "10 ft"\nbottom = "54 in"\nwidth = "8 in"\n'
    second += 'height = "12 in"\ndepth = "5 in"\nvolts_to_ground = "120 V"\nstate = "new"\n\n'
    north = text.index('[[walls.obstacles]]\nid = "water-heater"')
    text = f"{text[:north]}[[walls.obstacles]]\n{second}{text[north:]}"
    for old, new in (
        ('feeds = "battery"', 'feeds = "battery-1"'), ('from = "battery"', 'from = "battery-1"'),
        ('to = "disconnect"', 'to = "disconnect-1"'), ('from = "disconnect"', 'from = "disconnect-1"'),
        ('wall = "garage-east"\nhandle', 'handle'), ("quantity = 1", "quantity = 2"),
    ):  # fmt: skip
        assert old in text, old
        text = text.replace(old, new)
    for number, wall in enumerate(("garage-east", "garage-north")):
        text = put(text, ("wishes", "units", number), {"id": f"battery-{number + 1}", "wall": wall})
    (folder / "job.toml").write_text(text, "utf-8")
    made = contents(make_plan(folder))
    assert {"elevation", "elevation, garage-north", "plan details", "plan details, garage-north"} <= set(made.drawings)
    assert "BATTERY 2" in words(made.drawings["elevation, garage-north"])
    assert "BATTERY 2" not in words(made.drawings["elevation"])
    codes = {sheet.title: sheet.code for sheet in permit_set(made).document.sheets}
    assert codes["Wall elevation, garage-north"] == "A2.1"
