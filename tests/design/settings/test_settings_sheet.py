"""The settings sheet: which rules hold, what they ask, and what is told where something is not known."""

import csv
import re
from itertools import pairwise
from pathlib import Path

import pytest
from settings_job import DEMO, abroad, asked, check, row, survey

from standfast import shelf
from standfast.design.settings import Setting, SettingsSheet, settings
from standfast.design.settings.whole import _in_range
from standfast.sheet import given
from standfast.shelf import Adoption
from standfast.survey.write import put

MODELS = Path(__file__).parents[3] / "src" / "standfast" / "devices" / "models" / "points.csv"
BOOKS = {"asnzs4777_2": "2020", "erec": "2019"}


def abroad_asked(book: str, grid: str) -> SettingsSheet:
    """The settings of a job of another country under one book, without equipment."""
    return settings(survey({}, abroad(grid)), {}, Adoption("test", "test", {book: BOOKS[book]}, {}))


def test_the_demo_can_be_read_back_and_says_who_asks_for_what() -> None:
    found = asked()
    assert found.ready
    trip = row(found, "under-voltage-trip-stage-2/threshold")
    assert (trip.value.quantity, trip.origin) == (0.45, "operator")
    assert trip.default is not None
    assert trip.default.quantity == 0.5
    assert trip.point is not None
    assert (trip.point.model, trip.point.name) == (707, "Crv[0].MustTrip.Pt[1].V")
    assert trip.point.target.quantity == pytest.approx(45)
    usual = row(found, "under-voltage-trip-stage-1/clearing-time")
    assert (usual.value.quantity, usual.origin, usual.default) == (21, "standard", None)
    assert row(found, "volt-var/on").value.yes
    assert row(found, "export-to-the-grid/greatest-power").origin == "agreed"
    assert len({each.id for each in found.rows}) == len(found.rows)


def test_a_category_decides_and_a_missing_one_is_no_category() -> None:
    second = asked({"grid.category": "II"})
    assert row(second, "under-voltage-trip-stage-1/clearing-time").value.quantity == 10
    assert check(second, "category").verdict == "pass"
    assert check(second, "category-asked").verdict == "fail"
    without = asked({"grid.category": None})
    assert row(without, "under-voltage-trip-stage-1/clearing-time").value.missing
    assert check(without, "category").verdict == "cannot tell"
    assert "grid.category" in check(without, "category").reason
    assert check(without, "values").verdict == "cannot tell"
    assert not without.ready
    assert not row(without, "over-frequency-trip-stage-1/threshold").value.missing


def test_the_date_of_the_job_decides_which_settings_of_the_operator_hold() -> None:
    text = DEMO.replace("date = 2026-05-04", "date = 2025-06-01").replace("= 2026-04-20", "= 2025-05-20")
    before = asked(text=text)
    assert not row(before, "volt-var/on").value.yes
    assert row(before, "enter-service/ramp").value.quantity == 600
    assert check(before, "approval").verdict == "pass"
    earlier = asked(text=text.replace("date = 2025-06-01", "date = 2023-06-01"))
    assert check(earlier, "operator").verdict == "cannot tell"
    assert "from 2024-01-01 until 2025-12-31" in check(earlier, "operator").reason
    assert check(earlier, "approval").verdict == "fail"


@pytest.mark.parametrize(
    ("operator", "says"), [("nobody", "use one of"), ("not known", "grid.operator"), ("sampletown", "")]
)
def test_an_operator_is_on_the_shelf_or_cannot_be_told(operator: str, says: str) -> None:
    found = check(asked({"grid.operator": operator}), "operator")
    assert found.verdict == ("cannot tell" if says else "pass")
    assert says in found.reason


def test_without_an_operator_the_standard_speaks_for_itself_and_says_so() -> None:
    found = asked({"grid.operator": None})
    assert check(found, "operator").verdict == "not applicable"
    assert "Ask the operator" in check(found, "operator").reason
    assert {each.origin for each in found.rows} == {"standard", "agreed"}
    assert not row(found, "volt-var/on").value.yes


@pytest.mark.parametrize(("number", "verdict"), [(0.2, "pass"), (0.6, "fail"), (-0.1, "fail")])
def test_what_an_operator_asks_stays_within_the_range_of_the_standard(number: float, verdict: str) -> None:
    usual = row(asked(), "under-voltage-trip-stage-2/threshold")
    moved = usual._replace(value=given("V_trip", number, "pu", "test"))
    (found,) = _in_range(moved)
    assert found.verdict == verdict
    assert list(_in_range(moved._replace(origin="standard"))) == []


EXPORT = {"grid.export_limit": "3 kW"}


@pytest.mark.parametrize(
    ("sheet", "verdict"),
    [
        (("", ""), "pass"),
        (("export_limit_listed = true", "export_limit_listed = false"), "fail"),
        (("export_limit_listed = true\n", ""), "cannot tell"),
    ],
)
def test_more_than_was_agreed_is_held_back_by_a_listed_control_alone(sheet: tuple[str, str], verdict: str) -> None:
    found = check(asked(EXPORT, sheet), "export-limit")
    assert found.verdict == verdict
    assert ("3000 W" in found.condition) == (verdict == "pass")


def test_what_can_flow_out_counts_what_is_there_already_by_its_poles() -> None:
    circuits = list(enumerate(survey({}).job.panels[0].circuits))
    pair = next(n for n, each in circuits if each.poles == 2 and each.feeds is None)
    single = next(n for n, each in circuits if each.poles == 1)
    for number, volts in ((pair, 240), (single, 120)):
        free = put(DEMO, ("panels", 0, "source_position"), None)
        text = put(free, ("panels", 0, "circuits", number, "source_output"), "16 A")
        demand = check(asked(text=text), "export-limit").demand
        assert demand is not None
        assert demand.quantity == pytest.approx(5700 + 16 * volts)


