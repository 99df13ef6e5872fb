"""The graph of the installation: paths and who can feed what."""

import itertools

import pytest

from standfast.design.installation import Installation, Link, Part
from standfast.faults import BadFormula


def part(id: str, kind: str) -> Part:
    return Part(id, kind, id, {}, True)  # type: ignore[arg-type]


@pytest.fixture
def house() -> Installation:
    parts = [
        part("utility", "utility"),
        part("main", "breaker"),
        part("bus", "busbar"),
        part("load", "load"),
        part("battery breaker", "breaker"),
        part("isolator", "disconnect"),
        part("inverter", "inverter"),
        part("battery", "battery"),
        part("rod", "electrode"),
    ]
    chain = ["utility", "main", "bus", "battery breaker", "isolator", "inverter", "battery"]
    links = [Link(f"{a}-{b}", a, b, "conductor") for a, b in itertools.pairwise(chain)]
    return Installation(parts, [*links, Link("tap", "bus", "load", "busbar"), Link("bond", "bus", "rod", "bond")])


def test_path_runs_from_battery_to_utility(house: Installation) -> None:
    assert [each.id for each in house.path("inverter", "bus")] == ["inverter", "isolator", "battery breaker", "bus"]
    assert [each.id for each in house.busbars_to_utility("inverter")] == ["bus"]


def test_a_load_is_fed_from_both_sides_until_one_switch_is_open(house: Installation) -> None:
    assert [each.id for each in house.feeding("load")] == ["utility", "inverter"]
    assert [each.id for each in house.feeding("load", frozenset({"main"}))] == ["inverter"]
    assert house.feeding("load", frozenset({"main", "isolator"})) == []


def test_an_open_switch_stays_live_on_its_fed_side(house: Installation) -> None:
    assert [each.id for each in house.feeding("isolator", frozenset({"isolator"}))] == ["utility", "inverter"]


def test_the_ground_is_no_way_for_power(house: Installation) -> None:
    assert house.path("rod", "utility") == []


def test_a_link_to_nothing_is_refused() -> None:
    with pytest.raises(BadFormula, match="no part"):
        Installation([part("bus", "busbar")], [Link("l", "bus", "gone", "conductor")])
