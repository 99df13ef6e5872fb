"""Service load and backup of the invented demo job, and of small changes of it."""

from collections.abc import Mapping
from importlib import resources

import pytest

from standfast import shelf
from standfast.design.wiring.backup import BackupSheet, backup_load
from standfast.design.wiring.load import LoadSheet, service_load
from standfast.equipment.read import DataSheet, shipped
from standfast.equipment.read import read as read_sheet
from standfast.survey import read

BOOK = shelf.edition("nfpa70", "2023")
DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
FURNACE = 'motor = { rating = "1/2 hp", locked_rotor = "38 A", full_load = "7 A", by_itself = true }'


def changed(text: str, *changes: tuple[str, str]) -> str:
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new)
    return text


def sheets(*changes: tuple[str, str]) -> Mapping[str, DataSheet]:
    reading = read_sheet(changed(shipped()["demo-wall-10"], *changes), "demo-wall-10.toml")
    assert reading.sheet is not None
    return {"battery": reading.sheet}


def load(*changes: tuple[str, str], unit: tuple[tuple[str, str], ...] = ()) -> LoadSheet:
    reading = read(changed(DEMO, *changes))
    assert reading.survey is not None
    return service_load(BOOK, reading.survey, sheets(*unit))


def backup(*changes: tuple[str, str], unit: tuple[tuple[str, str], ...] = ()) -> BackupSheet:
    reading = read(changed(DEMO, *changes))
    assert reading.survey is not None
    whole = service_load(BOOK, reading.survey, sheets(*unit))
    return backup_load(BOOK, reading.survey, sheets(*unit), whole.house)


def verdicts(sheet: LoadSheet | BackupSheet) -> dict[str, str]:
    return {check.id: check.verdict for check in sheet.checks}


def test_existing_dwelling_with_its_cooling_beside_the_pool() -> None:
    found = load()
    pool = 1850 * 3 + 3 * 1500 + 12_000 + 5000 + 1200 + 600 + 300 + 850
    house = (8000 + 0.4 * (pool - 8000) + 4800) / 240
    assert found.house.quantity == pytest.approx(house)
    assert found.needed.quantity == pytest.approx(house + 1.25 * 21)
    assert verdicts(found) == {
        "load.surveyed-appliances": "pass",
        "load.appliances-listed": "pass",
        "load.service": "pass",
        "load.service-least": "pass",
    }


def test_cooling_in_the_pool_counts_at_its_factor() -> None:
    inside = load(("hvac_in_pool = false", "hvac_in_pool = true"))
    assert inside.house.quantity == pytest.approx(load().house.quantity - 0.6 * 4800 / 240)


def test_whether_cooling_is_in_the_pool_is_never_decided_silently() -> None:
    unknown = load(("hvac_in_pool = false\n", ""))
    check = next(check for check in unknown.checks if check.id == "load.service")
    assert check.verdict == "cannot tell"
    assert "hvac_in_pool" in check.reason


def test_new_cooling_counts_in_full_and_a_house_without_cooling_needs_no_answer() -> None:
    cooling = ('kind = "air conditioner"\nrating = "4800 VA"\nphases = "line to line"\nstate = "existing"', "{}")
    new = load((cooling[0], cooling[0].replace("existing", "new")), ("hvac_in_pool = false\n", ""))
    assert new.house.quantity == pytest.approx(load().house.quantity)
    none = load((cooling[0], 'kind = "none"'), ("hvac_in_pool = false\n", ""))
    assert none.house.quantity == pytest.approx(load().house.quantity - 4800 / 240)


def test_a_service_that_is_too_small_fails_and_one_under_the_least_fails_too() -> None:
    found = load(('service = "200 A"', 'service = "90 A"'))
    assert verdicts(found) == {
        "load.surveyed-appliances": "pass",
        "load.appliances-listed": "pass",
        "load.service": "fail",
        "load.service-least": "fail",
    }


@pytest.mark.parametrize(
    "fact",
    ['floor_area = "1850 ft2"\n', "small_appliance_circuits = 2\n", 'method = "existing"\n', 'voltage = "240 V"\n'],
)
def test_a_missing_fact_is_told_and_never_a_pass(fact: str) -> None:
    word = fact.split(" = ")[0]
    check = next(check for check in load((fact, "")).checks if check.id == "load.service")
    assert check.verdict == "cannot tell"
    assert word in check.reason


def test_a_nameplate_that_is_missing_is_told() -> None:
    check = next(c for c in load(('rating = "12 kVA"\n', "")).checks if c.id == "load.service")
    assert check.verdict == "cannot tell"
    assert "range" in check.reason


LIMIT = ("hvac_in_pool = false\n", 'hvac_in_pool = false\ncharging_limit = "120 A"\n')


def test_a_control_without_a_listing_counts_for_nothing() -> None:
    found = load(LIMIT)
    assert found.needed.quantity == pytest.approx(load().needed.quantity)
    assert verdicts(found)["load.charging-control"] == "fail"


