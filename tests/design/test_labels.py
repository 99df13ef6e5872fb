"""The label schedule follows the installation."""

import itertools
from importlib.resources import files

import pytest

from standfast.design import labels
from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.build import build
from standfast.design.labels.places import at as place_of
from standfast.design.labels.places import facing
from standfast.rulebooks.nfpa70.marking import mark
from standfast.sheet import Value, given
from standfast.shelf import edition
from standfast.survey.model import Job
from standfast.survey.read import read

DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


PLACES = {"service-disconnect": "in hall", "battery-1/disconnect": "in utility room, east wall", "main/sun": "in hall"}


@pytest.fixture
def house() -> Installation:
    def part(id: str, kind: str, name: str, existing: bool = False) -> Part:
        return Part(id, kind, name, {}, existing)  # type: ignore[arg-type]

    parts = [
        part("utility", "utility", "Utility", True),
        part("emergency-disconnect", "disconnect", "Emergency disconnect", True),
        part("service-disconnect", "breaker", "Service disconnect", True),
        part("main", "busbar", "Main panel", True),
        part("battery-1/breaker", "breaker", "Battery 1 breaker"),
        part("battery-1/disconnect", "disconnect", "Battery 1 disconnect"),
        part("battery-1/inverter", "inverter", "Battery 1 inverter"),
        part("battery-1", "battery", "Battery 1"),
    ]
    ids = [each.id for each in parts]
    more = [
        part("main/sun", "breaker", "Sun breaker", True),
        part("main/sun/source", "inverter", "Sun", True),
        part("emergency-shutdown", "shutdown switch", "Emergency shutdown switch"),
    ]
    ways = [*itertools.pairwise(ids), ("main", "main/sun"), ("main/sun", "main/sun/source")]
    return Installation([*parts, *more], [Link(f"{a}-{b}", a, b, "internal") for a, b in ways])


def schedule(
    house: Installation, options: dict[str, int], *, backup: bool = False, telephone: str = ""
) -> dict[str, list[str]]:
    """Where each wording of the schedule goes."""
    found: dict[str, list[str]] = {}
    book = edition("nfpa70", "2023")
    for label in labels.schedule(book, house, options, backup=backup, telephone=telephone, places=PLACES):
        found.setdefault(label.wording, []).append(label.at)
    return found


def at(found: dict[str, list[str]], text: str) -> list[str]:
    return [device for wording, devices in found.items() if text in wording for device in devices]


def test_the_option_of_the_busbar_calls_for_its_warning(house: Installation) -> None:
    plain, opposite, summed = (schedule(house, {"main": option}) for option in (1, 2, 3))
    assert at(plain, "RELOCATE") == at(plain, "EXCLUDING MAIN") == []
    assert at(opposite, "RELOCATE") == ["Battery 1 breaker", "Sun breaker"]
    assert at(summed, "EXCLUDING MAIN") == ["Main panel"]


def test_every_label_names_its_clause_and_a_device_of_the_graph(house: Installation) -> None:
    found = labels.schedule(edition("nfpa70", "2023"), house, {"main": 2}, backup=True)
    names = {part.name for part in house.parts.values()}
    assert [label.id for label in found] == [f"L{n}" for n in range(1, len(found) + 1)]
    for label in found:
        assert label.at in names
        assert label.clause.edition == "2023"
        assert "{" not in label.wording


def test_the_directory_names_every_source_and_whom_to_call(house: Installation) -> None:
    found = schedule(house, {}, telephone="555-0101")
    (wording,) = [text for text, devices in found.items() if devices == ["Service disconnect"]]
    assert wording.startswith("CAUTION: MULTIPLE SOURCES OF POWER. UTILITY, SERVICE DISCONNECT IN HALL;")
    assert (
        "BATTERY 1 (ENERGY STORAGE), BATTERY 1 DISCONNECT IN UTILITY ROOM, EAST WALL; SUN (POWER SOURCE), SUN BREAKER "
        "IN HALL" in wording
    )
    assert wording.endswith("EMERGENCY TELEPHONE 555-0101")
    assert at(schedule(house, {}), "EMERGENCY TELEPHONE ________") == ["Service disconnect"]


