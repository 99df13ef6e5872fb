"""The work order: one order that respects every `after`, and what each step carries."""

import random

import pytest
from hypothesis import given as forall
from hypothesis import strategies as some
from invented_job import demo_text, make_plan, survey_of

from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.faults import BadFormula
from standfast.fieldwork.isolation import isolation, isolations, pairs
from standfast.fieldwork.materials import materials
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.plan import Condition, Plan
from standfast.fieldwork.steps import STAGES, WorkStep
from standfast.fieldwork.work_order import WorkOrder, work_order

PAIRS = ["L1–L2", "L1–N", "L1–G", "L2–N", "L2–G", "N–G"]
AT_METER = 'emergency_disconnect = "at the meter"'


@pytest.fixture(scope="module")
def no_emergency() -> Plan:
    """The demo job in a house whose first switch is the service disconnect in the main panel."""
    text = demo_text()
    assert AT_METER in text
    return make_plan(text.replace(AT_METER, 'emergency_disconnect = "none"'))


@pytest.fixture(scope="module")
def order(plan: Plan) -> WorkOrder:
    return work_order(plan)


def battery_sheet(plan: Plan, old: str, new: str) -> Plan:
    text = shipped()["demo-wall-10"]
    assert old in text
    sheet = read_sheet(text.replace(old, new), "battery.toml").sheet
    assert sheet is not None
    return plan._replace(sheets={**plan.sheets, "battery": sheet})


def step(order: WorkOrder, id: str) -> WorkStep:
    return next(each for each in order.steps if each.id == id)


def test_every_step_of_the_data_sheet_is_there_in_an_order_that_respects_after(plan: Plan, order: WorkOrder) -> None:
    place = order.numbers
    for each in order.steps:
        assert all(place[before] < place[each.id] for before in each.after)
    for told in plan.sheets["battery"].sheet.steps:
        assert f"battery-1.{told.id}" in place
        assert all(place[f"battery-1.{before}"] < place[f"battery-1.{told.id}"] for before in told.after)


def test_the_job_ties_its_own_steps_to_those_of_the_sheet(order: WorkOrder) -> None:
    place = order.numbers
    for earlier, later in (
        ("job.scan", "battery-1.drill"),
        ("job.lift", "battery-1.hang"),
        ("battery-1.bolt", "job.run-battery-run"),
        ("job.dead", "battery-1.wire-ground"),
        ("job.pull", "battery-1.wire-lines"),
        ("battery-1.close-cover", "job.check"),
        ("job.check", "job.restore"),
        ("job.restore", "battery-1.battery-on"),
        ("battery-1.ac-on", "job.live-tests"),
        ("job.live-tests", "job.handover"),
    ):
        assert place[earlier] < place[later], (earlier, later)


def test_a_sheet_that_drills_nothing_lets_the_job_drill(plan: Plan) -> None:
    silent = battery_sheet(plan, 'tools = ["drill", "bit for the lead hole", "scanner", "dust extraction"]', "")
    found = work_order(silent)
    assert found.numbers["job.mount-battery-1"] < found.numbers["battery-1.template"]
    assert "job.mount-battery-1" not in work_order(plan).numbers


def test_a_sheet_step_after_wiring_does_not_wait_in_a_circle(plan: Plan) -> None:
    late = '[[steps]]\nid = "trim"\ntext = "Fit the trim."\nafter = ["close-cover"]\n\n[[steps]]\nid = "battery-on"'
    found = work_order(battery_sheet(plan, '[[steps]]\nid = "battery-on"', late))
    assert found.numbers["job.run-battery-run"] < found.numbers["battery-1.trim"] < found.numbers["job.restore"]


def test_prove_dead_proves_the_tester_tests_every_pair_and_proves_it_again(order: WorkOrder) -> None:
    read = [reading.what for reading in step(order, "job.dead-main").readings]
    assert "before" in read[0]
    assert "after" in read[-1]
    lugs = [f"{pair} at the lugs on the supply side of Service disconnect" for pair in PAIRS]
    assert read[1:-1] == [*PAIRS, *lugs]
    assert {reading.limit for reading in step(order, "job.dead-main").readings[1:-1]} == {"no voltage"}


def test_an_unknown_system_gets_the_pairs_of_the_largest() -> None:
    unknown = make_plan(demo_text().replace('system = "120/240 V single-phase"', ""))
    assert len(isolations(unknown)[0].pairs) == 10


def waits_for(order: WorkOrder, id: str) -> set[str]:
    """Every step that must be done before a step, whatever order is chosen."""
    by_id = {each.id: each for each in order.steps}
    found, queue = set[str](), list(by_id[id].after)
    while queue:
        here = queue.pop()
        if here not in found:
            found.add(here)
            queue += by_id[here].after
    return found