def test_a_listed_control_takes_the_charging_out_but_its_setting_is_continuous() -> None:
    listed = (("charge_limit_listed = false", "charge_limit_listed = true"),)
    found = load(LIMIT, unit=listed)
    assert found.needed.quantity == pytest.approx(1.25 * 120)
    assert verdicts(found)["load.charging-control"] == "pass"
    low = load((LIMIT[0], LIMIT[1].replace("120 A", "60 A")), unit=listed)
    assert low.needed.quantity == pytest.approx(low.house.quantity)


def test_a_listing_that_only_the_job_names_passes_on_a_condition() -> None:
    named = load((LIMIT[0], LIMIT[1] + 'charging_control = "UL 3141, file 000"\n'))
    check = next(check for check in named.checks if check.id == "load.charging-control")
    assert (check.verdict, bool(check.condition)) == ("pass", True)


def test_two_units_charge_together() -> None:
    two = load(("quantity = 1", "quantity = 2"))
    assert two.needed.quantity == pytest.approx(two.house.quantity + 2 * 1.25 * 21)


def test_new_dwelling() -> None:
    found = load(('method = "existing"', 'method = "new"'))
    pool = 1850 * 3 + 3 * 1500 + 12_000 + 5000 + 1200 + 600 + 300 + 850
    assert found.house.quantity == pytest.approx((10_000 + 0.4 * (pool - 10_000) + 4800) / 240)


def test_standard_method() -> None:
    found = load(('method = "existing"', 'method = "standard"'))
    lighting = 3000 + 0.35 * (1850 * 3 + 3 * 1500 - 3000)
    whole = lighting + 8000 + 5000 + (1200 + 600 + 300) + 850 + 4800 * 1.25
    assert found.house.quantity == pytest.approx(whole / 240)


RECORD = (
    'method = "existing"',
    'method = "measured"\nmeasured_max = "12 kVA"\nmeasured_over = "365 d"\nmeasured_by = "15-minute averages"',
)


def test_recorded_demand_with_nothing_new_but_the_battery() -> None:
    found = load(RECORD)
    assert found.house.quantity == pytest.approx(1.25 * 12_000 / 240)
    assert set(verdicts(found).values()) == {"pass"}


@pytest.mark.parametrize(
    ("change", "id"),
    [
        (('measured_over = "365 d"', 'measured_over = "29 d"'), "load.record-length"),
        (('"15-minute averages"', '"hourly averages"'), "load.record-method"),
    ],
)
def test_a_record_that_is_too_short_or_too_coarse_is_refused(change: tuple[str, str], id: str) -> None:
    found = load((RECORD[0], RECORD[1].replace(*change)))
    assert verdicts(found)[id] == "fail"
    assert verdicts(found)["load.service"] == "cannot tell"


def test_thirty_days_do_where_nothing_hides_demand() -> None:
    assert set(verdicts(load((RECORD[0], RECORD[1].replace("365 d", "30 d")))).values()) == {"pass"}


@pytest.mark.parametrize(
    "change",
    [
        ('other_storage = "0 kWh"', 'other_storage = "5 kWh"'),
        ('load = "1440 VA"\n', 'load = "1440 VA"\nsource_output = "16 A"\n'),
    ],
)
def test_a_battery_or_pv_that_is_there_spoils_the_record(change: tuple[str, str]) -> None:
    found = load(RECORD, change)
    assert verdicts(found)["load.record-sources"] == "fail"
    assert verdicts(found)["load.service"] == "cannot tell"
    reason = next(check for check in found.checks if check.id == "load.service").reason
    assert "another method" in reason


def test_vehicle_supply_counts_at_least_what_the_code_says() -> None:
    words = 'id = "car"\nkind = "vehicle charger"\nrating = "3600 VA"\nstate = "new"'
    car = ("[loads.heating]", f"[[loads.appliances]]\n{words}\n\n[loads.heating]")
    assert load(car).house.quantity == pytest.approx(load().house.quantity + 0.4 * 7200 / 240)


def test_the_demo_battery_carries_its_circuits() -> None:
    found = backup()
    assert found.load.quantity == pytest.approx((700 + 850 + 600 + 1500 + 200 + 900) / 240)
    assert set(verdicts(found).values()) == {"pass"}
    assert "backup.line/1" in verdicts(found)


def test_a_load_on_one_line_can_fail_where_the_sum_passes() -> None:
    moved = backup(
        (
            'spaces = [3]\nbreaker = "15 A"\npoles = 1\nload = "600 VA"',
            'spaces = [11]\nbreaker = "15 A"\npoles = 1\nload = "600 VA"',
        )
    )
    assert verdicts(moved)["backup.capacity"] == "pass"
    assert verdicts(moved)["backup.line/2"] == "pass"
    assert verdicts(backup(("spaces = [4]\n", "spaces = [9]\n")))["backup.line/1"] == "fail"


