"""The label schedule follows the installation."""

import itertools

import pytest

from standfast.design.installation import Installation, Link, Part
from standfast.design.labels import schedule
from standfast.shelf import edition


@pytest.fixture
def house() -> Installation:
    def part(id: str, kind: str, name: str, existing: bool = False) -> Part:
        return Part(id, kind, name, {}, existing)  # type: ignore[arg-type]

    parts = [
        part("utility", "utility", "Utility", True),
        part("service-disconnect", "breaker", "Service disconnect", True),
        part("main", "busbar", "Main panel", True),
        part("battery-1/breaker", "breaker", "Battery 1 breaker"),
        part("battery-1/disconnect", "disconnect", "Battery 1 disconnect"),
        part("battery-1/inverter", "inverter", "Battery 1 inverter"),
        part("battery-1", "battery", "Battery 1"),
    ]
    ids = [each.id for each in parts]
    return Installation(parts, [Link(f"{a}-{b}", a, b, "internal", {}) for a, b in itertools.pairwise(ids)])


def test_the_option_of_the_busbar_calls_for_its_warning(house: Installation) -> None:
    book = edition("nfpa70", "2023")
    plain = [label.wording for label in schedule(book, house, {"main": 1}, backup=False)]
    opposite = [label.wording for label in schedule(book, house, {"main": 2}, backup=False)]
    summed = [label.wording for label in schedule(book, house, {"main": 3}, backup=False)]
    assert not any("WARNING" in wording for wording in plain)
    assert sum("DO NOT RELOCATE" in wording for wording in opposite) == 1
    assert sum("MULTIPLE SOURCES" in wording for wording in summed) == 1


def test_every_label_names_its_clause_and_a_device_of_the_graph(house: Installation) -> None:
    labels = schedule(edition("nfpa70", "2023"), house, {"main": 2}, backup=True)
    names = {part.name for part in house.parts.values()}
    assert [label.id for label in labels] == [f"L{n}" for n in range(1, len(labels) + 1)]
    for label in labels:
        assert label.at in names
        assert label.clause.edition == "2023"
        assert "{" not in label.wording
    assert any(label.clause.clause == "702.7(A)" for label in labels)


def test_the_directory_names_both_sources(house: Installation) -> None:
    directory = next(label for label in schedule(edition("nfpa70", "2023"), house, {"main": 1}, backup=False))
    assert "UTILITY, SERVICE DISCONNECT" in directory.wording
    assert "BATTERY 1 (ENERGY STORAGE), BATTERY 1 DISCONNECT" in directory.wording
