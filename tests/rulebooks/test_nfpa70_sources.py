"""Rules that calculation often gets wrong: sources on busbars and feeders, disconnects of storage."""

from standfast.rulebooks.nfpa70 import busbars, feeders, storage
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(number: float | str | bool, unit: str = "", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def amperes(*numbers: float) -> list[Value]:
    return [say(number, "A", f"I_{i}") for i, number in enumerate(numbers)]


def test_outputs_count_not_breakers() -> None:
    assert busbars.sources_125(NEC, amperes(40.0)).quantity == 50


def test_storage_and_solar_on_one_busbar_are_added() -> None:
    assert busbars.sources_125(NEC, amperes(16.0, 24.0)).quantity == 50


def sums(bus: float, main: float, *outputs: float) -> tuple[Value, Value]:
    total = busbars.with_main(NEC, say(main, "A"), busbars.sources_125(NEC, amperes(*outputs)))
    return total, say(bus, "A", "I_bus")


def test_200_on_200_takes_32_amperes_at_the_opposite_end_only() -> None:
    total, bus = sums(200.0, 200.0, 32.0)
    assert busbars.option_1(NEC, "o1", total, bus).verdict == "fail"
    good = busbars.option_2(NEC, "o2", total, bus, say(True))
    assert (good.verdict, good.condition) == ("pass", busbars.DO_NOT_RELOCATE)
    assert busbars.option_2(NEC, "o2", total, bus, say(False)).verdict == "fail"
    assert busbars.room_120(NEC, bus, say(200.0, "A"), False).output.quantity == 32


def test_the_place_on_the_busbar_is_never_guessed() -> None:
    total, bus = sums(200.0, 200.0, 32.0)
    unknown = missing("opposite", "", "panels.main.source_position")
    assert busbars.option_2(NEC, "o2", total, bus, unknown).verdict == "cannot tell"
    assert busbars.option_4(NEC, "o4", total, bus, unknown).verdict == "cannot tell"
    too_much, bus = sums(200.0, 200.0, 33.0)
    assert busbars.option_2(NEC, "o2", too_much, bus, unknown).verdict == "fail"


def test_the_sum_of_devices_may_pass_where_120_percent_fails() -> None:
    total, bus = sums(200.0, 200.0, 48.0)
    assert busbars.option_2(NEC, "o2", total, bus, say(True)).verdict == "fail"
    devices = busbars.devices(NEC, amperes(30.0, 60.0))
    assert busbars.option_3(NEC, "o3", devices, bus, say(200.0, "A", "I_main")).verdict == "pass"
    assert busbars.option_3(NEC, "o3", devices, bus, say(225.0, "A", "I_main")).verdict == "fail"


def test_a_centre_fed_panelboard_takes_sources_at_one_end_only() -> None:
    total, bus = sums(200.0, 200.0, 32.0)
    assert busbars.option_4(NEC, "o4", total, bus, say(True)).verdict == "pass"
    assert busbars.option_4(NEC, "o4", total, bus, say(False)).verdict == "fail"


def test_no_room_is_none_not_less_than_none() -> None:
    assert busbars.room(NEC, say(100.0, "A"), say(125.0, "A")).sources_125.quantity == 0


def test_a_tap_counts_the_source_and_rounds_nothing_up() -> None:
    third = feeders.tap(NEC, say(200.0, "A"), say(60.0, "A"), 25)
    tenth = feeders.tap(NEC, say(200.0, "A"), say(60.0, "A"), 10)
    assert (round(third.quantity, 2), tenth.quantity) == (86.67, 26)


def test_a_device_beyond_the_source_protects_a_small_feeder() -> None:
    needed = feeders.needed_beyond_source(NEC, say(63.0, "A"), amperes(32.0))
    own = say(80.0, "A", "I_z")
    assert needed.quantity == 103
    assert feeders.beyond_source(NEC, "f", own, needed, None).verdict == "fail"
    assert feeders.beyond_source(NEC, "f", own, needed, say(80.0, "A", "I_n")).verdict == "pass"
    assert feeders.beyond_source(NEC, "f", own, needed, say(90.0, "A", "I_n")).verdict == "fail"


def place(inside: bool, in_sight: bool, feet: float, lockable: bool) -> str:
    facts = (say(inside), say(in_sight), say(feet, "ft", "d"), say(lockable))
    return storage.disconnect(NEC, "disconnect", *facts).verdict


def test_a_disconnect_is_inside_or_near_in_sight_or_lockable() -> None:
    assert place(True, False, 99.0, False) == "pass"
    assert place(False, True, 10.0, False) == "pass"
    assert place(False, True, 10.01, False) == "fail"
    assert place(False, False, 2.0, False) == "fail"
    assert place(False, False, 60.0, True) == "pass"


def test_an_unknown_lock_is_not_a_lock() -> None:
    unknown = missing("lockable", "", "switch.lockable_open of the disconnect")
    check = storage.disconnect(NEC, "disconnect", say(False), say(True), say(20.0, "ft", "d"), unknown)
    assert check.verdict == "cannot tell"


def test_storage_of_one_kilowatt_hour_is_below_the_article() -> None:
    assert not storage.in_scope(NEC, say(1.0, "kWh")).yes
    assert storage.in_scope(NEC, say(1.1, "kWh")).yes