def test_what_first_responders_read_stands_at_the_emergency_disconnect(house: Installation) -> None:
    found = schedule(house, {}, backup=True)
    assert at(found, "OTHER ENERGY SOURCES ARE ISOLATED AT: BATTERY 1") == ["Emergency disconnect"]
    assert at(found, "OPTIONAL STANDBY SOURCE") == ["Emergency disconnect"]
    parts = [part for part in house.parts.values() if part.id != "emergency-disconnect"]
    links = [link for link in house.links if "emergency-disconnect" not in (link.a, link.b)]
    inside = schedule(Installation(parts, links), {}, backup=True)
    assert at(inside, "OPTIONAL STANDBY SOURCE") == ["Service disconnect"]
    assert at(inside, "ISOLATED AT") == []


def test_the_emergency_shutdown_is_marked_at_its_switch_not_at_the_disconnect(house: Installation) -> None:
    assert at(schedule(house, {}), "EMERGENCY SHUTDOWN") == ["Emergency shutdown switch"]
    assert "ENERGY STORAGE SYSTEM EMERGENCY SHUTDOWN" not in at(schedule(house, {}), "Battery 1 disconnect")


def test_a_disconnect_between_two_sources_warns_of_both_sides(house: Installation) -> None:
    live = "LINE AND LOAD SIDES MAY BE ENERGIZED"
    assert at(schedule(house, {}, backup=True), live) == ["Battery 1 disconnect"]
    assert at(schedule(house, {}, backup=False), live) == []
    assert at(schedule(house, {}), "NOMINAL NOT KNOWN AC, MAXIMUM NOT KNOWN DC") == ["Battery 1 disconnect"]


def test_a_unit_without_a_disconnect_of_its_own_carries_the_mark_itself(house: Installation) -> None:
    gone = [part for part in house.parts.values() if part.id != "battery-1/disconnect"]
    links = [link for link in house.links if "battery-1/disconnect" not in (link.a, link.b)]
    links.append(Link("new", "battery-1/breaker", "battery-1/inverter", "internal"))
    found = schedule(Installation(gone, links), {}, backup=True)
    assert at(found, "ENERGY STORAGE SYSTEM DISCONNECT") == ["Battery 1"]
    assert at(found, "LINE AND LOAD") == []


def test_an_inverter_with_arrays_and_a_battery_in_another_building_have_their_signs() -> None:
    def part(id: str, kind: str, name: str, role: str = "", existing: bool = False, **facts: Value) -> Part:
        return Part(id, kind, name, facts, existing, role)  # type: ignore[arg-type]

    shut = given("rapid_shutdown", True, "", "test")
    parts = [
        part("utility", "utility", "Utility", existing=True),
        part("service-disconnect", "breaker", "Service disconnect", existing=True),
        part("garage", "busbar", "Garage panel", existing=True),
        part("inverter-1/breaker", "breaker", "Inverter breaker", "breaker"),
        part("inverter-1/disconnect", "disconnect", "Inverter disconnect", "disconnect"),
        part("inverter-1", "inverter", "Inverter", "inverter", ac_voltage=given("U", 240.0, "V", "test")),
        part("battery-1/dc-disconnect", "disconnect", "Battery 1 DC disconnect", "dc_disconnect"),
        part("battery-1", "battery", "Battery 1", "battery", dc_voltage=given("U_dc", 270.0, "V", "test")),
    ]
    ids = [each.id for each in parts]
    ways = [Link(f"{a}-{b}", a, b, "internal") for a, b in [*itertools.pairwise(ids), ("inverter-1", "south")]]
    more = [
        part("south", "array", "South roof", rapid_shutdown=shut),
        part("garage/grounding-electrode", "electrode", "Rods", existing=True),
    ]
    bond = Link("rods", "garage", "garage/grounding-electrode", "bond")
    house = Installation([*parts, *more], [*ways, bond])
    volts = {"south": given("U_pv", 386.5, "V", "test")}
    found: dict[str, list[str]] = {}
    for label in labels.schedule(edition("nfpa70", "2023"), house, {}, backup=True, voltages=volts):
        found.setdefault(label.wording, []).append(label.at)
    assert at(found, "ENERGY STORAGE SYSTEM DISCONNECT") == ["Battery 1 DC disconnect", "Inverter disconnect"]
    assert at(found, "MAXIMUM 270 V DC") == ["Battery 1 DC disconnect"]
    assert at(found, "NOMINAL 240 V AC") == ["Inverter disconnect"]
    assert at(found, "PV SYSTEM DISCONNECT") == ["Inverter"]
    assert at(found, "SOUTH ROOF: 387 V") == ["Inverter"]
    assert at(found, "EQUIPPED WITH RAPID SHUTDOWN") == ["Service disconnect"]
    assert at(found, "RAPID SHUTDOWN SWITCH FOR SOLAR PV SYSTEM") == ["Service disconnect"]
    assert at(found, "SOLAR PV DC CIRCUIT") == ["South roof"]
    assert at(found, "MULTIPLE SOURCES OF POWER") == ["Service disconnect", "Garage panel"]
    assert any(
        "INVERTER (ENERGY STORAGE AND PV), INVERTER DISCONNECT (PLACE NOT KNOWN)" in wording for wording in found
    )
    assert label_of("pv raceway", house, {}).place.endswith("the length of the run is missing")
    runs = {feet: label_of("pv raceway", house, {"south": given("L", feet, "ft", "test")}) for feet in (10, 45, 50.5)}
    assert {feet: label.number for feet, label in runs.items()} == {10: 2, 45: 6, 50.5: 7}
    assert runs[45].place.endswith("6 on 45 ft")


