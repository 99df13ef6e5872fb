"""The schedules of the demo job: what the papers say, in rows."""

import csv
import io
import sys
from pathlib import Path

import pytest
from openpyxl import load_workbook

from standfast.foreman.demo import write_demo
from standfast.foreman.designed import designed
from standfast.foreman.pack import Papers, pack, papers
from standfast.foreman.plan import JobPlan, make_plan
from standfast.paper.schedule import Schedule, as_csv, written

NAMES = [
    "equipment", "labels", "panels", "directory", "circuits", "holes", "joints", "settings", "tests", "materials",
    "pick-list", "cut-plan", "delivery-check",
]  # fmt: skip


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return make_plan(write_demo("one-wall", tmp_path_factory.mktemp("demo") / "house"))


@pytest.fixture(scope="module")
def made(plan: JobPlan) -> Papers:
    return papers(plan)


def of(made: Papers, name: str) -> Schedule:
    return next(each for each in made.schedules if each.name == name)


def test_every_schedule_is_there_and_none_is_empty(made: Papers) -> None:
    assert [each.name for each in made.schedules] == NAMES
    for each in made.schedules:
        assert each.rows, each.name
        assert len(set(each.head)) == len(each.head)
        assert all(len(row) == len(each.head) for row in each.rows), each.name


def test_they_say_what_the_design_says(plan: JobPlan, made: Papers) -> None:
    unit = plan.design.wiring.unit
    assert unit is not None
    circuit = dict(zip(of(made, "circuits").head, of(made, "circuits").rows[0], strict=True))
    assert circuit["device A"] == unit.breaker.quantity
    assert circuit["conductor AWG or kcmil"] == unit.circuit.conductor.size.word
    holes = of(made, "holes").rows
    assert [(row[2], row[3]) for row in holes] == [
        (pytest.approx(each.x.quantity), pytest.approx(each.y.quantity)) for each in plan.design.anchorages[0].holes
    ]
    assert [row[0] for row in of(made, "labels").rows] == [label.id for label in plan.design.labels]


def test_a_panel_stands_as_found_and_as_built(plan: JobPlan, made: Papers) -> None:
    rows = of(made, "panels").rows
    new = [panel.name for panel in plan.survey.job.panels if panel.state == "new"]
    assert new
    assert {(row[0], row[1]) for row in rows} >= {("Main panel", "found"), ("Main panel", "built"), (new[0], "built")}
    assert (new[0], "found") not in {(row[0], row[1]) for row in rows}
    moved = [row for row in rows if row[9]]
    assert moved
    assert all(row[1] == "built" or row[0] == "Main panel" for row in moved)


def changed(folder: Path, old: str, new: str) -> Papers:
    """The papers of the demo job with one place of its range circuit changed."""
    write_demo("one-wall", folder)
    text = (folder / "job.toml").read_text("utf-8")
    circuit = text.index('id = "range"\nname = "Range"')
    place = text.index(old, circuit)
    assert place - circuit < 200, f"{old!r} is not in the circuit"
    (folder / "job.toml").write_text(text[:place] + new + text[place + len(old) :], "utf-8")
    return papers(make_plan(folder))


def test_amounts_stand_in_the_unit_of_their_column(made: Papers, tmp_path: Path) -> None:
    assert of(changed(tmp_path, '"12 kVA"', '"12000 VA"'), "panels").rows == of(made, "panels").rows
    range_ = next(row for row in of(made, "panels").rows if row[3] == "Range")
    assert range_[4:7] == (50.0, 2.0, 12000.0)


def test_a_number_that_nobody_knows_is_said(tmp_path: Path) -> None:
    found = of(changed(tmp_path, 'breaker = "50 A"\n', ""), "panels").rows
    assert {row[4] for row in found if row[3] == "Range"} == {"not known"}


def test_pack_writes_them_as_csv_and_as_one_workbook(plan: JobPlan, made: Papers) -> None:
    packed = pack(plan)
    assert [line for line in packed.left_out if not line.startswith("*.ics")] == []  # no visit is stated
    out = plan.folder.path / "out"
    for each in made.schedules:
        rows = list(csv.reader(io.StringIO((out / f"{each.name}.csv").read_bytes().decode(), newline="")))
        assert rows == [list(each.head), *([written(cell) for cell in row] for row in each.rows)]
    book = load_workbook(out / "schedules.xlsx")
    assert book.sheetnames == NAMES
    assert book["holes"].max_row == len(of(made, "holes").rows) + 1
    drawings = sorted(path.stem for path in (out / "drawings").glob("*.dxf"))
    assert drawings == sorted(path.stem for path in (out / "drawings").glob("*.svg"))


def test_without_the_extras_pack_says_so_and_writes_the_rest(
    plan: JobPlan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in [each for each in sys.modules if each.partition(".")[0] in ("ezdxf", "openpyxl")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    packed = pack(make_plan(write_demo("one-wall", tmp_path / "house")))
    lacking = [line for line in packed.left_out if not line.startswith("*.ics")]
    assert [line.partition(":")[0] for line in lacking] == ["drawings/*.dxf", "schedules.xlsx"]
    assert all("install standfast with its extra" in line and "\n" not in line for line in lacking)
    names = {path.name for path in packed.paths}
    assert {"permit-set.pdf", "elevation.svg", "holes.csv"} < names
    assert not any(name.endswith((".dxf", ".xlsx")) for name in names)
    assert packed.against == []


def test_csv_of_materials_is_the_bill(made: Papers) -> None:
    assert as_csv(of(made, "materials")) == made.materials


def test_the_circuit_of_an_array_has_no_device_and_labels_are_counted(tmp_path: Path) -> None:
    plan = make_plan(write_demo("stack-outdoors", tmp_path))
    made = papers(plan)
    rows = [dict(zip(of(made, "circuits").head, row, strict=True)) for row in of(made, "circuits").rows]
    devices = {row["circuit"]: row["device A"] for row in rows}
    arrays = {each.circuit.id for each in plan.design.wiring.arrays}
    assert arrays and {id for id, device in devices.items() if device == "none"} == arrays
    told = {each["id"]: each["device_a"] for each in designed(plan)["circuits"]}
    assert {id for id, device in told.items() if device is None} == arrays
    counted = {row[2]: row[1] for row in of(made, "labels").rows}
    assert counted["SOLAR PV DC CIRCUIT"] == 6 and counted["PV SYSTEM DISCONNECT"] == 1
    (row,) = [row for row in of(made, "materials").rows if row[0] == "labels"]
    assert str(sum(label.number for label in plan.design.labels)) in f"{row[1]} {row[2]}"
