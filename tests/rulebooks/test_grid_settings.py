"""Settings of the grid interface: shape of the data, refusals, and what must hold between defaults and ranges."""

import pytest

from standfast import shelf
from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.asnzs4777_2 import settings as australian
from standfast.rulebooks.erec import settings as british
from standfast.rulebooks.ieee1547 import functions, ride_through, trips
from standfast.sheet import Value, given, missing

IEEE, AMENDED = shelf.edition("ieee1547", "2018"), shelf.edition("ieee1547", "2018-a1")
EREC = shelf.edition("erec", "2019")
AS2020, AS2015 = shelf.edition("asnzs4777_2", "2020"), shelf.edition("asnzs4777_2", "2015")
CATEGORIES = ("i", "ii", "iii")
REGIONS = ("australia_a", "australia_b", "australia_c", "new_zealand")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


@pytest.mark.parametrize("category", CATEGORIES)
def test_every_default_trip_lies_in_its_range(category: str) -> None:
    for function, allowed in trips.ranges(IEEE, category).items():
        voltage = function in trips.VOLTAGE
        trip = trips.voltage_trip(IEEE, category, function) if voltage else trips.frequency_trip(IEEE, function)
        assert allowed.least.quantity <= trip.threshold.quantity <= allowed.greatest.quantity, function
        assert allowed.least_time.quantity <= trip.clearing.quantity <= allowed.greatest_time.quantity, function


def test_entering_service_lies_in_its_ranges() -> None:
    ranges = functions.enter_service_ranges(IEEE)
    for field, default in functions.enter_service(IEEE)._asdict().items():
        low, high = ranges[field]
        assert low.quantity <= default.quantity <= high.quantity, field


def test_without_a_category_only_frequencies_have_ranges() -> None:
    assert set(trips.ranges(IEEE, "")) == set(trips.FREQUENCY)
    with pytest.raises(OutsideTable, match="'iv'"):
        trips.ranges(IEEE, "iv")


def test_an_amendment_holds_what_it_changed_and_borrows_nothing() -> None:
    assert set(trips.ranges(AMENDED, "iii")) == {"uv1", "uv2"}
    with pytest.raises(NotInEdition):
        trips.voltage_trip(AMENDED, "iii", "ov1")


@pytest.mark.parametrize("category", CATEGORIES)
def test_ride_through_ends_before_the_default_trip(category: str) -> None:
    for function, inside in (("ov1", 0.001), ("uv1", -0.001)):
        trip = trips.voltage_trip(IEEE, category, function)
        voltage = of(trip.threshold.quantity + inside, "pu")
        assert ride_through.voltage_time(IEEE, category, voltage).quantity <= trip.clearing.quantity


@pytest.mark.parametrize("category", ["i", "ii"])
def test_the_line_of_ride_through_rises_with_the_voltage(category: str) -> None:
    low, high = (ride_through.voltage_time(IEEE, category, of(v, "pu")).quantity for v in (0.75, 0.85))
    assert low < high


@pytest.mark.parametrize("voltage", [0.88, 1.0, 1.1, 1.21])
def test_no_least_time_in_continuous_operation_nor_beyond_all_regions(voltage: float) -> None:
    with pytest.raises(OutsideTable):
        ride_through.voltage_time(IEEE, "iii", of(voltage, "pu"))


@pytest.mark.parametrize("frequency", [56.9, 58.8, 60.0, 61.2, 61.9])
def test_no_least_time_at_these_frequencies(frequency: float) -> None:
    with pytest.raises(OutsideTable):
        ride_through.frequency_time(IEEE, of(frequency, "Hz"))


def test_a_missing_voltage_or_frequency_gives_no_time() -> None:
    for unit, ask in (("pu", lambda v: ride_through.voltage_time(IEEE, "ii", v)), ("Hz", _frequency_time)):
        found = ask(missing("x", unit, "measure it"))
        assert found.missing
        assert found.how == "measure it"


def _frequency_time(frequency: Value) -> Value:
    return ride_through.frequency_time(IEEE, frequency)


def test_a_greater_category_rides_through_more_change_of_frequency() -> None:
    rates = [ride_through.rate_of_change(IEEE, category).quantity for category in CATEGORIES]
    assert rates == sorted(set(rates))


@pytest.mark.parametrize("category", ["a", "b"])
def test_volt_var_supplies_below_and_absorbs_above(category: str) -> None:
    curve = functions.volt_var(IEEE, category)
    assert [v.quantity for v in curve.v] == sorted(v.quantity for v in curve.v)
    assert curve.q[0].quantity > 0 > curve.q[3].quantity
    assert functions.volt_watt(IEEE).v1.quantity < functions.volt_watt(IEEE).v2.quantity


@pytest.mark.parametrize("region", REGIONS)
def test_every_region_has_its_curves_and_trips(region: str) -> None:
    curve, watt = australian.volt_var(AS2020, region), australian.volt_watt(AS2020, region)
    assert [v.quantity for v in curve.v] == sorted(v.quantity for v in curve.v)
    assert curve.q[0].quantity > 0 > curve.q[3].quantity
    assert watt.v1.quantity < watt.v2.quantity
    stages = [australian.voltage_trip(AS2020, region, name) for name in ("uv2", "uv1", "ov1", "ov2")]
    assert [stage.threshold.quantity for stage in stages] == sorted(stage.threshold.quantity for stage in stages)
    for stage in [*stages, australian.frequency_trip(AS2020, region, "uf1")]:
        assert stage.delay is None or stage.delay.quantity < stage.longest.quantity


def test_a_region_without_a_figure_is_not_in_the_edition() -> None:
    with pytest.raises(OutsideTable):
        australian.sustained_voltage(AS2020, "new_zealand")
    assert australian.reconnection(AS2020, "australia_c").v_low is None


def test_a_network_has_its_own_rule_or_none() -> None:
    own = australian.rule_of(AS2015, "au", "western_power").word
    assert australian.volt_var(AS2015, own).v != australian.volt_var(AS2015, "australia").v
    with pytest.raises(OutsideTable):
        australian.rule_of(AS2020, "au", "a network of no name")


def test_british_volts_follow_from_the_nominal_voltage() -> None:
    nominal = EREC.number("nominal_voltage").quantity
    for function in ("uv1", "ov1", "ov2"):
        trip = british.voltage_trip(EREC, function)
        assert trip.threshold.quantity == pytest.approx(trip.per_unit.quantity * nominal)
    assert british.frequency_trip(EREC, "uf2").delay.quantity < british.frequency_trip(EREC, "uf1").delay.quantity
    with pytest.raises(OutsideTable):
        british.frequency_trip(EREC, "of2")
