"""The hole card and the tools."""

import pytest
from invented_job import demo_text, inch, make_plan, sheet_of, v

from standfast.equipment.read import read, shipped
from standfast.fieldwork.holes import hole_card, passes
from standfast.fieldwork.joints import joints
from standfast.fieldwork.plan import Plan, Spot
from standfast.fieldwork.tools import tools, torque_tools
from standfast.sheet import missing
from standfast.units import torque_both


def concrete(plan: Plan) -> Plan:
    held = plan.held[0]._replace(base="concrete", fastener=sheet_of("demo-anchor-3-8"), dense=None, lining=inch(0))
    return plan._replace(held=(held,))


def test_scan_comes_first_at_every_hole_then_dust_control_of_the_material(plan: Plan) -> None:
    wood, hard = hole_card(plan).first, hole_card(concrete(plan)).first
    assert wood[0] == hard[0]
    assert "Scan" in wood[0]
    assert "silica" in hard[1]
    assert "silica" not in " ".join(wood)


def test_a_lag_has_a_shank_hole_and_a_lead_hole_measured_from_the_face(plan: Plan) -> None:
    shank, lead = passes(plan.held[0])
    assert (shank.kind, lead.kind) == ("shank hole", "lead hole")
    assert lead.depth.quantity == pytest.approx((4 - 0.125) * 25.4)
    assert shank.depth.quantity == pytest.approx((4 - 2.5 - 0.125) * 25.4)
    assert shank.bit.quantity > lead.bit.quantity


def test_dense_wood_takes_a_larger_lead_hole_and_unknown_wood_none(plan: Plan) -> None:
    soft, dense = (passes(plan.held[0]._replace(dense=dense))[1].bit for dense in (False, True))
    assert dense.quantity > soft.quantity
    assert passes(plan.held[0]._replace(dense=None))[1].bit.missing


def test_an_anchor_has_one_hole_deep_enough_for_it_behind_a_thin_bracket_and_the_lining(plan: Plan) -> None:
    """The screw anchor goes in 5/8 in farther than its report asks, because the bracket is thin: so must the hole."""
    held = concrete(plan).held[0]
    (hole,) = passes(held)
    assert hole.depth.quantity == pytest.approx((3.625 + 0.625) * 25.4)
    assert passes(held._replace(lining=inch(0.5)))[0].depth.quantity == pytest.approx((4.25 + 0.5) * 25.4)
    thick = passes(held._replace(plate=inch(1.0)))[0]
    assert thick.depth.quantity == pytest.approx(3.625 * 25.4)


def test_rows_are_numbered_and_in_both_units(plan: Plan) -> None:
    card = hole_card(plan)
    assert [hole.id for hole in card.holes] == [f"battery-1/H{number}" for number in range(1, 7)]
    assert card.holes[0].across == "8 ft 8 in (2642 mm)"
    assert "garage-east" in card.datums[0]


@pytest.mark.parametrize(
    ("old", "new", "stop"),
    [
        ('asbestos = "not found"', 'asbestos = "found"', "abatement"),
        ('asbestos = "not found"', "", "asbestos"),
        ('lead = "not found"', 'lead = "found"', "lead-safe"),
        ('hidden_services = "scanned"', 'hidden_services = "not scanned"', "scan the whole area"),
    ],
)
def test_nobody_drills_before_what_is_in_the_wall_is_known(old: str, new: str, stop: str) -> None:
    assert not hole_card(make_plan()).stop
    text = demo_text()
    assert old in text
    assert any(stop in line for line in hole_card(make_plan(text.replace(old, new))).stop)


def test_every_stated_torque_of_the_job_is_covered_by_a_tool_in_its_range(plan: Plan) -> None:
    rows = [row for row in tools(plan).rows if row.shelf == "torque"]
    for joint in joints(plan):
        if not joint.torque.missing:
            assert sum(joint.shown in row.use for row in rows) == 1, joint.name
    assert not any("no usual" in line for line in tools(plan).uncovered)


def test_a_torque_beyond_every_tool_is_said(plan: Plan) -> None:
    heavy = joints(plan)[0]._replace(torque=v("T", 900.0, "N·m"), shown="900 N·m")
    rows, uncovered, _ = torque_tools(plan, [heavy])
    assert not [row for row in rows if "N·m" in row.use]
    assert len(uncovered) == 1


def test_every_stated_torque_has_its_tool_on_the_torque_table(plan: Plan) -> None:
    by_joint = tools(plan).by_joint
    assert set(by_joint) == {joint.id for joint in joints(plan) if not joint.torque.missing}
    assert by_joint["battery-1/ac-lines"] == "Torque screwdriver"
    assert by_joint["battery-1/hang-bolts"] == "Torque wrench, 1/4 in drive"


