"""An Australian house: what is asked of its circuits, its neutral, its residual devices and its settings."""

import re
from datetime import date

import pytest
from verandah_job import TEXT, Changes, on_grid, survey, trades, wired

from standfast import shelf
from standfast.design.wiring.metric.australasian import AUSTRALASIAN
from standfast.design.wiring.metric.australasian_rules import checks
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.whole import work_out
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.sheet import Check


def changed(changes: Changes = (), **of_sheets: Changes) -> dict[str, str]:
    """The checks whose verdict differs from that of the demo as it is, with their new verdict."""
    before, after = wired(), wired(changes, **of_sheets)
    return {id: each.verdict for id, each in after.items() if id not in before or before[id].verdict != each.verdict}


def test_nothing_is_open_in_the_wiring_of_the_demo() -> None:
    found = wired()
    assert [each.id for each in found.values() if each.open] == []
    assert len(found) > 40


def test_the_consumer_mains_have_their_share_of_the_rise() -> None:
    near = wired()["wiring.voltage-rise/battery-1"]
    far = wired((('length = "12 m"', 'length = "24 m"'),))["wiring.voltage-rise/battery-1"]
    assert near.limit is not None
    assert far.limit is not None
    # 1.155 √3 × 1.15 ohm/km warm × 43.4 A × 13.2 m on 230 V
    assert 2 - near.limit.quantity == pytest.approx(0.731, abs=0.002)
    assert 2 - far.limit.quantity == pytest.approx(2 * (2 - near.limit.quantity))
    too_far = wired((('length = "12 m"', 'length = "40 m"'),))["wiring.voltage-rise/battery-1"]
    assert too_far.open


def test_without_the_consumer_mains_neither_rise_nor_fall_can_be_told() -> None:
    without = (('area = "16 mm2"\n', ""),)
    found = changed(without)
    assert found["wiring.voltage-rise/battery-1"] == "cannot tell"
    assert found["wiring.voltage-drop/battery-1"] == "cannot tell"
    assert "routes.consumer-mains.area" in wired(without)["wiring.voltage-rise/battery-1"].reason


@pytest.mark.parametrize(
    ("role", "change", "expected"),
    [
        ("island_switch", ("neutral_switched = false", "neutral_switched = true"),
         {"wiring.neutral-continuity": "fail", "wiring.neutral-bond/island": "fail"}),
        ("island_switch", ("neutral_switched = false\n", ""), {"wiring.neutral-continuity": "cannot tell"}),
        ("battery", ('neutral_bond = "none"', 'neutral_bond = "while the grid is away"'),
         {"wiring.neutral-bond/island": "fail"}),
        ("battery", ("max_overcurrent_device = \"32 A\"", "max_overcurrent_device = \"25 A\""),
         {"wiring.device-maker-maximum/battery-1": "fail"}),
        ("battery", ('residual_device = "A"', 'residual_device = "B"'), {"wiring.residual-type/battery-1": "fail"}),
        ("breaker", ('interrupting = "6 kA"', 'interrupting = "1.5 kA"'),
         {"wiring.breaking-capacity/battery-1": "fail"}),
    ],
)  # fmt: skip
def test_what_equipment_lacks_is_seen(role: str, change: tuple[str, str], expected: dict[str, str]) -> None:
    found = changed(**{role: (change,)})
    assert expected.items() <= found.items()


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (("neutral_bonded = true", "neutral_bonded = false"), {"wiring.men-connection/main": "fail"}),
        (("neutral_bonded = false", "neutral_bonded = true"), {"wiring.men-connection/backup": "fail"}),
        (('rated = "30 mA"', 'rated = "100 mA"'), {"wiring.additional-protection/backup/lights": "fail"}),
        (('type = "A"', 'type = "AC"'), {"wiring.residual-kind/backup/kitchen": "fail"}),
        (('busbar = "125 A"', 'busbar = "100 A"'), {"wiring.assembly-rating/main": "fail"}),
        (('charging_limit = "63 A"\n', ""), {"load.supply": "fail"}),
        (("lighting_points = 26\n", ""), {"load.supply": "cannot tell"}),
        (('loop = "0.90 ohm"', 'loop = "2.60 ohm"'), {}),
        (('earthing = "multiple earthed neutral"\n', ""), {"wiring.neutral-bond/grid": "cannot tell"}),
        (('method = "B"\n', ""), {"wiring.cable-current/battery-1": "cannot tell"}),
        (('in_insulation = "0 mm"', 'in_insulation = "300 mm"'), {"wiring.cable-current/battery-1": "cannot tell"}),
        (('source_output = "21.7 A", state = "existing"', 'source_output = "110 A", state = "existing"'),
         {"wiring.inverter-size": "fail"}),
    ],
)  # fmt: skip
def test_what_the_house_lacks_is_seen(change: tuple[str, str], expected: dict[str, str]) -> None:
    assert expected.items() <= changed((change,)).items()


def test_a_cable_may_pass_by_the_safe_side_and_never_fail_by_it() -> None:
    found = wired((('cable = "90 °C thermosetting, multicore"\nmethod = "B"\ncircuits_together = 1\nin_insulation = '
                    '"0 mm"\nmechanical_protection', 'cable = "90 °C thermosetting, multicore"\nmethod = "B"\narea = '
                    '"4 mm2"\ncircuits_together = 1\nin_insulation = "0 mm"\nmechanical_protection'),))  # fmt: skip
    check = found["wiring.cable-current/battery-1"]
    assert check.verdict == "cannot tell"
    assert "AS/NZS 3008.1.1" in check.reason
    assert wired()["wiring.cable-current/battery-1"].basis == "assumed"


