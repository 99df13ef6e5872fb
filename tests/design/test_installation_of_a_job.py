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
