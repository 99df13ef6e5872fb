"""The link: an address of its own for each unit, a terminator at the two ends and none between, the dead bus read."""

import pytest

from standfast.equipment.read import DataSheet, read, shipped
from standfast.fieldwork import linking
from standfast.fieldwork.link import chain, checks
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

WALL, CABINET, INVERTER = "demo-wall-10", "demo-cabinet-48", "demo-inverter-48"


@pytest.fixture(scope="module")
def pair(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return sitework(make_plan(write_demo("detached_pair", tmp_path_factory.mktemp("job"))))


@pytest.fixture(scope="module")
def cabinet(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return sitework(make_plan(write_demo("cabinet", tmp_path_factory.mktemp("job"))))


def sheet(id: str, old: str = "", new: str = "") -> DataSheet:
    text = shipped()[id]
    assert not old or old in text
    found = read(text.replace(old, new) if old else text, "x.toml")
    assert found.faults == [] and found.sheet is not None
    return found.sheet


def units(count: int, data: DataSheet) -> list[Device]:
    return [Device(f"battery-{n}", f"Battery {n}", "battery", data) for n in range(1, count + 1)]


def verdicts(devices: list[Device], plan: Plan) -> dict[str, str]:
    return {each.id: each.verdict for each in checks(devices, plan.practice)}


def step_text(order: WorkOrder, id: str) -> str:
    return next(each.text for each in order.steps if each.id == id)


def test_each_unit_is_set_to_the_address_of_its_place_and_both_ends_are_terminated(pair: Plan) -> None:
    order = work_order(pair)
    for number in (1, 2):
        text = step_text(order, f"job.link-battery-{number}")
        assert f"rotary switch ADDR to {number}." in text and "switch TERM on" in text
        place = order.numbers
        assert place[f"battery-{number}.open-cover"] < place[f"job.link-battery-{number}"]
        assert place[f"job.link-battery-{number}"] < place[f"battery-{number}.close-cover"]
    assert order.unsafe == ()


def test_of_three_the_one_between_has_its_terminator_off(pair: Plan) -> None:
    data = sheet(WALL)
    places = chain(units(3, data))
    assert [(place.address, place.end) for place in places] == [(1, True), (2, False), (3, True)]
    told = [" ".join(linking.settings(pair, place)) for place in places]
    assert ["switch TERM on" in each for each in told] == [True, False, True]
    assert "switch TERM off" in told[1]


def test_the_dead_bus_is_read_in_the_band_of_two_terminators(pair: Plan, cabinet: Plan) -> None:
    for plan in (pair, cabinet):
        order = work_order(plan)
        (reading,) = next(each.readings for each in order.steps if each.id == linking.READ)
        assert reading.unit == "Ω" and "50 Ω" in reading.limit and "70 Ω" in reading.limit


def test_other_terminators_are_not_measured_with_the_band_of_120_ohm() -> None:
    places = chain(units(2, sheet(WALL, 'terminator_resistance = "120 Ω"', 'terminator_resistance = "200 Ω"')))
    assert linking.resistance(places).quantity == pytest.approx(100)
    silent = chain(units(2, sheet(WALL, 'terminator_resistance = "120 Ω"\n', "")))
    assert linking.resistance(silent).missing


def test_an_inverter_is_the_first_end_and_the_last_cabinet_the_other(cabinet: Plan) -> None:
    places = chain(cabinet.devices)
    assert [place.device.role for place in places] == ["inverter", "battery"]
    assert places[0].address is None and places[1].address == 1
    assert "terminator plug in" in step_text(work_order(cabinet), "job.link-battery-1")


def test_one_unit_alone_has_no_link(plan: Plan) -> None:
    assert chain(plan.devices) == [] and checks(plan.devices, plan.practice) == []
    assert not any("link" in id for id in work_order(plan).numbers)


def test_what_a_data_sheet_does_not_state_is_asked_and_never_passes(pair: Plan) -> None:
    text = shipped()[WALL]
    whole = text[text.index("[link]") : text.index("[body]")]
    silent = units(2, sheet(WALL, whole, ""))
    assert set(verdicts(silent, pair).values()) == {"cannot tell"}
    no_address = units(2, sheet(WALL, "addresses = [1, 2, 3, 4]\n", ""))
    assert verdicts(no_address, pair)["link.address/battery-1"] == "cannot tell"
    no_end = units(2, sheet(WALL, 'terminator = "switch"\n', ""))
    assert verdicts(no_end, pair)["link.terminator/battery-2"] == "cannot tell"


def test_the_step_stops_where_nobody_knows(pair: Plan) -> None:
    quiet = sheet(WALL, "addresses = [1, 2, 3, 4]\n", "")
    order = work_order(pair._replace(sheets={**pair.sheets, "battery": quiet}))
    first = next(each.first for each in order.steps if each.id == "job.link-battery-2")
    assert any("nobody knows the address of Battery 2" in each and "x.toml" in each for each in first)


def test_contradictions_fail(pair: Plan) -> None:
    """More units than addresses; one address for all; a terminator that cannot be taken out between two others."""
    two = units(3, sheet(WALL, "addresses = [1, 2, 3, 4]", "addresses = [1, 2]"))
    assert verdicts(two, pair)["link.address/battery-3"] == "fail"
    assert verdicts(two, pair)["link.address/battery-2"] == "pass"
    fixed = 'address = "set by hand"', "addresses = [1, 2, 3, 4]\n"
    text = shipped()[WALL].replace(fixed[0], 'address = "fixed"').replace(fixed[1], "")
    same = read(text, "x.toml").sheet
    assert same is not None
    assert verdicts(units(2, same), pair)["link.address/battery-1"] == "fail"
    stuck = units(3, sheet(WALL, 'terminator = "switch"', 'terminator = "always in"'))
    found = verdicts(stuck, pair)
    assert found["link.terminator/battery-2"] == "fail" and found["link.terminator/battery-3"] == "pass"
    bare = units(2, sheet(WALL, 'terminator = "switch"', 'terminator = "none"'))
    assert verdicts(bare, pair)["link.terminator/battery-1"] == "fail"


def test_devices_that_talk_in_two_ways_do_not_pass(cabinet: Plan) -> None:
    other = sheet(INVERTER, 'kind = "two-wire bus"', 'kind = "point to point"')
    devices = [each._replace(data=other) if each.role == "inverter" else each for each in cabinet.devices]
    assert verdicts(devices, cabinet)["link.kind/battery-1"] == "fail"


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("addresses = [1, 2, 3, 4]", "addresses = [1, 2, 2]", "address 2 is there twice"),
        ('address = "set by hand"', 'address = "automatic"', "addresses are stated"),
        ('under = "wiring cover"\n\n[body]', 'under = "lid"\n\n[body]', 'no zone is under "lid"'),
    ],
)
def test_a_link_that_contradicts_itself_is_a_fault_with_its_place(old: str, new: str, told: str) -> None:
    text = shipped()[WALL]
    assert old in text
    (fault,) = read(text.replace(old, new), "x.toml").faults
    assert told in fault.what and fault.line > text[: text.index("[link]")].count("\n")
