"""The graph of several units, and of an inverter that stands by itself."""

import pytest

from standfast.design.installation import Installation
from standfast.design.installation.build import battery_way, build
from standfast.survey.read import Survey, read

HEAD = """
schema = 1
[job]
name = "Graph test (invented)"
invented = true
date = 2026-05-04
adoption = "us-2021"
"""


def panel(id: str, feeds: str = "", more: str = "") -> str:
    circuits = "".join(f'[[panels.circuits]]\nid = "{each}"\nfeeds = "{each}"\n' for each in feeds.split())
    return f'[[panels]]\nid = "{id}"\nfed_from = "utility"\nstate = "existing"\n{more}{circuits}'


def routes(*pairs: str) -> str:
    made = [each.split(" > ") for each in pairs]
    return "".join(f'[[routes]]\nid = "{a}-run"\nfrom = "{a}"\nto = "{b}"\n' for a, b in made)


PAIR = (
    HEAD
    + panel("garage", "battery-1 battery-2")
    + '[equipment]\nbattery = "demo-wall-10"\nquantity = 2\n'
    + routes("battery-1 > disconnect-1", "disconnect-1 > garage", "battery-2 > disconnect-2", "disconnect-2 > garage")
)
HYBRID = (
    HEAD
    + panel("main", "inverter")
    + '[equipment]\nbattery = "stack"\ninverter = "hybrid"\ndc_overcurrent = "some-fuse"\n'
    + '[[arrays]]\nid = "south"\nname = "South roof"\n'
    + routes("main > disconnect", "disconnect > inverter", "dc-disconnect > inverter", "battery > dc-disconnect")
    + routes("south > inverter")
)


def job(text: str) -> Survey:
    survey, faults = read(text)
    assert survey is not None and faults == []
    return survey


def told(text: str) -> list[str]:
    return [f"{fault.what}: {fault.why}" for fault in read(text).faults]


def ids(graph: Installation, start: str, end: str) -> list[str]:
    return [part.id for part in graph.path(start, end)]


def test_every_unit_has_its_own_breaker_disconnect_and_chain() -> None:
    graph = build(job(PAIR), {})
    for unit in ("battery-1", "battery-2"):
        parts = [f"{unit}/breaker", f"{unit}/disconnect", f"{unit}/inverter", unit]
        assert ids(graph, "garage", unit) == ["garage", *parts]
        assert [link.id for link in graph.conductors(f"{unit}/breaker", f"{unit}/inverter")] == [
            f"{unit.replace('battery', 'disconnect')}-run",
            f"{unit}-run",
        ]
    assert [each.id for each in graph.feeding("garage")] == ["utility", "battery-1/inverter", "battery-2/inverter"]
    assert battery_way(job(PAIR), "battery-2") == ["garage", "disconnect-2", "battery-2"]


def test_behind_an_inverter_stand_batteries_and_arrays() -> None:
    graph = build(job(HYBRID), {})
    assert ids(graph, "main", "battery-1") == [
        "main", "inverter-1/breaker", "inverter-1/disconnect", "inverter-1", "battery-1/dc-disconnect",
        "battery-1/dc-overcurrent", "battery-1",
    ]  # fmt: skip
    assert [each.id for each in graph.feeding("main")] == ["utility", "inverter-1"]
    assert [each.id for each in graph.feeding("battery-1/dc-disconnect")] == ["inverter-1", "battery-1"]
    opened = frozenset({"battery-1/dc-disconnect", "inverter-1/disconnect"})
    assert [each.id for each in graph.feeding("inverter-1", opened)] == ["inverter-1", "south"]
    kinds = {part.id: (part.kind, part.role) for part in graph.parts.values()}
    assert kinds["south"] == ("array", "")
    assert kinds["battery-1/dc-overcurrent"] == ("fuse", "dc_overcurrent")
    assert kinds["inverter-1"] == ("inverter", "inverter")


