"""The firm's own tools: every torque in the range of one, every due test read with one, in calibration on the day."""

import pytest
from invented_job import make_plan

from standfast.equipment.prices import Prices, shipped
from standfast.fieldwork.covering import best, checks, ends_nm, faults
from standfast.fieldwork.instruments import READERS, due
from standfast.fieldwork.joints import joints
from standfast.fieldwork.materials import materials
from standfast.fieldwork.own_things import owned
from standfast.fieldwork.pick_list import Pick, Store, pick_list
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.tools import tools
from standfast.fieldwork.work_order import work_order
from standfast.sheet import Check
from standfast.survey.firm import Firm, FirmFile, read

HEAD = 'schema = 1\n[firm]\nname = "Invented Electric"\ninvented = true\n'
DRIVER = """
[[tools]]
id = "driver"
kind = "torque screwdriver"
torque_min = "5 lbf.in"
torque_max = "50 lbf.in"
calibrated_until = 2027-02-01
"""
WRENCH = """
[[tools]]
id = "wrench"
kind = "torque wrench"
torque_min = "40 lbf.in"
torque_max = "200 lbf.in"
calibrated_until = 2027-02-01
"""
METERS = """
[[tools]]
id = "all-in-one"
kind = "multifunction tester"
functions = ["insulation tester", "low-resistance ohmmeter", "multimeter"]
rated_voltage = "1000 V"
calibrated_until = 2027-02-01

[[tools]]
id = "clamp"
kind = "clamp meter"
rated_voltage = "600 V"
calibrated_until = 2027-02-01
"""


def file(*tools: str, more: str = "") -> FirmFile:
    found = read(HEAD + "".join(tools) + more, "firm.toml")
    assert found.firm is not None and not found.faults, found.faults
    return found.firm


def firm(*tools: str, more: str = "") -> Firm:
    return file(*tools, more=more).firm


def of(plan: Plan, *tools: str) -> dict[str, Check]:
    return {check.id: check for check in checks(file(*tools), plan)}


def wrong(plan: Plan, *tools: str) -> list[str]:
    return [str(fault) for fault in faults(file(*tools), plan)]


def test_tools_that_cover_everything_pass(plan: Plan) -> None:
    found = of(plan, DRIVER, WRENCH, METERS)
    asked = {f"fieldwork.instrument/{name.replace(' ', '-')}" for name in due(plan) if name not in READERS}
    assert found.keys() == {"fieldwork.torque-tools", *asked}
    assert {check.verdict for check in found.values()} == {"pass"}


def test_a_torque_that_no_tool_covers_is_named_with_its_joint_and_the_tools_that_are_there(plan: Plan) -> None:
    check = of(plan, DRIVER)["fieldwork.torque-tools"]
    assert check.verdict == "fail"
    assert "no tool covers 9 N·m (79.7 lbf·in) (Battery 1" in check.reason
    assert "16 lbf·in" not in check.reason
    (fault,) = wrong(plan, DRIVER, METERS)
    assert fault == check.reason
    assert fault.startswith("firm.toml:10:14: ")  # its greatest setting
    assert "Unit to bracket, demo-wall-10.toml:" in fault
    assert "torque screwdriver driver (5 lbf.in to 50 lbf.in) (bring one that covers it" in fault


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('torque_max = "200 lbf.in"\n', "", "write torque_max of wrench"),
        ('torque_min = "40 lbf.in"\ntorque_max = "200 lbf.in"', 'torque_max = "450 lbf.in"',
         "write torque_min of wrench"),
        ("calibrated_until = 2027-02-01\n", "", "write calibrated_until of wrench"),
    ],
    ids=["no end", "below a fifth of its scale", "no date"],
)  # fmt: skip
def test_whether_a_wrench_covers_it_cannot_be_told_without_its_range_and_date(
    plan: Plan, old: str, new: str, said: str
) -> None:
    assert old in WRENCH
    check = of(plan, DRIVER, WRENCH.replace(old, new))["fieldwork.torque-tools"]
    assert (check.verdict, said in check.reason) == ("cannot tell", True)
    assert wrong(plan, DRIVER, WRENCH.replace(old, new)) == []


@pytest.mark.parametrize(
    ("old", "new", "place", "said"),
    [
        ('torque_min = "40 lbf.in"', 'torque_min = "90 lbf.in"', "16:14", "wrench (90 lbf.in to 200 lbf.in)"),
        ('torque_max = "200 lbf.in"', 'torque_max = "75 lbf.in"', "17:14", "wrench (40 lbf.in to 75 lbf.in)"),
        ("calibrated_until = 2027-02-01", "calibrated_until = 2025-02-01", "18:20",
         "wrench covers it, its calibration ended 2025-02-01, the job is dated "),
    ],
    ids=["begins above", "ends below", "out of calibration"],
)  # fmt: skip
def test_a_wrench_that_does_not_reach_is_a_fault_at_the_word_that_falls_short(
    plan: Plan, old: str, new: str, place: str, said: str
) -> None:
    assert old in WRENCH
    assert of(plan, DRIVER, WRENCH.replace(old, new))["fieldwork.torque-tools"].verdict == "fail"
    (fault,) = wrong(plan, DRIVER, WRENCH.replace(old, new))
    assert fault.startswith(f"firm.toml:{place}: ") and said in fault