@pytest.mark.parametrize(
    ("id", "before"),
    [
        ("job.dust", "job.scan"), ("battery-1.drill", "job.scan"), ("battery-1.drill", "job.dust"),
        ("job.mount-backup", "job.scan"), ("job.pull", "job.dead-main"), ("job.dead-main", "job.open-main"),
        ("job.dead-tests", "job.pull"), ("job.connect-main", "job.dead-tests"),
        ("job.connect-backup", "job.dead-tests"),
        ("battery-1.wire-lines", "job.dead-tests"), ("job.move-backup", "job.connect-backup"),
        ("battery-1.hang", "job.lift"), ("battery-1.close-cover", "battery-1.wire-lines"),
        ("battery-1.close-cover", "job.join-shutdown-battery-1"), ("job.closed-tests", "battery-1.close-cover"),
        ("job.restore", "job.closed-tests"), ("job.restore", "job.check"), ("job.restore", "job.move-backup"),
        ("battery-1.battery-on", "job.restore"), ("job.live-tests", "battery-1.ac-on"),
    ],
)  # fmt: skip
def test_what_keeps_people_alive_holds_in_every_order(order: WorkOrder, id: str, before: str) -> None:
    assert before in waits_for(order, id)


@forall(some.lists(some.text("abcdefgh", min_size=1, max_size=2), unique=True, max_size=7))
def test_pairs_hold_every_pair_once(names: list[str]) -> None:
    found = pairs(tuple(names))
    assert len(found) == len(set(found)) == len(names) * (len(names) - 1) // 2


def test_isolation_names_the_switch_and_what_it_holds_off(plan: Plan) -> None:
    (main,) = isolations(plan)
    assert [each[:2] for each in main.openings] == [
        ("Service disconnect", ("Utility",)),
        ("Emergency disconnect", ("Utility",)),
    ]
    assert main.supply == ("Emergency disconnect", "Service disconnect")
    assert main.kept_open[0].sources == ("Battery 1 inverter",)
    assert not main.live


def test_the_switch_at_the_meter_is_opened_and_its_supply_side_stays_live(order: WorkOrder) -> None:
    opened = step(order, "job.open-main")
    for switch in ("Service disconnect", "Emergency disconnect"):
        assert f"{switch} (holds off: Utility)" in opened.text
    (live,) = [caution for caution in opened.cautions if "stay live" in caution]
    assert live.startswith("Emergency disconnect: ") and "Service disconnect" not in live
    assert "Close Emergency disconnect, then Service disconnect, then the new" in step(order, "job.restore").text


def test_without_a_switch_at_the_meter_the_lugs_of_the_service_disconnect_stay_live(no_emergency: Plan) -> None:
    (main,) = isolations(no_emergency)
    assert [each[:2] for each in main.openings] == [("Service disconnect", ("Utility",))]
    order = work_order(no_emergency)
    (live,) = [caution for caution in step(order, "job.open-main").cautions if "stay live" in caution]
    assert live.startswith("Service disconnect: ")
    assert [reading.what for reading in step(order, "job.dead-main").readings][1:-1] == PAIRS
    assert "switch. Close Service disconnect, then the new" in step(order, "job.restore").text
    assert not any("Emergency disconnect" in each.text for each in order.steps)


def test_a_panel_behind_a_feeder_breaker_is_held_off_by_that_alone(plan: Plan) -> None:
    backup = plan.installation.parts["backup"]
    found = isolation(plan, backup)
    (switch,) = found.supply
    assert switch == plan.installation.path("utility", "backup")[-2].name
    assert "Service disconnect" not in [opening.switch for opening in found.openings]


def test_a_source_that_stands_on_a_circuit_already_is_opened_too() -> None:
    text = demo_text()
    old = 'id = "dryer"\nname = "Dryer"'
    assert old in text
    sun = make_plan(text.replace(old, f'{old}\nsource_output = "16 A"', 1))
    assert ("Dryer",) in [opening.sources for opening in isolations(sun)[0].openings]


def test_torques_stand_in_both_units_with_a_space_for_each_joint(order: WorkOrder) -> None:
    bolt = step(order, "battery-1.bolt")
    assert bolt.torque == ("Battery 1: Unit to bracket: 9 N·m (79.7 lbf·in)",)
    assert (bolt.readings[0].spaces, bolt.readings[-1].what) == (4, "torque tool number and calibration date")


def test_indications_say_what_is_seen_what_it_means_and_when(order: WorkOrder) -> None:
    told = step(order, "battery-1.ac-on").indication
    assert "lamp steady green" in told
    assert "6 min" in told


def test_cautions_and_states_of_the_sheet_stand_at_their_step(order: WorkOrder) -> None:
    ground = step(order, "battery-1.wire-ground")
    assert any("cells" in caution for caution in ground.cautions)
    assert any("battery switch is open" in first for first in ground.first)