def label_of(name: str, house: Installation, lengths: dict[str, Value]) -> labels.Label:
    book = edition("nfpa70", "2023")
    clause = mark(book, name).clause
    found = labels.schedule(book, house, {}, backup=True, lengths=lengths)
    return next(label for label in found if label.clause == clause)


def test_of_a_device_that_nobody_placed_it_is_asked_where_it_is(house: Installation) -> None:
    job = read(DEMO).survey
    assert job is not None
    book = edition("nfpa70", "2023")
    assert list(labels.placed(book, job.job, house, PLACES)) == []
    gone = {id: where for id, where in PLACES.items() if id != "battery-1/disconnect"}
    (check,) = labels.placed(book, job.job, house, gone)
    assert check.id == "labels.place/battery-1/disconnect" and check.verdict == "cannot tell"
    assert "walls.obstacles: draw disconnect" in str(check.reason) and str(check.clause) == "NEC 2023 705.10"


@pytest.mark.parametrize(
    ("north", "inward", "point"),
    [("0 deg", False, "east"), ("0 deg", True, "west"), ("12 deg", False, "east"), ("90 deg", False, "north"),
     ("45 deg", False, "north-east"), ("180 deg", False, "west"), ("270 deg", False, "south")],
)  # fmt: skip
def test_a_wall_lies_where_plan_and_north_say(north: str, inward: bool, point: str) -> None:
    job = asked((('north = "12 deg"', f'north = "{north}"'),))
    (wall,) = [each for each in job.walls if each.id == "garage-east"]
    assert facing(job, wall, inward=inward) == point


def test_a_place_tells_room_and_wall_and_no_more_than_was_surveyed() -> None:
    def said(*changes: tuple[str, str]) -> str:
        job = asked(changes)
        return place_of(job, next(each for each in job.walls if each.id == "garage-east"))

    assert said() == "in attached garage, east wall"
    assert said(('north = "12 deg"\n', "")) == "in attached garage"
    assert said(('kind = "attached garage"', 'kind = "outside"')) == "outdoors, west wall of the house"
    twice = '[[rooms]]\nid = "second"\nkind = "attached garage"\n\n[[rooms]]'
    assert said(("[[rooms]]", twice)) == "in garage, east wall"


def test_devices_are_where_the_survey_draws_them() -> None:
    survey = read(DEMO).survey
    assert survey is not None
    made = build(survey, {})
    found = labels.places(survey.job, made, {"battery-1": "garage-east"})
    assert found["battery-1/disconnect"] == found["battery-1"] == "in attached garage, east wall"
    assert found["main"] == found["service-disconnect"] == found["main/range"]
    assert "emergency-shutdown" not in found and "utility" not in found


def asked(changes: tuple[tuple[str, str], ...]) -> Job:
    text = DEMO
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    found = read(text).survey
    assert found is not None
    return found.job
