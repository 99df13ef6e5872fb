"""A source ahead of the service disconnect: what is asked of it, and what of the busbars is not."""

import pytest
from wiring_job import HANDBOOK, JOB, NEC, SHEETS, swap

from standfast.design.installation.build import build
from standfast.design.installation.states import states
from standfast.design.wiring.feeds import feeds
from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import read as read_sheet
from standfast.sheet import Check
from standfast.shelf import edition
from standfast.survey.read import read

AHEAD = {
    'from = "main"\nto = "disconnect"': 'from = "service-tap"\nto = "disconnect"',
    'conductors = { material = "cu", insulation = "thhn" }': (
        'conductors = { size = "6", material = "cu", insulation = "thhn" }'
    ),
    'route = "10 %"': 'route = "10 %"\n[backup]\nmode = "none"',
}
RATED = {"lockable_open = true": "lockable_open = true\nservice_rated = true"}
STRONG = {'interrupting = "10 kA"': 'interrupting = "22 kA"'}


def wired(
    changes: dict[str, str] | None = None, sheets: dict[str, dict[str, str]] | None = None, nec: str = "2023"
) -> Wiring:  # fmt: skip
    survey, faults = read(swap(JOB, AHEAD | (changes or {})))
    assert survey is not None, faults
    found: dict[str, SheetFile] = {}
    for role, text in SHEETS.items():
        sheet = read_sheet(swap(text, (sheets or {}).get(role, {})), f"{role}.toml").sheet
        assert sheet is not None
        found[role] = sheet
    return wire(edition("nfpa70", nec), HANDBOOK, survey, found)


def of(found: Wiring, id: str) -> Check:
    return next(each for each in found.checks if each.id == f"wiring.{id}/battery-1")


def test_what_is_ahead_of_the_service_is_on_no_busbar() -> None:
    found = wired(sheets={"disconnect": RATED, "breaker": STRONG})
    assert found.busbars == ()
    assert [each.panel for each in found.units] == ["service-tap"]
    names = ("place", "size", "sum", "disconnect", "jumper", "interrupting", "backup")
    assert {name: of(found, f"supply-side-{name}").verdict for name in names} == dict.fromkeys(names, "pass")
    assert of(found, "supply-side-length").verdict == "not applicable"


def test_its_overcurrent_device_stands_in_its_own_disconnect() -> None:
    survey, _ = read(swap(JOB, AHEAD))
    assert survey is not None
    graph = build(survey, {})
    way = [part.id for part in graph.path("utility", "battery-1")]
    assert way == ["utility", "meter", "battery-1/disconnect", "battery-1/breaker", "battery-1/inverter", "battery-1"]
    found = {each.id: each for each in feeds(graph, states(survey, {}, graph), {})}
    assert found["disconnect-run"].from_utility.current is None
    assert dict(found["battery-run"].clearing)["utility"] == "battery-1/breaker"


@pytest.mark.parametrize(
    ("check", "changes", "sheets"),
    [
        ("supply-side-size", {'size = "6"': 'size = "8"'}, {}),
        ("supply-side-interrupting", {'fault_current = "9 kA"': 'fault_current = "30 kA"'}, {}),
        ("supply-side-disconnect", {}, {"disconnect": {"lockable_open = true": "service_rated = false"}}),
        ("supply-side-backup", {'mode = "none"': 'mode = "whole house"'}, {}),
        ("supply-side-place", {'emergency_disconnect = "none"': (
            'emergency_disconnect = "at the meter"\nemergency_disconnect_mark = "service disconnect"')}, {}),
        ("supply-side-sum", {'size = "4/0", material = "al"': 'size = "14", material = "cu"'}, {}),
    ],
)  # fmt: skip
def test_each_of_its_rules_can_fail(check: str, changes: dict[str, str], sheets: dict[str, dict[str, str]]) -> None:
    survey_changes = dict(AHEAD)
    for old, new in changes.items():
        hit = next((key for key, text in survey_changes.items() if old in text), None)
        if hit is None:
            survey_changes[old] = new
        else:
            survey_changes[hit] = survey_changes[hit].replace(old, new)
    found = wired(survey_changes, ({"disconnect": RATED, "breaker": STRONG} | sheets))
    assert of(found, check).verdict == "fail"


def test_a_disconnect_of_which_nobody_said_that_it_is_service_equipment_cannot_be_told() -> None:
    assert of(wired(sheets={"breaker": STRONG}), "supply-side-disconnect").verdict == "cannot tell"


def test_the_2020_edition_states_a_length() -> None:
    near = {'length = "30 ft"': 'length = "9 ft"'}
    assert of(wired(near, nec="2020"), "supply-side-length").verdict == "pass"
    assert of(wired(nec="2020"), "supply-side-length").verdict == "fail"
    assert NEC.book == "nfpa70"
