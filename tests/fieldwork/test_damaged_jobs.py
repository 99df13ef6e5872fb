"""Jobs that are not the demo's: another wall, a weak or missing aid, a bad way. The papers must follow."""

import pytest
from invented_job import demo_text
from test_derive import derived
from test_lifting import lifted, sheet, verdicts, way

from standfast.fieldwork.holes import hole_card
from standfast.fieldwork.joints import joints
from standfast.fieldwork.materials import materials
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.tools import tools
from standfast.fieldwork.work_order import work_order

SOLID = """[walls.build_up]
kind = "concrete"
lining = "none"
concrete_strength = "3000 psi"
concrete_kind = "normalweight"
concrete_thickness = "6 in"

"""


@pytest.fixture(scope="module")
def concrete() -> Plan:
    text = demo_text()
    start = text.index("[walls.build_up]")
    return derived(text[:start] + SOLID + text[text.index("[[walls.obstacles]]", start) :])


def test_a_solid_wall_takes_no_screws_for_studs(concrete: Plan) -> None:
    rows = materials(concrete).rows
    assert not any("ag screw" in row.what or "Wood screw" in row.what or "Backing" in row.what for row in rows)
    assert any(row.what.startswith("Screw anchor") for row in rows)
    assert any(row.what.startswith("Anchors for devices") for row in rows)
    steps = work_order(concrete).steps
    assert not any("stud" in each.text for each in steps if each.id.startswith("job."))


def test_anchors_are_set_with_torque_before_the_unit_hangs(concrete: Plan) -> None:
    """The maker's step speaks of screws in studs: the step says which fastener counts, and has a space for each."""
    order = work_order(concrete)
    step = next(each for each in order.steps if each.id == "battery-1.bracket-on")
    assert any("Screw anchor" in line for line in step.first)
    assert [line for line in step.torque if line.endswith("67.8 N·m (50 lbf·ft)")]
    assert sum(reading.spaces for reading in step.readings if "Screw anchor" in reading.what) == 6
    assert order.numbers["battery-1.drill"] < order.numbers[step.id] < order.numbers["battery-1.hang"]


def test_every_joint_that_has_a_torque_has_it_at_one_step(concrete: Plan) -> None:
    for plan in (concrete, derived(demo_text())):
        at_steps = [line for step in work_order(plan).steps for line in step.torque]
        assert sorted(at_steps) == sorted(f"{joint.name}: {joint.shown}" for joint in joints(plan))


def test_dust_of_concrete_is_held_back_and_the_bit_is_a_hammer_bit(concrete: Plan) -> None:
    assert any("silica" in line for line in hole_card(concrete).first)
    names = [row.what for row in tools(concrete).rows]
    assert any(name.startswith("Hammer bit 3/8 in") for name in names)
    assert any(name.startswith("Torque wrench, 1/2 in drive, 50 lbf·ft to 250 lbf·ft") for name in names)
    assert not any("stud" in name.lower() for name in names)


def test_an_aid_that_is_too_weak_fails_and_says_so() -> None:
    found = lifted(aid=sheet("demo-wall-lift", ('rated_load = "160 kg"', 'rated_load = "100 kg"')))
    check = next(check for check in found.checks if check.id == "lifting.part/battery-1/unit")
    assert check.verdict == "fail" and check.reason.endswith("choose an aid that is rated for it")
    assert [check.id for check in found.checks if check.open] == ["lifting.part/battery-1/unit"]


def test_a_wet_floor_refuses_the_aid_and_asks_for_a_better_way_for_light_parts() -> None:
    """A cover of 3 kg does not need an aid: nobody can tell, until the way is made good."""
    found = lifted(floor='"wet"')
    open_checks = {key: verdict for key, verdict in verdicts(found).items() if verdict != "pass"}
    assert open_checks == {
        "aid-floor/battery-1/unit": "fail",
        "part/battery-1/bracket": "cannot tell",
        "part/battery-1/cover": "cannot tell",
    }
    reasons = [check.reason for check in found.checks if check.open]
    assert all("way" in reason or "floor" in reason for reason in reasons)
    assert way(found, "cover") == "no way known"


def test_steps_refuse_the_aid_and_light_parts_are_carried_over_them_on_a_condition() -> None:
    found = lifted(steps="3")
    open_checks = {key: verdict for key, verdict in verdicts(found).items() if verdict != "pass"}
    assert open_checks == {"aid-steps/battery-1/unit": "fail"}
    carried = [
        check
        for check in found.checks
        if check.id in ("lifting.part/battery-1/bracket", "lifting.part/battery-1/cover")
    ]
    assert [bool(check.condition) for check in carried] == [True, True]
    assert way(found, "cover") == "one person"


def test_one_person_alone_does_not_run_an_aid_for_two() -> None:
    (check,) = [check for check in lifted(crew="1").checks if check.open]
    assert check.id == "lifting.aid-crew/battery-1/unit" and "more people" in check.reason