def test_an_air_conditioner_in_the_backup_is_too_much_for_the_demo_battery() -> None:
    cooled = backup(
        (
            'load = "4800 VA"\nphases = "line to line"\nbacked_up = false',
            'load = "4800 VA"\nphases = "line to line"\nbacked_up = true',
        )
    )
    found = verdicts(cooled)
    assert (found["backup.capacity"], found["backup.motor-start"]) == ("fail", "fail")


def start_of(motor: str) -> tuple[float | str | None, set[str]]:
    found = backup((FURNACE, f"motor = {{ {motor} }}"))
    value = next(row.value for row in found.rows if row.text.startswith("Start of Gas furnace"))
    return (None if value.missing else value.quantity), {each.seen or "" for each in value.trail()}


def test_starting_current_from_nameplate_then_letter_then_table_then_rule() -> None:
    assert start_of('locked_rotor = "38 A", code_letter = "G", rating = "1/2 hp"')[0] == 38
    assert start_of('code_letter = "G", rating = "1/2 hp"')[0] == pytest.approx(6290 * 0.5 / 120)
    assert start_of('rating = "1/2 hp", full_load = "7 A"')[0] == pytest.approx(42)
    by_rule, seen = start_of('rating = "1/2 hp"')
    assert by_rule == pytest.approx(6 * 9.8)
    assert "common practice" in seen
    assert start_of("soft_start = true")[0] is None
    assert start_of('rating = "4 hp"')[0] is None


def test_a_motor_on_both_lines_goes_by_the_table_of_locked_rotor_currents() -> None:
    found = backup(
        ('continuous = "850 VA"\nphases = "line to neutral"', 'continuous = "850 VA"\nphases = "line to line"'),
        (FURNACE, 'motor = { rating = "1-1/2 hp" }'),
    )
    value = next(row.value for row in found.rows if row.text.startswith("Start of Gas furnace"))
    assert value.quantity == 60


def test_a_start_that_is_not_known_is_not_a_pass() -> None:
    found = backup((FURNACE, "motor = {}"))
    assert verdicts(found)["backup.motor-start"] == "cannot tell"


def test_the_peak_power_stands_in_for_a_motor_rating_that_the_sheet_does_not_state() -> None:
    found = backup(unit=(('motor_start_current = "60 A"\n', ""),))
    check = next(check for check in found.checks if check.id == "backup.motor-start")
    assert check.limit is not None
    assert check.limit.quantity == pytest.approx(7500 / 240)
    assert check.verdict == "fail"


def test_whole_house_backup_needs_the_whole_load_and_no_backup_needs_nothing() -> None:
    whole = backup(('mode = "circuits"', 'mode = "whole house"'))
    assert verdicts(whole)["backup.capacity"] == "fail"
    assert whole.load.quantity == load().house.quantity
    none = backup(('mode = "circuits"', 'mode = "none"'))
    assert verdicts(none) == {"backup.capacity": "not applicable"}


@pytest.mark.parametrize("fact", ['mode = "circuits"\n', 'transfer = "automatic"\n'])
def test_what_the_job_does_not_say_about_backup_is_told(fact: str) -> None:
    assert verdicts(backup((fact, "")))["backup.capacity"] == "cannot tell"


def test_a_unit_that_forms_no_grid_backs_nothing_up() -> None:
    found = backup(unit=(("forms_grid = true", "forms_grid = false"),))
    assert verdicts(found)["backup.forms-grid"] == "fail"


def test_every_backup_verdict_names_its_article_and_edition() -> None:
    clauses = {str(check.clause) for check in backup().checks}
    assert {"NEC 2023 702.4(A)(2)", "NEC 2023 710.15(A)"} <= clauses
    manual = backup(('transfer = "automatic"', 'transfer = "manual"'))
    assert "NEC 2023 702.4(A)(1)" in {str(check.clause) for check in manual.checks}


def test_without_a_motor_named_somebody_must_have_looked() -> None:
    lines = dict.fromkeys(line for line in DEMO.split("\n") if line.startswith("motor = "))
    gone = tuple((f"{line}\n", "") for line in lines)
    check = next(check for check in backup(*gone).checks if check.id == "backup.motor-start")
    assert check.verdict == "cannot tell"
    assert "has_motor = false" in check.reason
    looked = tuple((f"{line}\n", "has_motor = false\n") for line in lines)
    rest = tuple((f'id = "{name}"\n', f'id = "{name}"\nhas_motor = false\n') for name in ("kitchen-lights", "network"))
    rest += (('id = "kitchen-receptacles"\n', 'id = "kitchen-receptacles"\nhas_motor = false\n'),)
    check = next(check for check in backup(*looked, *rest).checks if check.id == "backup.motor-start")
    assert check.verdict == "not applicable"