def on_date(day: str) -> Check:
    text = (("date = 2026-03-16", f"date = {day}"),)
    return wired(text)["wiring.inverter-size"]


def test_the_date_of_the_job_decides_which_edition_limits_the_system() -> None:
    assert [shelf.adopted_on("au", date(year, 6, 1)).name for year in (2022, 2025, 2026)] == [
        "au-2021", "au-2025", "au-2026",
    ]  # fmt: skip
    assert on_date("2026-03-16").verdict == "pass"
    assert on_date("2024-03-16").verdict == "cannot tell"


def test_new_zealand_keeps_its_neutral_and_has_settings_of_its_own() -> None:
    changes = (('region = "Australia A"', 'region = "New Zealand"'), ('operator = "sampleton"\n', ""))
    found = on_grid(changes)
    assert not found.ready
    rows = {row.id: row for row in found.rows}
    assert rows["volt-watt/point-1-voltage"].value.quantity == 242
    assert rows["sustained-voltage/average-over-ten-minutes"].value.missing
    asked = {check.id: check.verdict for check in found.checks}
    assert asked["settings.region"] == "pass"
    assert asked["settings.values"] == "cannot tell"
    assert asked["settings.export-limit"] == "pass"
    assert [each.id for each in wired(changes).values() if each.open] == []


def test_type_ac_is_banned_where_that_is_known() -> None:
    alternating = ('type = "A"', 'type = "AC"')
    there = ('region = "Australia A"', 'region = "New Zealand"')
    assert wired((alternating,))["wiring.residual-kind/backup/lights"].verdict == "fail"
    assert wired((alternating, there))["wiring.residual-kind/backup/lights"].verdict == "cannot tell"


DIRECT = (
    ('battery = "demo-wall-8"', 'battery = "demo-cabinet-48"\ninverter = "demo-inverter-48"'),
    ('from = "battery"\nto = "disconnect"', 'from = "battery"\nto = "inverter"'),
)


@pytest.mark.parametrize(
    ("volts", "protected", "verdict"),
    [
        ("58 V", "true", "not applicable"), ("60 V", "false", "not applicable"), ("61 V", "true", "pass"),
        ("61 V", "false", "fail"), ("400 V", "true", "pass"), ("400 V", "not known", "cannot tell"),
        ("not known", "true", "cannot tell"),
    ],
)  # fmt: skip
def test_a_battery_cable_above_the_lowest_class_is_protected_all_along(
    volts: str, protected: str, verdict: str
) -> None:
    said = protected if protected in ("true", "false") else f'"{protected}"'
    run = 'circuits_together = 1\nin_insulation = "0 mm"\nmechanical_protection = '
    job = survey((*DIRECT, (f"{run}true", f"{run}{said}")))
    text = re.sub(r'voltage_max = "[^"]*"', f'voltage_max = "{volts}"', shipped()["demo-cabinet-48"])
    sheet, _ = read_sheet(text, "cabinet.toml")
    assert sheet is not None
    question = Question(shelf.adoption("au-2026"), AUSTRALASIAN, job, {"battery": sheet})
    found = {each.id: each.verdict for each in checks(question, work_out(question))}
    assert found["wiring.battery-cable/battery-run"] == verdict


def test_a_three_phase_house_spreads_its_single_phase_sources() -> None:
    three = (
        ('system = "230 V single-phase"\nvoltage = "230 V"', 'system = "230/400 V three-phase"\nvoltage = "400 V"'),
    )
    found = wired(three)
    # Both on one phase would be 10 kVA: on which each is was not surveyed, so it cannot be told.
    assert found["wiring.phase-balance"].verdict == "cannot tell"
    assert "phase" in found["wiring.phase-balance"].reason


def test_the_cable_grows_where_the_mains_leave_less_of_the_rise() -> None:
    assert area() == 6
    assert area((('length = "12 m"', 'length = "28 m"'),)) > 6
    assert area((('length = "2.5 m"', 'length = "25 m"'),)) > 6


def area(changes: Changes = ()) -> float:
    job, trade = trades(changes)
    found = trade.wire(job, {}).metric
    assert found is not None
    return next(each.area.quantity for each in found.circuits if each.id == "battery-1")


def facts() -> list[tuple[str, str]]:
    """Every line of the job that states one fact of its supply, loads, routes or backup: its table and the line."""
    found, table = [], ""
    for line in TEXT.splitlines():
        if line.startswith("["):
            table = line.strip("[]")
        elif table in ("supply", "loads", "routes", "backup") and re.match(r"[a-z_]+ = ", line):
            found.append((table, line))
    return list(dict.fromkeys(each for each in found if not each[1].startswith(("id =", "from =", "to ="))))


@pytest.mark.parametrize(("table", "line"), facts(), ids=[f"{table} {line.split()[0]}" for table, line in facts()])
def test_a_fact_that_is_missing_never_fails_and_never_passes_more(table: str, line: str) -> None:
    before, after = wired(), wired(((f"\n{line}\n", "\n"),))
    assert after
    for id, check in after.items():
        assert check.verdict != "fail" or id == "load.supply", id
        if id in before and before[id].open:
            assert check.open
        if check.verdict == "cannot tell":
            assert check.reason
