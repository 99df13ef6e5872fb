"""The drawings of the demo jobs with several units, standing units and an inverter of their own."""

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.handover.contents import Contents
from standfast.handover.gather import gather
from standfast.handover.permit_set import permit_set
from standfast.paper.board import Box
from standfast.paper.document import Heading, Sides, Table
from standfast.paper.drawing import Drawing
from standfast.paper.lettering import LEAST_MM
from standfast.paper.pdf import Press
from standfast.survey.write import put

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet")


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
        assert min(mark.height for _, mark in drawing.texts) >= LEAST_MM
        assert "mm mm" not in words(drawing) and "demo-" not in part


@pytest.mark.parametrize("name", DEMOS)
def test_no_name_of_one_thing_on_a_wall_stands_on_another(gathered: Mapping[str, Contents], name: str) -> None:
    drawing = gathered[name].drawings["elevation"]
    drawing.finish()
    boxes = things(drawing)
    assert boxes
    told = [(box, mark) for box, mark in drawing.texts if mark.text.endswith(("(N)", "(E)"))]
    assert told
    for box, mark in told:
        over = [each for each in boxes if box.meets(each) and not box.grown(-0.5).within(each)]
        assert over == [], mark.text


def things(drawing: Drawing) -> list[Box]:
    """Outlines of the things on an elevation, mm on paper."""
    found = []
    for group in re.findall(r'<g id="thing-[^>]*>(.*?)</g>', drawing.svg(), re.DOTALL):
        points = [
            (float(x), float(y)) for x, y in re.findall(r"(-?[0-9.]+)[ ,](-?[0-9.]+)", group.partition("<path")[2])
        ]
        if len(points) >= 4:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            found.append(Box(min(xs), min(ys), max(xs), max(ys)))
    return found


def test_the_space_between_two_units_is_told_with_what_is_asked(gathered: Mapping[str, Contents]) -> None:
    said = words(gathered["detached_pair"].drawings["elevation"])
    assert "Battery 1 on the left, Battery 2 on the right of it: 3 ft 4 in apart;" in said
    assert "asked at least 3 ft 0 in (IRC 2021 R328.3.1)" in said
    assert "on the left" not in words(gathered["cabinet"].drawings["elevation"])


def test_nothing_is_said_of_detection_outdoors(gathered: Mapping[str, Contents]) -> None:
    assert "Detection" not in words(gathered["stack_outdoors"].drawings["elevation"])
    assert "Detection in this room" in words(gathered["cabinet"].drawings["elevation"])


def test_what_is_later_is_told_in_both_units(gathered: Mapping[str, Contents]) -> None:
    assert re.search(r"fits at \d+ ft [^(]+ \(\d+ mm\) from", words(gathered["detached_pair"].drawings["elevation"]))


@pytest.mark.parametrize("name", DEMOS)
def test_every_set_has_its_equipment_on_a_sheet_of_its_own(
    gathered: Mapping[str, Contents], name: str, press: Press
) -> None:
    made = permit_set(gathered[name])
    sheets = {sheet.code: sheet for sheet in made.document.sheets}
    (listed,) = [block for block in sheets["G2"].blocks if isinstance(block, Table)]
    assert len(listed.rows) == len(gathered[name].equipment)
    assert {each.answer for each in made.counter} <= {"in the set", "not asked here"}
    pages = press.pdf(made.document).numbers
    assert pages["G2"] == 2  # the cover is one sheet
    assert pages["A1"] == 3


@pytest.mark.parametrize("name", ["stack_outdoors", "cabinet"])
def test_the_counter_list_asks_for_the_documents_of_an_inverter_of_its_own(
    gathered: Mapping[str, Contents], name: str
) -> None:
    listed = {each.id: each for each in permit_set(gathered[name]).counter}
    titles = {sheet.code: sheet.title for sheet in permit_set(gathered[name]).document.bound}
    for id in ("cut-sheet-inverter", "instructions-inverter"):
        assert listed[id].answer == "in the set" and "inverter" in titles[listed[id].code]
        assert listed[id.removesuffix("-inverter")].code != listed[id].code
    job = gathered[name].job
    gone = [each for each in job.documents if each.of != "inverter"]
    without = gathered[name]._replace(job=job.model_copy(update={"documents": gone}))
    lacking = {each.id: each for each in permit_set(without).counter if each.answer == "missing"}
    assert set(lacking) == {"cut-sheet-inverter", "instructions-inverter"}
    assert lacking["cut-sheet-inverter"].remark == (
        'add [[documents]] of kind "cut sheet" and of = "inverter" with its file'
    )


def test_the_equipment_list_tells_room_and_wall(gathered: Mapping[str, Contents]) -> None:
    places = {item.tag: item.place for item in gathered["cabinet"].equipment}
    for tag in (
        "Battery 1",
        "Inverter",
        "Backup panel",
        "Backup panel main",
        "Island switch",
        "Battery 1 DC disconnect",
    ):
        assert places[tag] == "in utility room, east wall", tag
    assert places["Main panel"] == "existing"
    assert places["Emergency shutdown switch"] == "outdoors, see site plan"


def test_a_job_without_an_inverter_of_its_own_is_not_asked_for_its_documents(gathered: Mapping[str, Contents]) -> None:
    listed = {each.id: each.answer for each in permit_set(gathered["detached_pair"]).counter}
    assert listed["cut-sheet-inverter"] == listed["instructions-inverter"] == "not asked here"


def test_a_long_table_of_checks_takes_the_whole_width(gathered: Mapping[str, Contents]) -> None:
    made = gathered["stack_outdoors"]
    (foot,) = [sheet for sheet in permit_set(made).document.sheets if sheet.code == "A4.1"]
    (sides,) = [block for block in foot.blocks if isinstance(block, Sides)]
    assert [block.text for block in sides.under if isinstance(block, Heading)] == ["Checks"]
    assert "Checks" not in [block.text for block in sides.columns[1] if isinstance(block, Heading)]


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
    (foot,) = [part for part in made.drawings if "foot of battery 1 on the concrete" in part]
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
    thick = made.job.walls[0].footing.thickness.text  # type: ignore[union-attr]
    assert f"Under standing units: concrete pad, {thick} thick" in words(made.drawings["elevation"])


def test_further_drawings_of_a_part_have_sheets_of_their_own(gathered: Mapping[str, Contents]) -> None:
    sheets = {sheet.code: sheet.title for sheet in permit_set(gathered["cabinet"]).document.sheets}
    assert sheets["A4"] == "Fixing detail and holes"
    assert sheets["A4.1"] == "Fixing detail and holes, foot of battery 1 on the concrete slab"


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
