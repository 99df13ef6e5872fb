"""Australian wiring rules: points of Table C1, loops, earthing conductors, voltage along cables, size of a system."""

import pytest

from standfast import shelf
from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.asnzs3000 import demand, protection
from standfast.rulebooks.asnzs3008 import cables
from standfast.rulebooks.asnzs4777 import system
from standfast.rulebooks.iec60364 import cables as international
from standfast.sheet import Value, given, missing

RULES, CABLES = shelf.edition("asnzs3000", "2018"), shelf.edition("asnzs3008", "2017")
BASE = shelf.edition("iec60364", "2009")
GRID_2016, GRID_2024 = shelf.edition("asnzs4777", "2016"), shelf.edition("asnzs4777", "2024")
FLAT, ARMOURED = "70 °C thermoplastic, flat with protective conductor", "90 °C thermosetting, armoured"


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


# The worked example of a teacher of the trade: 34 lighting points, 43 socket-outlets, an oven of 22.6 A, a room air
# conditioner of 16 A.
def test_the_demand_of_a_printed_example() -> None:
    assert demand.lights(RULES, of(34, "1")).quantity == 5
    assert demand.sockets(RULES, of(43, "1")).quantity == 20
    assert demand.cooking(RULES, of(22.6, "A")).quantity == pytest.approx(11.3)
    assert demand.climate(RULES, of(16, "A")).quantity == pytest.approx(12)


@pytest.mark.parametrize(("points", "amps"), [(0, 0), (1, 3), (20, 3), (21, 5), (40, 5), (41, 7)])
def test_each_further_twenty_points_add_as_a_whole(points: int, amps: float) -> None:
    assert demand.lights(RULES, of(points, "1")).quantity == amps


def test_points_that_nobody_counted_are_no_load_of_zero() -> None:
    assert demand.lights(RULES, missing("n", "1", "count them")).missing


def test_times_and_trips() -> None:
    supply = "multiple earthed neutral"
    assert protection.disconnection_time(RULES, supply, final=True).quantity == 0.4
    assert protection.disconnection_time(RULES, supply, final=False).quantity == 5
    with pytest.raises(NotInEdition, match="TT"):
        protection.disconnection_time(RULES, "TT", final=True)
    multiples = [protection.trip_multiple(RULES, curve).quantity for curve in "BCD"]
    assert multiples == sorted(multiples)


@pytest.mark.parametrize(("area", "earth"), [(1.5, 1.5), (2.5, 2.5), (6, 2.5), (10, 4), (16, 6), (20, 6), (35, 10)])
def test_the_earthing_conductor_follows_the_active_conductor(area: float, earth: float) -> None:
    assert protection.earthing_conductor(RULES, of(area, "mm2")).quantity == earth


def test_a_residual_device_need_not_trip_below_its_rating() -> None:
    assert protection.residual_time(RULES, of(1, "1"), delayed=False).quantity == 0.3
    assert protection.residual_time(RULES, of(50, "1"), delayed=False).quantity == 0.04
    with pytest.raises(OutsideTable):
        protection.residual_time(RULES, of(0.9, "1"), delayed=False)


@pytest.mark.parametrize(
    ("asked", "kinds"), [("none", ("A", "B", "F")), ("A", ("A", "B", "F")), ("F", ("B", "F")), ("B", ("B",))]
)
def test_a_kind_sees_what_the_maker_asks_and_is_never_type_ac(asked: str, kinds: tuple[str, ...]) -> None:
    assert protection.kinds_enough(RULES, given("asked", asked, "", "test")).number == kinds


@pytest.mark.parametrize("cable", [FLAT, ARMOURED])
def test_voltage_along_a_cable_is_its_resistance_there_and_back(cable: str) -> None:
    area = of(6, "mm2")
    one = cables.resistance(CABLES, area).quantity * cables.warm_factor(CABLES, cable).quantity
    assert cables.three_phase_drop(CABLES, cable, area).quantity == pytest.approx(3**0.5 * one)
    assert cables.single_phase_drop(CABLES, cable, area).quantity == pytest.approx(2 * one, rel=5e-4)


def test_a_larger_conductor_carries_more_and_drops_less() -> None:
    areas = international.areas(BASE, "pvc70")
    carried = [international.capacity(BASE, "pvc70", FLAT, "C", 2, of(each, "mm2")).quantity for each in areas]
    dropped = [cables.single_phase_drop(CABLES, FLAT, of(each, "mm2")).quantity for each in areas]
    assert carried == sorted(carried)
    assert dropped == sorted(dropped, reverse=True)
    assert international.capacity(BASE, "pvc70", FLAT, "C", 3, of(6, "mm2")).quantity == 41


def test_heat_and_company_lower_what_a_cable_carries() -> None:
    assert international.ambient_factor(BASE, "pvc70", of(40, "°C")).quantity == 0.87
    assert international.ambient_factor(BASE, "pvc70", of(42, "°C")).quantity == 0.79
    assert international.grouping_factor(BASE, of(2, "1")).quantity == 0.8
    assert international.grouping_factor(BASE, of(10, "1")).quantity == 0.45
    with pytest.raises(OutsideTable):
        international.capacity(BASE, "pvc70", FLAT, "E", 2, of(6, "mm2"))


def test_the_edition_of_2024_limits_single_phase_systems_and_that_of_2016_does_not_say() -> None:
    assert system.single_phase(GRID_2024, "size", of(30_000, "VA")).verdict == "pass"
    assert system.single_phase(GRID_2024, "size", of(30_001, "VA")).verdict == "fail"
    assert system.without_interface_protection(GRID_2024, "size", of(200_000, "VA")).verdict == "pass"
    with pytest.raises(NotInEdition):
        system.single_phase(GRID_2016, "size", of(5_000, "VA"))
    assert system.balanced(GRID_2016, "balance", of(5_001, "VA")).verdict == "fail"
