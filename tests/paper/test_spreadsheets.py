"""Schedules as CSV and as a workbook: what went in is read back, nothing becomes a formula, no clock gets in."""

import csv
import io
import sys
from datetime import date
from zipfile import ZipFile

import pytest
from hypothesis import given as drawn
from hypothesis import settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from standfast.paper.extras import NotInstalled
from standfast.paper.schedule import Cell, Schedule, as_csv, cell, written
from standfast.paper.xlsx import workbook
from standfast.sheet import given, missing

DAY = date(2026, 5, 4)
HOLES = Schedule("holes", ("hole", "x mm"), (("H1", 3213.1), ("H2", "not known")))
FORMULA = Schedule("tests", ("what",), (("=HYPERLINK(\"x\")",), ("@SUM(A1)",), ("bell \x07 rings",)))  # fmt: skip


def read_back(data: bytes) -> dict[str, list[list[object]]]:
    book = load_workbook(io.BytesIO(data))
    return {sheet.title: [[each.value for each in row] for row in sheet.iter_rows()] for sheet in book.worksheets}


def test_a_workbook_holds_each_schedule_on_a_sheet_with_numbers_as_numbers() -> None:
    found = read_back(workbook([HOLES, FORMULA], "A job", DAY))
    assert list(found) == ["holes", "tests"]
    assert found["holes"] == [["hole", "x mm"], ["H1", 3213.1], ["H2", "not known"]]


def test_a_text_of_a_job_is_never_run_as_a_formula() -> None:
    book = load_workbook(io.BytesIO(workbook([FORMULA], "A job", DAY)))
    kinds = {each.data_type for row in book["tests"].iter_rows() for each in row}
    assert kinds == {"s"}
    assert book["tests"]["A2"].value == '=HYPERLINK("x")'
    assert book["tests"]["A4"].value == "bell   rings"


def test_the_same_schedules_give_the_same_bytes_and_the_day_of_the_job() -> None:
    one = workbook([HOLES], "A job", DAY)
    assert one == workbook([HOLES], "A job", DAY)
    assert one != workbook([HOLES], "A job", date(2026, 5, 5))
    with ZipFile(io.BytesIO(one)) as parts:
        assert {part.date_time[0] for part in parts.infolist()} == {1980}
        core = parts.read("docProps/core.xml").decode()
    assert core.count("2026-05-04T00:00:00Z") == 2


def test_csv_ends_its_lines_as_the_format_asks_and_quotes() -> None:
    text = as_csv(Schedule("x", ("a", "b"), (('say "no", twice', 2.0),)))
    assert text == 'a,b\r\n"say ""no"", twice",2\r\n'


CELLS = st.one_of(
    st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=20),
    st.floats(-1e6, 1e6).map(lambda each: float(f"{each:.8g}")),
)


@settings(deadline=None, derandomize=True, max_examples=60)
@drawn(st.lists(st.tuples(CELLS, CELLS), max_size=6))
def test_whatever_stands_in_a_schedule_is_read_back_from_csv(rows: list[tuple[Cell, Cell]]) -> None:
    schedule = Schedule("x", ("a", "b"), tuple(rows))
    found = list(csv.reader(io.StringIO(as_csv(schedule), newline="")))
    assert found == [["a", "b"], *([written(each) for each in row] for row in rows)]
    for row, texts in zip(rows, found[1:], strict=True):
        for each, text in zip(row, texts, strict=True):
            assert isinstance(each, str) or float(text) == each


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, ""),
        (missing("x", "mm", "measure it"), "not known"),
        (given("x", 3213.1000000001, "mm", "here"), 3213.1),
        (given("neutral", True, "", "here"), "yes"),
        (given("neutral", False, "", "here"), "no"),
        (given("size", "4/0", "", "here"), "4/0"),
        (given("metals", ("al", "cu"), "", "here"), "al, cu"),
    ],
)
def test_a_value_becomes_a_cell(value: object, shown: Cell) -> None:
    assert cell(value) == shown  # type: ignore[arg-type]


def test_without_the_library_it_is_said_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(NotInstalled, match="XLSX needs openpyxl: install standfast with its extra xlsx, or"):
        workbook([HOLES], "A job", DAY)