def test_what_stops_drilling_stands_before_the_scan() -> None:
    unsafe = make_plan(demo_text().replace('asbestos = "not found"', 'asbestos = "found"'))
    assert any("abatement" in line for line in step(work_order(unsafe), "job.scan").first)


def test_conditions_of_checks_are_seen_before_power(plan: Plan) -> None:
    """With the title of their check; those of lifting and of the holes stand at the lift and at the scan instead."""
    conditions = tuple(Condition(f"{trade}.x/battery-1", "Question", f"{trade} asked") for trade in
                       ("wiring", "lifting", "anchorage"))  # fmt: skip
    found = work_order(plan._replace(conditions=conditions))
    seen = [(reading.what, reading.limit) for reading in step(found, "job.check").readings]
    assert ("Question", "seen: wiring asked") in seen
    assert not any("lifting" in limit or "anchorage" in limit for _, limit in seen)
    assert any("lifting asked" in line for line in step(found, "job.lift").first)
    assert any("anchorage asked" in line for line in step(found, "job.scan").first)


def test_breakers_of_moved_circuits_are_tightened_when_their_conductors_are_in(order: WorkOrder) -> None:
    assert not any("Refrigerator" in line for line in step(order, "job.connect-backup").torque)
    assert any("Refrigerator" in line for line in step(order, "job.move-backup").torque)
    assert order.numbers["job.connect-backup"] < order.numbers["job.move-backup"]


def test_the_shutdown_switch_is_joined_while_the_cover_is_off(order: WorkOrder) -> None:
    at = order.numbers
    assert at["job.mount-shutdown"] < at["job.join-shutdown-battery-1"]
    assert at["battery-1.open-cover"] < at["job.join-shutdown-battery-1"] < at["battery-1.close-cover"]


def test_a_unit_without_shutdown_terminals_has_no_switch(plan: Plan) -> None:
    text = 'emergency_shutdown = "terminals for a remote switch"'
    built_in = battery_sheet(plan, text, 'emergency_shutdown = "built in"')
    assert not any("shutdown" in id for id in work_order(built_in).numbers)
    assert not any("emergency shutdown" in row.what and row.group == "switchgear" for row in materials(built_in).rows)


def test_nothing_is_energised_before_its_dead_tests_and_every_torque(order: WorkOrder) -> None:
    at, restore = order.numbers, order.numbers["job.restore"]
    assert at["job.dead-tests"] < min(at[id] for id in at if id.startswith("job.connect-"))
    assert max(at[each.id] for each in order.steps if each.torque) < at["job.closed-tests"] < restore
    assert at["job.dead-main"] < at["job.pull"] and restore < at["battery-1.battery-on"] < at["battery-1.ac-on"]
    assert at["battery-1.wire-lines"] < at["battery-1.close-cover"] < restore
    assert at["job.scan"] < at["job.dust"] < at["battery-1.drill"]
    assert "T4" in step(order, "job.closed-tests").text and "T4" not in step(order, "job.dead-tests").text


def test_without_a_way_to_lift_nobody_lifts(plan: Plan) -> None:
    assert "do not lift" in step(work_order(plan._replace(lift=None)), "job.lift").text


def test_an_invented_job_says_so(order: WorkOrder) -> None:
    assert ("Note", "This job is invented.") in order.head
    assert order.rule.startswith("The order respects")
    assert "In every order" in order.rule and order.unsafe == ()


def test_steps_that_wait_for_each_other_are_a_fault_of_the_work() -> None:
    with pytest.raises(BadFormula, match="wait for each other"):
        ordered([_step("a", "b"), _step("b", "a")])
    with pytest.raises(BadFormula, match="no step"):
        ordered([_step("a", "z")])
    with pytest.raises(BadFormula, match="one id"):
        ordered([_step("a"), _step("a")])


def _step(id: str, *after: str, stage: str = "fix") -> WorkStep:
    return WorkStep(id, stage, "", after, "job")


@forall(some.integers(0, 10_000))
def test_any_precedence_without_a_circle_gets_an_order(seed: int) -> None:
    chance = random.Random(seed)
    steps = [
        _step(
            str(number),
            *(str(before) for before in range(number) if chance.random() < 0.2),
            stage=chance.choice(STAGES),
        )
        for number in range(12)
    ]
    chance.shuffle(steps)
    found = ordered(steps)
    place = {each.id: number for number, each in enumerate(found)}
    assert len(place) == 12
    assert all(place[before] < place[each.id] for each in steps for before in each.after)
    done: set[str] = set()
    for each in found:
        listed = [other for other in steps if other.id not in done and set(other.after) <= done]
        assert STAGES.index(each.stage) == min(STAGES.index(other.stage) for other in listed)
        done.add(each.id)


def test_the_fixture_is_the_demo() -> None:
    assert survey_of(demo_text()).job.job.invented
