"""Cases of siting: what a case leaves unsaid of an opening does not count, and absurd layouts are refused."""

from typing import Any

import pytest

from standfast.proof.run import prove

UNIT = {"x_mm": 0, "y_mm": 600, "w_mm": 700, "h_mm": 1100, "place": "exterior_wall"}
WINDOW = {"kind": "window", "x_mm": 1200, "y_mm": 1000, "w_mm": 900, "h_mm": 1200}


def case(**changed: Any) -> dict[str, Any]:
    inputs = {
        "adoption": "us-irc2021-nfpa855-2023",
        "rules": ["US-LOC-EXT-3FT"],
        "view": "wall elevation",
        "units": [UNIT],
        "features": [WINDOW],
        "facts": {"limits_in": "ft_in"},
    }
    return {"id": "a", "method": "siting.layout", "inputs": {**inputs, **changed}, "expected": {"verdict": "pass"}}


def test_only_openings_said_to_lead_into_the_dwelling_count() -> None:
    assert prove("cases.json", [case()])[0].verdict == "agrees"
    (counted,) = prove("cases.json", [case(features=[{**WINDOW, "leads_into_dwelling": True}])])
    assert counted.ours == {"verdict": "fail"}


@pytest.mark.parametrize(
    "changed",
    [
        {"rules": [{}]},
        {"rules": []},
        {"rules": ["NO-SUCH-RULE"]},
        {"adoption": "nowhere"},
        {"view": "roof"},
        {"units": [{**UNIT, "x_mm": 1e300}]},
        {"units": [{**UNIT, "w_mm": -1}]},
        {"units": [{**UNIT, "colour": "white"}]},
        {"features": [{**WINDOW, "kind": "letter_box"}]},
        {"facts": {"limits_in": "yards"}},
    ],
    ids=["rule", "no rule", "other rule", "adoption", "view", "far", "negative", "attribute", "kind", "fact"],
)
def test_an_absurd_layout_disagrees_with_a_reason(changed: dict[str, Any]) -> None:
    (outcome,) = prove("cases.json", [case(**changed)])
    assert outcome.verdict == "disagrees"
    assert outcome.reason
    assert outcome.ours == {}


GARAGE = {**UNIT, "x_mm": 2000, "y_mm": 1000, "place": "attached_garage", "d_mm": 200}
LOW_DOOR = {"kind": "garage_door_projection", "x_mm": 600, "w_mm": 4800, "clear_height_mm": 2286}
HIGH_DOOR = {**LOW_DOOR, "clear_height_mm": 2287}


@pytest.mark.parametrize(("door", "required_mm", "condition"), [(LOW_DOOR, 914.4, None), (HIGH_DOOR, 1219.2, "yes")])
def test_the_path_behind_a_low_door_is_lower(door: dict[str, Any], required_mm: float, condition: str | None) -> None:
    changed = {
        "adoption": "us-irc2024",
        "rules": ["CA-IMPACT-PATH"],
        "units": [GARAGE],
        "features": [door],
        "facts": {"limits_in": "ft_in", "garage_wall": "back"},
    }
    asked = case(**changed)
    asked["expected"] = {"verdict": "pass", "required_mm": required_mm, "binding_rule": "CA-IMPACT-PATH"}
    if condition:
        asked["expected"]["condition"] = "vehicle_protection"
    assert prove("cases.json", [asked])[0].verdict == "agrees"


def test_the_width_of_working_space_is_read_in_whole_millimetres_too() -> None:
    panel = {"kind": "panel", "x_mm": 1000, "y_mm": 1000, "w_mm": 360, "h_mm": 800, "d_mm": 100}
    units = [{**GARAGE, "x_mm": 150}, {**GARAGE, "x_mm": 1500}]
    changed = {"rules": ["NEC-WS-WIDTH"], "units": units, "features": [panel], "facts": {"limits_in": "mm"}}
    asked = case(**changed)
    asked["expected"] = {"verdict": "fail", "required_mm": 762, "actual_mm": 650, "binding_rule": "NEC-WS-WIDTH"}
    assert prove("cases.json", [asked])[0].verdict == "agrees"