@pytest.mark.parametrize("word", ["export_limit", "approval", "approved_on"])
def test_what_was_not_agreed_cannot_be_told(word: str) -> None:
    found = asked({f"grid.{word}": None})
    id = "export-limit" if word == "export_limit" else "approval"
    assert check(found, id).verdict == "cannot tell"
    assert f"grid.{word}" in check(found, id).reason
    assert not found.ready


def test_a_limit_of_the_import_is_asked_where_the_job_speaks_of_it() -> None:
    assert not [each for each in asked().checks if each.id == "settings.import-limit"]
    assert check(asked({"grid.import_limit": "5 kW"}), "import-limit").verdict == "pass"
    tight = asked({"grid.import_limit": "2 kW"})
    assert row(tight, "charging-from-the-grid/greatest-power").value.quantity == 2000
    assert check(tight, "import-limit").verdict == "fail"
    listed = asked({"grid.import_limit": "2 kW"}, ("charge_limit_listed = false", "charge_limit_listed = true"))
    assert check(listed, "import-limit").verdict == "pass"


def test_a_unit_of_another_certificate_cannot_be_told_and_one_without_fails() -> None:
    other = asked(sheet=('standard = "UL 1741 SB"', 'standard = "UL 1741 SA"'))
    assert check(other, "certified").verdict == "cannot tell"
    assert "UL 1741 SB" in check(other, "certified").reason


def test_an_adoption_without_a_book_on_the_grid_says_so() -> None:
    found = asked(adoption="none")
    assert (found.profile, found.rows) == (None, ())
    assert check(found, "unstated").verdict == "cannot tell"
    assert not found.ready


def test_regions_of_australia_differ_and_gaps_of_new_zealand_are_told() -> None:
    first = abroad_asked("asnzs4777_2", '[grid]\nregion = "Australia A"\n')
    second = abroad_asked("asnzs4777_2", '[grid]\nregion = "Australia B"\n')
    assert row(first, "volt-var/point-4-voltage").value.quantity == 258
    assert row(second, "volt-var/point-4-voltage").value.quantity == 255
    assert check(first, "values").verdict == "pass"
    zealand = abroad_asked("asnzs4777_2", '[grid]\nregion = "New Zealand"\n')
    assert row(zealand, "volt-watt/point-1-voltage").value.quantity == 242
    assert check(zealand, "values").verdict == "cannot tell"
    assert "Sustained voltage" in check(zealand, "values").reason
    unknown = abroad_asked("asnzs4777_2", "")
    assert check(unknown, "region").verdict == "cannot tell"
    assert "grid.region" in check(unknown, "region").reason


def test_voltages_in_volts_stand_at_their_points_in_per_cent() -> None:
    first = abroad_asked("asnzs4777_2", '[grid]\nregion = "Australia A"\n')
    point = row(first, "over-voltage-trip-stage-1-v/threshold").point
    assert point is not None
    assert point.target.quantity == pytest.approx(100 * 265 / 230)


def test_british_settings_need_no_region() -> None:
    found = abroad_asked("erec", "")
    assert row(found, "under-voltage-trip/threshold").value.quantity == pytest.approx(184)
    assert check(found, "values").verdict == "pass"
    assert check(found, "certified").verdict == "cannot tell"


def test_in_britain_so_much_may_be_sent_without_asking_and_no_more() -> None:
    row_of = "export-to-the-grid/greatest-power"
    assert row(abroad_asked("erec", '[supply]\nsystem = "230 V single-phase"\n'), row_of).value.quantity == 3680
    assert row(abroad_asked("erec", '[supply]\nsystem = "230/400 V three-phase"\n'), row_of).value.quantity == 11040
    agreed = abroad_asked("erec", '[grid]\nexport_limit = "5 kW"\n')
    assert (row(agreed, row_of).value.quantity, row(agreed, row_of).origin) == (5000, "agreed")
    unknown = abroad_asked("erec", '[grid]\nexport_limit = "not known"\n')
    assert row(unknown, row_of).value.missing
    assert not [each for each in agreed.checks if each.id == "settings.approval"]


def every_row() -> list[Setting]:
    australia = [abroad_asked("asnzs4777_2", f'[grid]\nregion = "{each}"\n') for each in ("Australia A", "New Zealand")]
    return [each for found in (asked(), abroad_asked("erec", ""), *australia) for each in found.rows]


UNITS = {"Pct": "%", "VNomPct": "%", "DeptRef": "%", "Hz": "Hz", "Secs": "s", "": ""}


def test_every_point_is_one_of_the_open_models_and_in_its_unit() -> None:
    with MODELS.open(encoding="utf-8") as file:
        points = {(each["model"], each["group"], each["point"]): each["unit"] for each in csv.DictReader(file)}
    seen = 0
    for each in every_row():
        if each.point is None:
            continue
        *groups, name = re.sub(r"\[\d\]", "", each.point.name).split(".")
        unit = points[str(each.point.model), ".".join(groups), name]
        assert UNITS[unit] == each.point.target.unit.replace("1", ""), each.id
        seen += 1
    assert seen > 80


def test_each_edition_of_an_operator_begins_after_the_one_before() -> None:
    for name in shelf.operators():
        editions = shelf.editions_of(name)
        for before, after in pairwise(editions):
            assert before.ends is not None
            assert after.begins is not None
            assert before.ends < after.begins
