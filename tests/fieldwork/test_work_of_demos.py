"""The work on the demo jobs with several units, with standing units and with an inverter of its own."""

import random
import re

import pytest

from standfast.equipment.read import DataSheet, find, shipped
from standfast.equipment.read import read as read_sheet
from standfast.fieldwork.arc_fault import ARC_FAULT
from standfast.fieldwork.isolation import isolations
from standfast.fieldwork.joints import joints
from standfast.fieldwork.materials import materials
from standfast.fieldwork.order.decide import Unsafe, unsafe
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.house import house_of
from standfast.fieldwork.order.in_line import ordered
from standfast.fieldwork.plan import Extra, Plan
from standfast.fieldwork.sheet_steps import drills, live_steps, plugs_live
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.tools import tools
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.sheet import missing

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet")
DIRECT = ("stack_outdoors", "cabinet")


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Plan]:
    return {name: sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name)))) for name in DEMOS}


@pytest.fixture(scope="module")
def orders(plans: dict[str, Plan]) -> dict[str, WorkOrder]:
    return {name: work_order(plan) for name, plan in plans.items()}


def decided(plan: Plan, steps: list[WorkStep]) -> list[Unsafe]:
    """What the decision for every order says of steps."""
    house = house_of(plan)
    return unsafe(house.site, acts_of(steps))


def before(order: WorkOrder) -> dict[str, set[str]]:
    """Of each step all that is done before it, whatever allowed order is taken."""
    found: dict[str, set[str]] = {}
    for step in order.steps:  # they stand in an order that respects every `after`
        found[step.id] = set(step.after).union(*(found[id] for id in step.after))
    return found


def step(order: WorkOrder, id: str) -> WorkStep:
    return next(each for each in order.steps if each.id == id)