def test_what_the_maker_names_stands_once(plan: Plan) -> None:
    """Its level, tape, drill, bit, scanner, vacuum, sockets and torque tools are those of the list; the template is in
    the box."""
    rows = tools(plan).rows
    assert [row.what for row in rows if row.shelf == "named by the maker"] == ["10 mm socket"]
    assert len({row.what for row in rows}) == len(rows)


def test_a_tool_that_nobody_derives_is_named_by_the_maker(plan: Plan) -> None:
    text = shipped()["demo-wall-10"].replace('tools = ["level", "tape", "template"]', 'tools = ["chalk line", "tape"]')
    sheet = read(text, "battery.toml").sheet
    assert sheet is not None
    sheets = {**plan.sheets, "battery": sheet}
    named = [row for row in tools(plan._replace(sheets=sheets)).rows if row.shelf == "named by the maker"]
    assert [row.what for row in named] == ["10 mm socket", "chalk line"]


def test_high_holes_ask_for_a_platform_and_the_lock_for_lamps(plan: Plan) -> None:
    names = [row.what for row in tools(plan).rows]
    low = plan.held[0]._replace(spots=(Spot(inch(100), inch(40)),))
    assert any("platform" in name for name in [row.what for row in tools(_raised(plan, 12)).rows])
    assert not any("platform" in row.what for row in tools(plan._replace(held=(low,))).rows)
    assert "Work lamps on battery" in names and any(name.startswith("Marking paint") for name in names)


def _raised(plan: Plan, by: float) -> Plan:
    held = plan.held[0]
    spots = tuple(Spot(spot.x, inch(spot.y.quantity / 25.4 + by)) for spot in held.spots)
    return plan._replace(held=(held._replace(spots=spots),))


@pytest.mark.parametrize(
    ("newton_metre", "text"),
    [(1.808, "1.81 N·m (16 lbf·in)"), (9.0, "9 N·m (79.7 lbf·in)"), (67.79, "67.8 N·m (50 lbf·ft)")],
)
def test_torques_have_the_digits_that_a_tool_can_be_set_to(newton_metre: float, text: str) -> None:
    assert torque_both(newton_metre) == text


def test_the_hole_card_holds_the_hole_to_its_stud(plan: Plan) -> None:
    held = plan.held[0]._replace(stray=inch(9 / 32))
    line = hole_card(plan._replace(held=(held,))).tolerance
    assert "within 9/32 in (7 mm) of the middle of its stud" in line and "3/8 in (10 mm)" in line


def test_a_torque_that_no_sheet_states_is_read_from_the_part(plan: Plan) -> None:
    """Bars, the main of the new panel, and one-pole breakers: the sheet of the family is of one with two poles."""
    unstated = [joint for joint in joints(plan) if joint.torque.missing]
    breakers = [joint for joint in unstated if joint.name.endswith("breaker: load terminals")]
    assert [joint.name for joint in unstated if joint not in breakers] == [
        "Main panel: neutral and ground bars",
        "Backup panel: terminals of the main, lines of the feeder",
        "Backup panel: neutral and ground bars",
    ]
    assert breakers and all(joint.number.quantity == 1 for joint in breakers)
    assert all(any(joint.name in line for line in tools(plan).uncovered) for joint in unstated)


def test_joints_count_what_is_tightened(plan: Plan) -> None:
    found = {joint.id: joint for joint in joints(plan)}
    assert found["battery-1/hang-bolts"].number.quantity == 4
    assert found["battery-1/hang-bolts"].shown == "9 N·m (79.7 lbf·in)"
    assert found["backup/refrigerator/lines"].number.quantity == 1
    assert found["battery-1/breaker/lines"].number.quantity == 2
    assert "main/range/lines" not in found
    anchors = {joint.id: joint for joint in joints(concrete(plan))}
    assert anchors["battery-1/anchors"].number.quantity == 6


def test_bits_fit_the_material_and_the_deepest_hole(plan: Plan) -> None:
    bits = [row.what for row in tools(concrete(plan)).rows if "Hammer bit" in row.what]
    assert len(bits) == 1
    assert bits[0].startswith("Hammer bit 3/8 in (9.5 mm) for concrete, long enough for 4-1/4 in (108 mm)")
    assert any("HEPA" in row.what for row in tools(concrete(plan)).rows)
    unknown = plan.held[0]._replace(plate=missing("t_plate", "mm", "fixing.plate"))
    assert any("not known yet" in row.what for row in tools(plan._replace(held=(unknown,))).rows)


def test_no_aid_no_row_for_it(plan: Plan) -> None:
    assert [row.what for row in tools(plan).rows if row.shelf == "lifting"] == ["Hand-cranked wall lift 160"]
    assert not [row for row in tools(plan._replace(lift=None)).rows if row.shelf == "lifting"]
