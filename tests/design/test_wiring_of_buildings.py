"""A panel in another building: its feeder, ground, electrode and disconnect, on the demo of the detached garage."""

from importlib.resources import files

import pytest
from damaged_job import swapped

from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import find
from standfast.shelf import edition
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "detached_pair" / "job.toml").read_text("utf-8")
CHOSEN = {"battery": "demo-wall-10", "breaker": "demo-breaker", "disconnect": "demo-disconnect-60"}


def wired(*changes: tuple[str, str]) -> Wiring:
    survey, faults = read(swapped(TEXT, changes))
    assert survey is not None and faults == []
    sheets = {role: sheet for role, id in CHOSEN.items() if (sheet := find(id).sheet) is not None}
    return wire(edition("nfpa70", "2023"), edition("handbook", "2026"), survey, sheets)


def verdict(id: str, *changes: tuple[str, str]) -> str:
    return next(each.verdict for each in wired(*changes).checks if each.id == f"wiring.{id}")


def test_the_garage_of_the_demo_passes() -> None:
    found = wired()
    assert [each.id for each in found.checks if each.open] == []
    assert {each.id.removeprefix("wiring.") for each in found.checks if "building-" in each.id} == {
        f"building-{what}/garage"
        for what in (
            "supply",
            "disconnect",
            "disconnect-rating",
            "neutral",
            "ground",
            "electrode",
            "electrode-conductor",
        )
    }


@pytest.mark.parametrize(
    ("id", "old", "new", "expected"),
    [
        ("building-disconnect", 'building_disconnect = "in the panel"', 'building_disconnect = "none"', "fail"),
        ("building-disconnect", 'building_disconnect = "in the panel"\n', "", "cannot tell"),
        ("building-disconnect-rating", 'building_disconnect = "in the panel"',
         'building_disconnect = "outside on the building"', "cannot tell"),
        ("building-ground", 'ground = "8"', 'ground = "10"', "fail"),
        ("building-ground", ' ground = "8",', "", "cannot tell"),
        ("building-ground", 'raceway = "pvc-40"\ntrade_size = "1-1/2"\nconductors = { size = "3", material = "cu", '
         'insulation = "thhn", ground = "8",', 'raceway = "rmc"\ntrade_size = "1-1/2"\nconductors = { size = "3", '
         'material = "cu", insulation = "thhn",', "pass"),
        ("building-neutral", "neutral_bonded = false", "neutral_bonded = true", "fail"),
        ("building-electrode", 'electrodes = ["ground rods"]\n', "", "cannot tell"),
        ("building-electrode-conductor", 'electrode_conductor = { size = "6"', 'electrode_conductor = { size = "10"',
         "fail"),
    ],
)  # fmt: skip
def test_what_the_garage_needs(id: str, old: str, new: str, expected: str) -> None:
    assert verdict(f"{id}/garage", (old, new)) == expected


def test_a_small_disconnect_fails() -> None:
    garage = TEXT[TEXT.index('id = "garage"\nname') :]
    main = next(line for line in garage.split("\n") if line.startswith("main = "))
    assert verdict("building-disconnect-rating/garage", (garage, garage.replace(main, 'main = "40 A"', 1))) == "fail"


def test_a_second_feeder_into_the_building_fails() -> None:
    second = '[[panels]]\nid = "annex"\nfed_from = "main"\nbuilding = "garage"\nstate = "existing"\n\n[loads]'
    assert verdict("building-supply/garage", ("[loads]", second)) == "fail"


def test_the_way_to_the_service_counts_for_every_unit_that_charges_and_feeds() -> None:
    found = wired()
    (feeder,) = found.feeders
    for own in found.units:
        assert own.rise.volts.quantity > own.drop.volts.quantity * 24 / 21
    far = wired(('length = "62 ft"', 'length = "620 ft"'))
    change = far.units[0].fall.percent.quantity - far.units[0].drop.percent.quantity
    before = found.units[0].fall.percent.quantity - found.units[0].drop.percent.quantity
    assert change == pytest.approx(10 * before)
    assert next(each for each in far.checks if each.id == "wiring.voltage-drop-whole/battery-1").verdict == "fail"
    assert feeder.built is None
