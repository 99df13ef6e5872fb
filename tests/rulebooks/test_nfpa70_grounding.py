"""Rules that calculation often gets wrong: grounding, bonding."""

import pytest

from standfast.rulebooks.nfpa70 import grounding
from standfast.sheet import Value, given
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(number: float | str, unit: str = "") -> Value:
    return given("x", number, unit, "test")


def test_the_ground_goes_by_the_device() -> None:
    sizes = [grounding.equipment(NEC, say("cu"), say(rating, "A")).word for rating in (15.0, 20.0, 30.0, 60.0, 61.0)]
    assert sizes == ["14", "12", "10", "10", "8"]


def test_upsizing_compares_strictly_one_mil_short_is_short() -> None:
    # 10 AWG × 41,740 / 16,510 = 26,242 circular mils: 6 AWG has 26,240.
    found = grounding.equipment_upsized(NEC, say("10"), say("8"), say("4"))
    assert found.area.quantity == pytest.approx(26242.4, abs=0.1)
    assert found.size.word == "4"


def test_the_ground_never_grows_beyond_the_circuit_conductors() -> None:
    assert grounding.equipment_upsized(NEC, say("10"), say("14"), say("12")).size.word == "12"
    assert grounding.equipment_capped(NEC, say("8"), say("10")).word == "10"
    assert grounding.equipment_capped(NEC, say("10"), say("8")).word == "10"


def test_a_smaller_conductor_never_shrinks_the_ground() -> None:
    assert grounding.equipment_upsized(NEC, say("10"), say("6"), say("8")).size.word == "10"
    assert grounding.equipment_upsized(NEC, say("10"), say("4"), say("6")).area.quantity == 10380


@pytest.mark.parametrize(
    ("size", "sets", "electrode", "expected"),
    [("2", 1.0, "other", "8"), ("2/0", 1.0, "other", "4"), ("3/0", 2.0, "other", "2"), ("600", 3.0, "other", "3/0"),
     ("3/0", 2.0, "rod", "6"), ("3/0", 2.0, "concrete", "4"), ("2", 1.0, "rod", "8")],
)  # fmt: skip
def test_electrode_conductor_adds_parallel_areas_and_stops_at_the_caps(
    size: str, sets: float, electrode: str, expected: str
) -> None:
    assert grounding.electrode(NEC, say("cu"), say(size), say(sets, "1"), say("cu"), electrode).word == expected


def test_the_jumper_goes_on_growing_beyond_its_table() -> None:
    within = grounding.bonding_jumper(NEC, say("cu"), say("500"), say(2.0, "1"), say("cu"))
    assert (within.size.word, within.least_area) == ("2/0", None)
    beyond = grounding.bonding_jumper(NEC, say("cu"), say("500"), say(3.0, "1"), say("cu"))
    assert beyond.least_area is not None
    assert (beyond.least_area.quantity, beyond.size.word) == (187_500, "4/0")


def test_a_copper_jumper_of_aluminium_conductors_goes_by_copper_of_the_same_ampacity() -> None:
    # 500 kcmil Al carries 310 A; the same in copper is 350 kcmil: 4 × 350,000 × 12.5 % = 175,000 circular mils.
    found = grounding.bonding_jumper(NEC, say("al"), say("500"), say(4.0, "1"), say("cu"))
    assert found.least_area is not None
    assert (found.least_area.quantity, found.size.word) == (175_000, "4/0")