def test_of_two_tools_the_one_with_the_torque_nearer_its_middle_is_taken(plan: Plan) -> None:
    small = WRENCH.replace('"wrench"', '"small"').replace("200", "85")
    ours = firm(WRENCH, small)
    (torque,) = {j.torque.quantity for j in joints(plan) if j.shown.startswith("9 N·m")}
    taken = best(ours, plan, torque)
    assert taken is not None and taken.id == "wrench"
    assert ends_nm(plan.practice, ours.tools[0]) == pytest.approx((4.519, 22.597), rel=1e-3)


@pytest.mark.parametrize(
    ("old", "new", "place", "said"),
    [
        ('"insulation tester", ', "", "6:1", "no tool is the insulation tester, asked by tests T1"),
        ('rated_voltage = "1000 V"', 'rated_voltage = "250 V"', "10:17", "is made for 250 V, 500 V are asked"),
        ("calibrated_until = 2027-02-01", "calibrated_until = 2025-02-01", "11:20", "ended 2025-02-01"),
    ],
    ids=["no function", "voltage too low", "out of calibration"],
)
def test_a_test_that_no_instrument_reads_is_a_fault(plan: Plan, old: str, new: str, place: str, said: str) -> None:
    changed = METERS.replace(old, new, 1)
    check = of(plan, changed)["fieldwork.instrument/insulation-tester"]
    assert check.verdict == "fail"
    fault = next(each for each in wrong(plan, changed) if "insulation tester" in each)
    assert fault == check.reason
    assert fault.startswith(f"firm.toml:{place}: ") and said in fault


def test_an_instrument_without_its_voltage_cannot_be_told(plan: Plan) -> None:
    changed = METERS.replace('rated_voltage = "1000 V"\n', "", 1)
    check = of(plan, changed)["fieldwork.instrument/insulation-tester"]
    assert (check.verdict, "write rated_voltage of all-in-one" in check.reason) == ("cannot tell", True)
    assert wrong(plan, changed) == []


def test_a_firm_that_lists_no_tools_is_asked_for_them(plan: Plan) -> None:
    found = of(plan)
    assert {id: check.verdict for id, check in found.items()} == {
        "fieldwork.torque-tools": "cannot tell", "fieldwork.instruments": "cannot tell",
    }  # fmt: skip
    assert "torque_min, torque_max and calibrated_until" in found["fieldwork.torque-tools"].reason
    assert "9 N·m" in found["fieldwork.torque-tools"].reason
    assert "insulation tester (tests T1)" in found["fieldwork.instruments"].reason
    assert of(plan, METERS)["fieldwork.torque-tools"].verdict == "cannot tell"
    assert wrong(plan) == [] and wrong(plan, METERS) == []


def test_functions_of_what_is_no_multifunction_tester_are_a_fault() -> None:
    wrong = METERS.replace('"multifunction tester"', '"multimeter"')
    (fault,) = read(HEAD + wrong, "firm.toml").faults
    assert "has functions" in str(fault)


def test_the_tool_list_names_the_tool_that_is_taken_for_each_row(plan: Plan) -> None:
    rows = owned(plan, tools(plan), firm(DRIVER, WRENCH, METERS)).rows
    named = {row.what.split(",")[0]: row.use for row in rows if "ours: " in row.use}
    assert named["Torque screwdriver"].endswith("ours: driver, wrench")  # 50 lbf·in is at the end of the driver
    assert named["Torque wrench"].endswith("ours: wrench")
    assert named["Insulation tester with a test voltage of 500 V"].endswith("ours: all-in-one")


def picks(plan: Plan, ours: Firm | None, prices: Prices | None = None) -> dict[str, Pick]:
    store = Store(ours, prices or shipped())
    return {row.what: row for row in pick_list(plan, materials(plan), tools(plan), work_order(plan), store)}


def test_what_lies_in_the_store_is_not_bought_and_the_rest_is_priced() -> None:
    plan = make_plan()
    more = '[[wares]]\nwhat = "cu 10"\nlength = "20 ft"\n\n[[stock]]\nsheet = "demo-lag-5-16"\ncount = 4\n'
    bare, ours = picks(plan, None), picks(plan, firm(more=more))
    black = next(what for what in bare if "10 AWG" in what and what.endswith("black"))
    needed = float(bare[black].amount.removesuffix(" ft"))
    assert (bare[black].have, bare[black].buy) == ("", f"{needed:g} ft")
    assert (ours[black].have, ours[black].buy) == ("20 ft", f"{max(0.0, needed - 20):g} ft")
    lag = next(what for what in ours if what.startswith("Lag screw 5/16"))
    assert (ours[lag].have, ours[lag].buy) == ("4", "3")
    assert ours[lag].cost == "4.20 USD (invented price)"
    assert all(not row.cost for row in picks(plan, None, Prices(True, "USD", {})).values())