def test_a_fuse_that_routes_lead_through_stands_by_itself() -> None:
    led = HYBRID.replace('to = "dc-disconnect"', 'to = "fuse"', 1) + routes("fuse > dc-disconnect")
    graph = build(job(led), {})
    chain = ["inverter-1", "battery-1/dc-disconnect", "battery-1/dc-overcurrent", "battery-1"]
    assert ids(graph, "inverter-1", "battery-1") == chain
    kinds = [(link.id, link.kind) for link in graph.conductors("inverter-1", "battery-1")]
    assert kinds == [("dc-disconnect-run", "conductor"), ("fuse-run", "conductor"), ("battery-run", "conductor")]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (HYBRID.replace('dc_overcurrent = "some-fuse"\n', "") + routes("fuse > inverter"), "no DC fuse is chosen"),
        (HYBRID + routes("fuse > main"), "a DC fuse stands between a battery and the inverter"),
        (HYBRID + routes("fuse-2 > inverter"), "quantity is 1"),
        (PAIR + routes("fuse-1 > garage"), "no inverter is chosen"),
    ],
)
def test_a_fuse_that_is_not_there_is_a_fault(text: str, why: str) -> None:
    assert any(why in each for each in told(text)), told(text)


def test_batteries_in_a_row_share_the_last_run() -> None:
    both = HYBRID.replace('battery = "stack"', 'battery = "stack"\nquantity = 2').replace(
        '"dc-disconnect', '"dc-disconnect-1'
    )
    row = both.replace('from = "battery"', 'from = "battery-1"') + routes("battery-2 > battery-1")
    graph = build(job(row), {})
    assert ids(graph, "inverter-1", "battery-2") == [
        "inverter-1", "battery-1/dc-disconnect", "battery-1/dc-overcurrent", "battery-2/dc-overcurrent", "battery-2",
    ]  # fmt: skip


def test_a_panel_in_another_building_has_electrodes_of_its_own() -> None:
    land = '[[land.buildings]]\nid = "shed"\noutline = [["0 ft", "0 ft"], ["9 ft", "0 ft"], ["9 ft", "9 ft"]]\n'
    graph = build(job(HEAD + land + panel("garage", more='building = "shed"\nelectrodes = ["ground rods"]\n')), {})
    assert [link.b for link in graph.links if link.kind == "bond"] == [
        "grounding-electrode",
        "garage/grounding-electrode",
    ]


def test_what_the_routes_cannot_mean_is_told() -> None:
    assert told(PAIR.replace('to = "disconnect-2"', 'to = "disconnect-1"')) == [
        'route "battery-2-run" joins "battery-2" and "disconnect-1": that disconnect belongs to another unit'
    ]
    assert told(PAIR.replace('"battery-2"\nto', '"battery"\nto')) == [
        'route "battery-2-run" is joined to "battery": there are 2 units'
    ]
    assert "quantity is 1" in "".join(told(PAIR.replace("quantity = 2", "quantity = 1")))
    without = told(HYBRID.replace('inverter = "hybrid"\n', "").replace('"inverter"\nfeeds = "inverter"', '"dryer"'))
    assert (
        'route "dc-disconnect-run" is joined to "dc-disconnect": no inverter is chosen beside the battery unit'
        in without
    )
    assert told(HYBRID + routes("battery-1 > main")) == [
        'route "battery-1-run" joins "battery-1" and "main": '
        "an inverter is chosen: the unit gives DC and is joined to it"
    ]
    assert told(HYBRID.replace('from = "south"\nto = "inverter"', 'from = "south"\nto = "main"')) == [
        'route "south-run" joins "south" and "main": a PV array is joined to the inverter'
    ]


def test_a_circuit_is_in_the_panel_that_its_routes_lead_to() -> None:
    two = PAIR.replace(
        panel("garage", "battery-1 battery-2"), panel("garage", "battery-1") + panel("main", "battery-2")
    )
    assert told(two) == [
        '"battery-2" is the circuit of battery-2, in the panel "main": its routes lead to the panel "garage"'
    ]
    twice = PAIR.replace('id = "battery-2"\nfeeds = "battery-2"', 'id = "other"\nfeeds = "battery-1"')
    assert told(twice) == ["two circuits are those of battery-1: garage.battery-1 and garage.other: it has one breaker"]