@pytest.mark.parametrize("name", DEMOS)
def test_in_every_order_hands_reach_in_after_the_proof_of_dead_and_before_power(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    order = orders[name]
    done = before(order)
    power = [each.id for each in order.steps if each.stage == "power"]
    hands = [each.id for each in order.steps if each.hands]
    assert len(power) > 2 and len(hands) > 5
    for touch in hands:
        assert "job.dead" in done[touch], touch
        assert all(touch in done[closing] for closing in power), touch
    for each in order.isolations:
        assert f"job.dead-{each.id}" in done["job.dead"]
        assert f"job.open-{each.id}" in done[f"job.dead-{each.id}"]
    assert decided(plans[name], list(order.steps)) == [] and order.unsafe == ()


def loosened(each: WorkStep, touch: WorkStep) -> WorkStep:
    """A step where one step waits for nothing any more: what waited for that one waits for all that it waited for."""
    if each.id == touch.id:
        return each._replace(after=())
    return each._replace(after=(*each.after, *touch.after)) if touch.id in each.after else each


@pytest.mark.parametrize("name", DEMOS)
def test_a_step_that_is_let_loose_is_told(plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str) -> None:
    """Each step that touches in turn waits for nothing: then some order puts it before the proof, and that is found."""
    steps = orders[name].steps
    touching = [each for each in steps if each.touches and not each.turns]
    assert len(touching) > 5
    for touch in touching:
        loose = [loosened(each, touch) for each in steps]
        found = [each for each in decided(plans[name], loose) if each.act == touch.id]
        assert {each.why for each in found} <= {"live", "not proved dead", "cover on"} and found
        assert all(each.order[-1] == touch.id for each in found)


def test_a_terminal_that_a_sheet_wires_under_power_is_told(plans: dict[str, Plan]) -> None:
    text = shipped()["demo-wall-10"].replace('after = ["wire-neutral"]', 'after = ["wire-neutral", "early"]')
    early = '[[steps]]\nid = "early"\ntext = "Close."\ndoes = { change = "close", to = "battery switch" }\n\n'
    data = read_sheet(
        text.replace('[[steps]]\nid = "wire-lines"', f'{early}[[steps]]\nid = "wire-lines"'), "x.toml"
    ).sheet
    assert data is not None
    plan = plans["one_wall"]
    found = work_order(plan._replace(sheets={**plan.sheets, "battery": data})).unsafe
    assert any("Connect L1 and L2" in told for told in found)


@pytest.mark.parametrize("name", DEMOS)
def test_a_random_allowed_order_never_powers_a_cover_that_is_off(orders: dict[str, WorkOrder], name: str) -> None:
    """The same, seen by walking: forty orders drawn from those that the steps allow."""
    order, chance = orders[name], random.Random(7)
    for _ in range(40):
        left, done, powered = {each.id: each for each in order.steps}, set[str](), False
        while left:
            id = chance.choice(sorted(id for id, each in left.items() if set(each.after) <= done))
            taken = left.pop(id)
            done.add(id)
            powered |= taken.stage == "power"
            assert not (powered and taken.stage in ("connect", "isolate", "fix", "hang", "run")), id


@pytest.mark.parametrize("name", DEMOS)
def test_every_unit_and_inverter_has_every_step_of_its_own_sheet(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    numbers = orders[name].numbers
    for device in plans[name].devices:
        assert all(f"{device.id}.{told.id}" in numbers for told in device.sheet.steps)
        for joint in (*device.sheet.joints, *device.sheet.terminals):
            assert any(each.id == f"{device.id}/{joint.id}" for each in joints(plans[name]))


def test_two_units_double_what_is_per_unit_and_bring_one_drill(plans: dict[str, Plan]) -> None:
    pair = plans["detached_pair"]
    bill = {row.what: row for row in materials(pair).rows}
    (lag,) = [row for what, row in bill.items() if what.startswith("Lag screw 5/16 in")]
    assert lag.amount.startswith("14: 12 placed") and "Battery 1, Battery 2" in lag.use
    assert bill["Breaker 2-pole 30 A, family W"].amount == "2"
    assert bill["Invented Works Disconnect 60 A, two-pole, without fuses"].amount == "2"
    assert bill["Conduit hub 3/4 in"].amount == "2"
    drills = [tool for tool in tools(pair).rows if tool.what.startswith("Drill driver")]
    assert len(drills) == 1


def test_holes_are_numbered_anew_for_each_unit(orders: dict[str, WorkOrder]) -> None:
    ids = [hole.id for hole in orders["detached_pair"].holes.holes]
    assert ids == [f"battery-{unit}/H{hole}" for unit in (1, 2) for hole in range(1, 7)]


def test_nothing_is_connected_at_a_panel_that_is_not_opened(orders: dict[str, WorkOrder]) -> None:
    """The house panel that feeds the garage stays shut: its conductors are nobody's business that day."""
    ids = orders["detached_pair"].numbers
    assert "job.connect-garage" in ids and "job.connect-main" not in ids
    assert [each.id for each in orders["detached_pair"].isolations] == ["garage"]


def test_a_panel_with_other_work_in_it_is_opened_too(plans: dict[str, Plan]) -> None:
    """What the owner agreed to is done at the house panel, and by the name of a circuit in the panel that holds it."""
    pair = plans["detached_pair"]
    for where in ("main", "Main panel", "Dryer"):
        agreed = pair._replace(extras=(Extra("other", "closed_openings", where),))
        order = work_order(agreed)
        assert {each.id for each in order.isolations} == {"main", "garage"}
        assert {"job.dead-main", "job.dead"} <= before(order)["job.other"]
        assert order.unsafe == ()


@pytest.mark.parametrize("name", DIRECT)
def test_the_dc_side_is_a_zone_that_stays_charged_and_has_ends_that_never_die(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    (zone,) = [each for each in isolations(plans[name]) if each.direct]
    assert zone.pairs == ("DC+–DC−", "DC+–G", "DC−–G")
    said = " ".join(zone.told)
    assert "Battery 1: its own terminals" in said and "never be made dead" in said and "stays charged" in said
    wait = {"cabinet": 300, "stack_outdoors": 600}[name]  # dc.discharge_time of the inverter's data sheet
    assert f"Wait {wait} s, then prove it dead" in said
    assert not zone.live
    held = {source for opening in zone.kept_open for source in opening.sources}
    assert held == {part.name for part in plans[name].installation.of_kind("battery", "array")}
    proof = step(orders[name], "job.dead-inverter-1-dc")
    assert [reading.what for reading in proof.readings[1:-1]] == list(zone.pairs)
    reached = {"cabinet": "Battery 1 DC fuse, Battery 1 DC disconnect", "stack_outdoors": "ends of its DC conductors"}
    assert reached[name] in proof.text, "the cover of the inverter is still on: its own terminals are proved behind it"


def test_an_array_is_joined_after_all_wiring_and_before_the_inverter_starts(orders: dict[str, WorkOrder]) -> None:
    order = orders["stack_outdoors"]
    done = before(order)
    assert "inverter-1.wire-pv" in done["job.join-roof-array"]
    assert "inverter-1.close-cover" in done["job.join-roof-array"]
    assert {"job.join-roof-array", "battery-1.battery-on"} <= done["inverter-1.ac-on"]
    assert any("daylight" in caution for caution in step(order, "job.join-roof-array").cautions)


@pytest.mark.parametrize("name", DIRECT)
def test_the_inverter_is_joined_to_dc_conductors_whose_far_end_is_joined(
    orders: dict[str, WorkOrder], name: str
) -> None:
    done = before(orders[name])
    assert "battery-1.wire-dc" in done["inverter-1.wire-battery"]
    assert "battery-1.battery-on" in done["inverter-1.ac-on"]


@pytest.mark.parametrize("name", DIRECT)
def test_the_parts_that_the_aid_lifts_wait_for_it(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    lift = plans[name].lift
    assert lift is not None and "battery-1/module" in lift.parts and "battery-1/brace" not in lift.parts
    done = before(orders[name])
    for told in plans[name].of_role("battery")[0].sheet.steps:
        if "module" in told.parts:
            assert "job.lift" in done[f"battery-1.{told.id}"]


def test_parallel_conductors_are_bought_as_often_as_they_are_run(plans: dict[str, Plan]) -> None:
    run = next(run for run in plans["cabinet"].runs if run.id == "dc-battery")
    assert [(wire.use, wire.number) for wire in run.wires] == [("positive", 2), ("negative", 2), ("ground", 1)]
    rows = [row for row in materials(plans["cabinet"]).of("conductors") if row.use.startswith(("plus", "minus"))]
    assert len(rows) == 2
    assert all("2 × " in row.use for row in rows)


def test_the_foot_takes_anchors_of_its_own_into_the_floor(plans: dict[str, Plan], orders: dict[str, WorkOrder]) -> None:
    card = orders["cabinet"].holes
    floor = [hole for hole in card.holes if hole.of == "battery-1/foot"]
    assert [hole.id for hole in floor] == [f"battery-1/F{number}" for number in range(1, 5)]
    assert all(hole.up.startswith("out from the wall") and "floor" in hole.into for hole in floor)
    assert any("floor" in first for first in card.first) and any("Letter F" in datum for datum in card.datums)
    anchored = step(orders["cabinet"], "battery-1.cabinet")
    assert any("anchor" in torque.lower() for torque in anchored.torque)


def test_modules_plugged_together_behind_an_open_switch_are_no_power_step(orders: dict[str, WorkOrder]) -> None:
    assert step(orders["stack_outdoors"], "battery-1.connect-modules").stage == "connect"
    assert step(orders["cabinet"], "battery-1.battery-on").stage == "power"


def sheet(id: str) -> DataSheet:
    found = find(id).sheet
    assert found is not None
    return found


def test_a_module_plugged_in_with_no_switch_open_is_power() -> None:
    made = sheet("demo-stack-15").sheet
    bare = [each.model_copy(update={"states": ()}) if each.id == "connect-modules" else each for each in made.steps]
    assert "connect-modules" not in live_steps(made)
    assert {"connect-modules", "wire-dc"} <= live_steps(made.model_copy(update={"steps": tuple(bare)}))


@pytest.mark.parametrize("inside", [False, None])
def test_a_switch_is_counted_on_only_where_the_sheet_says_that_it_is_inside(inside: bool | None) -> None:
    made = sheet("demo-stack-15").sheet
    assert made.electrical is not None
    without = made.electrical.model_copy(update={"disconnect_inside": inside})
    assert plugs_live(made) == []
    assert plugs_live(made.model_copy(update={"electrical": without})) == ["connect-modules"]


OPEN_BUSBARS = "battery-1.join-modules"
LANDED = ("battery-1-dc-overcurrent", "battery-1-dc-disconnect", "main", "backup")


def test_modules_are_joined_to_open_busbars_last_of_all_and_after_a_second_proof(orders: dict[str, WorkOrder]) -> None:
    order = orders["cabinet"]
    done = before(order)
    joining = step(order, OPEN_BUSBARS)
    assert joining.stage == "power" and not joining.hands
    assert {f"job.connect-{place}" for place in LANDED} <= done["job.dead-again-battery-1"]
    assert {"inverter-1.wire-battery", "battery-1.wire-link"} <= done["job.dead-again-battery-1"]
    assert "job.dead-again-battery-1" in joining.after
    again = step(order, "job.dead-again-battery-1")
    assert [each.what for each in again.readings[1:-1]] == ["DC+–DC−", "DC+–G", "DC−–G"]
    assert {each.limit for each in again.readings[1:-1]} == {"no voltage"}
    assert [each.gate for each in joining.turns] == ["battery-1/module-leads"]
    assert {OPEN_BUSBARS, "battery-1.close-cover"} <= done["job.restore"]


def test_leads_joined_before_the_landing_at_the_fuse_are_refused_with_the_shortest_such_order(
    plans: dict[str, Plan], orders: dict[str, WorkOrder],
) -> None:  # fmt: skip
    """The order as it once was: leads joined when the unit is wired, the other ends of its conductors landed later."""
    old = [
        each._replace(stage="connect", after=("battery-1.wire-dc", "job.dead")) if each.id == OPEN_BUSBARS else each
        for each in orders["cabinet"].steps
    ]
    found = {each.act: each for each in decided(plans["cabinet"], ordered(old)) if each.source == "battery-1"}
    fuse = "job.connect-battery-1-dc-overcurrent"
    reached = {"battery-1.wire-link", "job.link-battery-1", "job.seal-battery-1", "job.seal-entries"}
    assert set(found) == {fuse, *reached}
    shortest = found[fuse].order
    assert shortest.index(OPEN_BUSBARS) < shortest.index(fuse) == len(shortest) - 1
    done = {each.id: set(each.after) for each in old}
    kept = [id for id in shortest if "#" not in id]
    assert all(done[id] <= set(kept[:place]) for place, id in enumerate(kept))


def test_a_sheet_that_wires_beside_open_live_busbars_is_told(plans: dict[str, Plan]) -> None:
    text = shipped()["demo-cabinet-48"]
    old = 'after = ["wire-dc"]\ntools = ["small screwdriver"]'
    for was, new in ((old, old.replace("wire-dc", "join-modules")), ('after = ["wire-link"]', 'after = ["wire-dc"]')):
        assert text.count(was) == 1
        text = text.replace(was, new)
    data = read_sheet(text, "x.toml").sheet
    assert data is not None
    plan = plans["cabinet"]
    told, loose = work_order(plan._replace(sheets={**plan.sheets, "battery": data})).unsafe
    assert "Connect the link cable" in told and "where the steps are done as 1, " in told
    assert "may hide a joint that is not tight yet" in loose and "Link" in loose


def test_fuses_go_in_once_after_polarity_was_read_where_something_is_live(orders: dict[str, WorkOrder]) -> None:
    order = orders["cabinet"]
    done = before(order)
    closing = step(order, "job.close-dc-battery-1")
    assert {"battery-1.battery-on", "job.restore"} <= done[closing.id] and closing.stage == "power"
    assert closing.id in done["inverter-1.ac-on"]
    parts = (
        "still out, measure",
        "put the fuses in",
        "battery's side",
        "Charge the capacitors",
        "take the lock off and close",
    )
    places = [closing.text.index(part) for part in parts]
    assert places == sorted(places)
    assert len(closing.readings) == 3
    assert all(each.unit == "V" and each.limit.startswith("plus 44.8 V to plus 57.6 V") for each in closing.readings)
    assert [each.id for each in order.steps if "put the fuses in" in each.text] == [closing.id]
    assert not any("polarity before the fuses" in caution for each in order.steps for caution in each.cautions)


def test_a_battery_whose_switch_is_inside_has_no_fuses_to_put_in(orders: dict[str, WorkOrder]) -> None:
    assert "job.close-dc-battery-1" not in orders["stack_outdoors"].numbers
    assert "job.dead-again-battery-1" not in orders["stack_outdoors"].numbers


def test_the_feeder_breaker_of_another_building_is_named_closed_again_and_its_lugs_told(
    plans: dict[str, Plan], orders: dict[str, WorkOrder]
) -> None:
    order = orders["detached_pair"]
    (garage,) = order.isolations
    assert garage.supply == ("Garage panel feeder breaker",) and garage.ahead == "Service disconnect"
    opened = step(order, "job.open-garage")
    assert "Garage panel feeder breaker in Main panel, in another building" in opened.text
    assert any("as long as Service disconnect is closed" in caution for caution in opened.cautions)
    assert not any("utility" in caution for caution in opened.cautions)
    read = [reading.what for reading in step(order, "job.dead-garage").readings]
    assert "L1–L2 at the lugs on the supply side of the main of Garage panel" in read
    restored = step(order, "job.restore").text
    assert "Close Garage panel feeder breaker, then the new breakers" in restored
    assert "ervice disconnect" not in restored
    (lamp,) = [tool for tool in tools(plans["detached_pair"]).rows if tool.what.startswith("Work lamps")]
    assert lamp.use.startswith("Garage panel and what it feeds") and "house" not in lamp.use


@pytest.mark.parametrize("name", DEMOS)
def test_covers_come_off_when_every_hole_is_drilled_and_every_raceway_fitted(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    done = before(orders[name])
    covers = [
        f"{device.id}.{told.id}"
        for device in plans[name].devices
        for told in device.sheet.steps
        if told.does is not None and told.does.change == "remove cover"
    ]
    drilled = {
        f"{device.id}.{told.id}" for device in plans[name].devices for told in device.sheet.steps if drills(told)
    }
    runs = {each.id for each in orders[name].steps if each.id.startswith("job.run-")}
    assert covers and drilled and runs
    for cover in covers:
        assert drilled | runs <= done[cover], cover
        assert step(orders[name], cover).stage == "connect"


def test_a_moved_circuit_lands_on_its_arc_fault_breaker_at_once(
    plans: dict[str, Plan], orders: dict[str, WorkOrder]
) -> None:
    order = orders["cabinet"]
    assert not any("arc-fault" in id for id in order.numbers)
    moved = step(order, "job.move-backup")
    assert moved.text.endswith("and on no plain one: Kitchen receptacles.")
    assert [each.what for each in step(order, "job.restore").readings] == [
        "its test button trips the arc-fault breaker of Kitchen receptacles"
    ]
    found = {each.id: each for each in joints(plans["cabinet"])}
    assert found["backup/kitchen/lines"].torque.missing and not found["inverter-1/breaker/lines"].torque.missing
    rows = [row.what for row in materials(plans["cabinet"]).rows if "Kitchen receptacles" in row.use]
    assert rows == ["Breaker with arc-fault protection, of the panel's family and the rating of the circuit"]


def test_an_arc_fault_breaker_of_a_circuit_that_stays_is_put_in_by_a_step_and_tested_with_power(
    plans: dict[str, Plan],
) -> None:
    pair = plans["detached_pair"]
    order = work_order(pair._replace(extras=(Extra(f"{ARC_FAULT}kitchen", "arc_fault", "Kitchen receptacles"),)))
    assert "press" not in step(order, f"job.{ARC_FAULT}kitchen").text.replace("is pressed when power is back", "")
    assert len(step(order, "job.restore").readings) == 1


def test_fuses_are_bought_by_rating_and_poles_with_a_spare_set_and_their_block_once(plans: dict[str, Plan]) -> None:
    cabinet = plans["cabinet"]
    (fuse,) = [row for row in materials(cabinet).rows if row.what.startswith("Fuse ") and "block for" not in row.what]
    assert fuse.what.startswith("Fuse 225 A") and fuse.quantity.quantity == 4
    (block,) = [row for row in materials(cabinet).rows if row.what.lower().find("fuse block for") >= 0]
    assert block.amount == "1" and block.use.endswith("the maker names 1")
    unknown = cabinet._replace(fuses={"battery-1": missing("I_n", "A", "rating of the fuses")})
    assert "rating of the fuses" in materials(unknown).needs
    assert not any(row.what.startswith("Fuse ") for row in materials(plans["stack_outdoors"]).rows)


def test_what_the_van_needs_besides(plans: dict[str, Plan]) -> None:
    cabinet = {row.what.partition(",")[0]: row for row in materials(plans["cabinet"]).rows}
    assert cabinet["Backing board"].quantity.quantity == 5
    assert cabinet["Ground bar kit of the panel's family"].use.startswith("Backup panel")
    stack = {row.what.partition(",")[0]: row for row in materials(plans["stack_outdoors"]).rows}
    assert stack["Transition box for PV conductors"].use.startswith("Array on the south roof")
    assert "Transition box for PV conductors" not in cabinet


def test_zinc_plated_fasteners_outdoors_ask_for_others(plans: dict[str, Plan]) -> None:
    outdoors, indoors = materials(plans["stack_outdoors"]), materials(plans["cabinet"])
    asked = [need for need in outdoors.needs if "hot-dip galvanised" in need]
    assert len(asked) == 2 and all("zinc plated" in need for need in asked)
    assert any("zinc plated" in row.what for row in indoors.rows) and not indoors.needs


def test_large_raceway_is_not_bent_by_hand(plans: dict[str, Plan]) -> None:
    what = [tool.what for tool in tools(plans["cabinet"]).rows]
    assert "Mechanical or hydraulic bender for EMT 2 in, or elbows; saw and reamer" in what
    assert "Bender for EMT 3/4 in, saw and reamer" in what


def test_only_terminals_that_take_a_conductor_have_a_box(plans: dict[str, Plan]) -> None:
    stack = {each.id: each.number.quantity for each in joints(plans["stack_outdoors"]) if not each.number.missing}
    assert stack["inverter-1/pv"] == 2  # one string; the sheet has six
    assert stack["inverter-1/ground"] == 3  # AC, battery and PV; the bar has four
    cabinet = {each.id: each.number.quantity for each in joints(plans["cabinet"]) if not each.number.missing}
    assert cabinet["battery-1/ground"] == 1 and cabinet["battery-1/dc-out"] == 4
    assert cabinet["backup/main"] == 2
    bare = plans["cabinet"]._replace(runs=())
    assert {each.id: each.number for each in joints(bare)}["battery-1/ground"].quantity == 2  # no run tells


def test_a_shutdown_cable_between_two_buildings_is_asked_for_and_listed(
    plans: dict[str, Plan], orders: dict[str, WorkOrder]
) -> None:
    need = "route of the emergency shutdown's cable between the buildings"
    pair = materials(plans["detached_pair"])
    (row,) = [row for row in pair.rows if "between two buildings" in row.what]
    assert row.quantity.missing and any(each.startswith(need) for each in pair.needs)
    mount = step(orders["detached_pair"], "job.mount-shutdown")
    assert need in mount.first[0] and "the hole" not in mount.text and mount.readings
    for name in ("one_wall", "stack_outdoors", "cabinet"):
        assert not any("between two buildings" in row.what for row in materials(plans[name]).rows)
        assert not step(orders[name], "job.mount-shutdown").first


@pytest.mark.parametrize("name", DIRECT)
def test_the_cable_of_the_shutdown_is_landed_once_at_each_device(orders: dict[str, WorkOrder], name: str) -> None:
    order = orders[name]
    assert "job.join-shutdown-battery-1" not in order.numbers  # the sheet's own step lands it
    assert "job.mount-shutdown" in before(order)["battery-1.wire-link"]
    at_inverter = step(order, "job.join-shutdown-inverter-1")  # no step of that sheet does
    assert any("shutdown switch" in torque for torque in at_inverter.torque)


def test_nothing_is_measured_where_it_cannot_be(orders: dict[str, WorkOrder]) -> None:
    """Strings apart at the array give nothing at the inverter; a head whose switch is open gives nothing at its end."""
    order = orders["stack_outdoors"]
    dead = [each for each in order.steps if each.stage == "connect"]
    assert not any("measure" in each.text.lower() for each in dead)
    assert not any(
        "close the battery switch" in each.text.lower() for each in order.steps if each.id != "battery-1.battery-on"
    )
    joining = step(order, "job.join-roof-array")
    assert "at its own connectors" in joining.text


def test_each_module_has_a_box_for_its_voltage_with_the_limit_of_its_sheet(orders: dict[str, WorkOrder]) -> None:
    (volts,) = [each for each in step(orders["cabinet"], OPEN_BUSBARS).readings if each.unit == "V"]
    assert volts.spaces == 3 and "within 0.5 V" in volts.limit and "data sheet" in volts.limit


@pytest.mark.parametrize("name", DIRECT)
def test_what_the_aid_lifts_is_said_to_be_lifted_by_it(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], name: str
) -> None:
    lift = plans[name].lift
    assert lift is not None
    for device in plans[name].devices:
        for told in device.sheet.steps:
            aided = any(f"{device.id}/{part}" in lift.parts for part in told.parts)
            first = step(orders[name], f"{device.id}.{told.id}").cautions[:1]
            assert aided == any(lift.aid in caution and "carry nothing" in caution for caution in first)


def test_dc_tests_have_limits_and_a_step_each(plans: dict[str, Plan], orders: dict[str, WorkOrder]) -> None:
    for name, limit in (("cabinet", "plus 44.8 V to plus 57.6 V"), ("stack_outdoors", "plus ")):
        (battery,) = [each for each in orders[name].tests if each.what == "DC voltage and polarity of Battery 1"]
        assert battery.limit.startswith(limit) and battery.when == "before DC closes" and battery.of == "battery-1"
        at = "job.close-dc-battery-1" if name == "cabinet" else "job.read-dc-battery-1"
        assert f"test {battery.id}." in step(orders[name], at).text.replace(", do", ". Do")
        assert at in before(orders[name])["inverter-1.ac-on"]
    (string,) = [each for each in orders["stack_outdoors"].tests if "each string" in each.what]
    assert string.limit == "at most 600 V" and "About 360 V" in string.how
    assert [(each.unit, each.limited) for each in string.readings] == [("", False), ("V", True)]
    assert f"Do test {string.id}." in step(orders["stack_outdoors"], "job.join-roof-array").text


@pytest.mark.parametrize("name", DEMOS)
def test_every_test_is_done_at_some_step_of_its_part_of_the_work(orders: dict[str, WorkOrder], name: str) -> None:
    order = orders[name]
    named = [id for each in order.steps for id in re.findall(r"T\d+", each.text)]
    timed = [id for each in order.steps for id in re.findall(r"T\d+", each.indication)]
    assert sorted(named + list(dict.fromkeys(timed))) == sorted(each.id for each in order.tests)
    texts = {step.id: f"{step.text} {step.indication}" for step in order.steps}
    assert all(re.search(rf"\b{id}\b", texts[step]) for id, step in order.done_at.items())


@pytest.mark.parametrize("name", DEMOS)
def test_settings_are_read_back_before_the_bar_that_asks_for_them(orders: dict[str, WorkOrder], name: str) -> None:
    """The bar before the unit is tried asks that each setting was read: a step of its own does it before."""
    order = orders[name]
    read = [order.done_at[test.id] for test in order.tests if test.key == "settings"]
    bars = [hold.step for hold in order.holds if hold.kind == "settings"]
    assert (read, bars) == (["job.settings"], ["job.live-tests"])
    assert order.numbers["job.settings"] < order.numbers["job.live-tests"]


def test_the_dc_side_is_tested_for_insulation_and_for_the_alarm_of_a_ground_fault(
    plans: dict[str, Plan], orders: dict[str, WorkOrder]
) -> None:
    what = {name: " | ".join(each.what for each in orders[name].tests) for name in DEMOS}
    for name in DIRECT:
        assert "Insulation of the DC side of Inverter" in what[name]
        assert "Alarm of a ground fault on the DC side of Inverter" in what[name]
    for name in ("one_wall", "detached_pair"):
        assert "DC" not in what[name]
    plan, text = plans["cabinet"], shipped()["demo-inverter-48"]
    assert text.count("fault_detection = true") == 1
    data = read_sheet(text.replace("fault_detection = true", "fault_detection = false"), "x.toml").sheet
    assert data is not None
    deaf = work_order(plan._replace(sheets={**plan.sheets, "inverter": data}))
    assert not any("ground fault" in each.what for each in deaf.tests)


def test_a_detector_is_tested_only_where_there_is_one_and_breakers_by_their_names(orders: dict[str, WorkOrder]) -> None:
    for name in DEMOS:
        alarms = [each for each in orders[name].tests if "Alarm at the unit" in each.what]
        assert len(alarms) == (name != "stack_outdoors")
    (volts,) = [each for each in orders["cabinet"].tests if each.what.startswith("Voltages at the line side")]
    assert "opened again after it: Inverter breaker." in volts.how and "battery breaker" not in volts.how
    (volts,) = [each for each in orders["detached_pair"].tests if each.what.startswith("Voltages at the line side")]
    assert "Battery 1 breaker, Battery 2 breaker." in volts.how


def test_leads_that_a_sheet_joins_after_a_switch_wait_for_the_second_proof_too(plans: dict[str, Plan]) -> None:
    """No switch of the sheet's own words makes up for the proof: whatever stands before, it is proved dead again."""
    text = shipped()["demo-cabinet-48"]
    early = (
        '[[steps]]\nid = "early"\ntext = "Close."\nafter = ["wire-link"]\ndoes = { change = "close", to = "fan" }\n\n'
    )
    old, new = '[[steps]]\nid = "join-modules"', 'after = ["early"]\ntools = ["insulated 13 mm socket"'
    assert text.count(old) == 1 and text.count(new.replace("early", "wire-link")) == 1
    text = text.replace(new.replace("early", "wire-link"), new).replace(old, early + old)
    data = read_sheet(text, "x.toml").sheet
    assert data is not None
    plan = plans["cabinet"]
    order = work_order(plan._replace(sheets={**plan.sheets, "battery": data}))
    assert {"job.dead-again-battery-1", "job.restore"} <= before(order)[OPEN_BUSBARS]


@pytest.mark.parametrize(
    ("name", "asked"),
    [("one_wall", ["1"]), ("detached_pair", ["2"]), ("stack_outdoors", ["1", "1"]), ("cabinet", ["1", "1"])],
)
def test_the_chosen_equipment_heads_the_bill(plans: dict[str, Plan], name: str, asked: list[str]) -> None:
    plan = plans[name]
    bill = materials(plan)
    rows = bill.of("chosen equipment")
    assert list(bill.rows[: len(rows)]) == rows
    assert [row.amount for row in rows] == asked
    roles = ["battery", "inverter"][: len(rows)]
    assert all(plan.sheets[role].sheet.name in row.what for role, row in zip(roles, rows, strict=True))


def test_the_bar_before_power_stands_after_the_dead_tests(orders: dict[str, WorkOrder]) -> None:
    """Modules of a stack are plugged together long before, behind a switch that stays locked open: no bar is there that
    asks for tests which are not done yet."""
    for order in orders.values():
        tested = max(order.numbers[id] for id in ("job.dead-tests", "job.closed-tests"))
        bars = [order.numbers[hold.step] for hold in order.holds if hold.kind == "power"]
        assert bars and min(bars) > tested
