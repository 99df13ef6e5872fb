"""The graph of the demo job."""

from importlib.resources import files

import pytest

from standfast.design.installation import Installation
from standfast.design.installation.build import JobFile, battery_way, build
from standfast.equipment.read import find
from standfast.faults import BadFormula
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def job_of(text: str) -> JobFile:
    survey, _ = read(text)
    assert survey is not None
    return survey


@pytest.fixture(scope="module")
def house() -> Installation:
    job = job_of(TEXT)
    chosen = {"battery": "demo-wall-10", "breaker": "demo-breaker", "disconnect": "demo-disconnect-60"}
    sheets = {role: find(id).sheet for role, id in chosen.items()}
    return build(job, {role: sheet for role, sheet in sheets.items() if sheet is not None})


def test_the_battery_stands_behind_two_busbars(house: Installation) -> None:
    assert [part.id for part in house.busbars_to_utility("battery-1")] == ["backup", "main"]
    assert [part.id for part in house.path("battery-1", "backup")] == [
        "battery-1",
        "battery-1/inverter",
        "battery-1/disconnect",
        "battery-1/breaker",
        "backup",
    ]


def test_an_open_island_switch_leaves_the_battery_alone_on_the_backed_up_circuits(house: Installation) -> None:
    island = frozenset({"backup/island-switch"})
    assert [part.id for part in house.feeding("backup/refrigerator/load", island)] == ["battery-1/inverter"]
    assert [part.id for part in house.feeding("main/range/load", island)] == ["utility"]


def test_conductors_carry_the_names_of_their_routes(house: Installation) -> None:
    assert [link.id for link in house.conductors("battery-1/inverter", "battery-1/breaker")] == [
        "battery-run",
        "disconnect-run",
    ]


def test_routes_that_lead_nowhere_are_told() -> None:
    job = job_of(TEXT.replace('to = "disconnect"', 'to = "backup"'))
    assert battery_way(job) == ["backup", "battery"]
    lost = job_of(TEXT.replace('from = "battery"\nto = "disconnect"', 'from = "main"\nto = "disconnect"'))
    with pytest.raises(BadFormula, match="no \\[\\[routes\\]\\] lead"):
        battery_way(lost)


def house_of(*changes: tuple[str, str]) -> Installation:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return build(job_of(text), {})


SUN = ('id = "dryer"\nname = "Dryer"', 'id = "sun"\nname = "Solar array"\nsource_output = "16 A"')


def test_a_source_that_is_there_already_feeds_the_house_and_is_no_load() -> None:
    house = house_of(SUN)
    assert "main/sun/load" not in house.parts
    sun = house.parts["main/sun/source"]
    assert (sun.kind, sun.name, sun.existing, sun.facts["output_current"].quantity) == (
        "inverter",
        "Solar array",
        True,
        16,
    )
    assert sun in house.feeding("main/range/load")
    assert sun not in house.feeding("main/range/load", frozenset({"main/sun"}))


def test_a_feeder_breaker_is_named_after_the_panel_that_it_feeds(house: Installation) -> None:
    assert house.parts["main/backup-feeder"].name == "Backup panel feeder breaker"
    by_route = house_of(('feeds = "backup"\n', ""))
    assert by_route.parts["main/backup-feeder"].name == "Backup panel feeder breaker"
    assert [part.id for part in by_route.busbars_to_utility("battery-1")] == ["backup", "main"]


def test_a_panel_whose_feeder_nobody_listed_still_hangs_on_the_one_above() -> None:
    lost = house_of(('feeds = "backup"\n', ""), ('id = "backup-feeder"\nfrom', 'id = "other"\nfrom'))
    assert [part.id for part in lost.busbars_to_utility("battery-1")] == ["backup", "main"]


def test_the_emergency_disconnect_at_the_meter_stands_before_the_service(house: Installation) -> None:
    way = [part.id for part in house.path("utility", "main")]
    assert way == ["utility", "meter", "emergency-disconnect", "service-disconnect", "main"]
    assert house.feeding("main", frozenset({"emergency-disconnect"})) == [house.parts["battery-1/inverter"]]
    inside = house_of(('emergency_disconnect = "at the meter"', 'emergency_disconnect = "none"'))
    assert "emergency-disconnect" not in inside.parts


def test_the_circuit_of_the_battery_is_known_by_what_it_feeds() -> None:
    named = house_of(('id = "battery"\nname = "Battery"', 'id = "ess"\nname = "Storage"'))
    assert "backup/ess" not in named.parts
    assert named.parts["battery-1/breaker"].name == "Battery 1 breaker"
