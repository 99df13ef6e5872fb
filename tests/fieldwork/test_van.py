"""The van holds what the work asks: nothing of the steps, joints, tests and labels is missing from the lists."""

from collections import Counter
from pathlib import Path

import pytest
from invented_job import make_plan as invented_plan
from invented_job import v

from standfast.commissioning.due import due_tests
from standfast.equipment.prices import shipped
from standfast.fieldwork.by_maker import same_thing, words
from standfast.fieldwork.cut_plan import CutPlan, cut_plans, told
from standfast.fieldwork.delivery import DAMAGE, delivery, numbered
from standfast.fieldwork.instruments import NOTHING, instruments, site_of
from standfast.fieldwork.joints import joints
from standfast.fieldwork.materials import Materials, materials
from standfast.fieldwork.pick_list import ORDER, Pick, Store, pick_list
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import tenths
from standfast.fieldwork.runs import cable_cuts, conductor_cuts, of_one_kind
from standfast.fieldwork.tools import tools
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import DEMOS, write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.sheet import missing

WHOLE = [name for name in DEMOS if name != "faulty"]
NO_FIRM = Store(None, shipped())


@pytest.fixture(scope="module", params=WHOLE)
def job(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Plan, WorkOrder]:
    folder: Path = tmp_path_factory.mktemp(request.param)
    plan = sitework(make_plan(write_demo(request.param, folder)))
    return plan, work_order(plan)


def test_every_tool_that_a_step_or_a_joint_names_is_on_the_van_or_in_a_box(job: tuple[Plan, WorkOrder]) -> None:
    plan, order = job
    rows, boxed = tools(plan).rows, [item.name for each in plan.devices for item in each.sheet.box.contents]
    asked = {tool for step in order.steps for tool in step.tools}
    asked |= {tool for joint in joints(plan) for tool in joint.tool.split(" and ") if tool}
    for tool in asked:
        there = any(same_thing(tool, row.what, row.also) for row in rows) or any(
            same_thing(tool, name) for name in boxed
        )
        assert there, tool


def test_every_joint_has_its_torque_tool_or_is_told_to_have_none(job: tuple[Plan, WorkOrder]) -> None:
    plan, order = job
    found = tools(plan)
    listed = {row.what.split(",")[0] for row in found.rows}
    for joint in order.joints:
        tool = found.by_joint.get(joint.id)
        if tool is None:
            assert any(joint.name in line for line in found.uncovered), joint.name
        else:
            assert tool.split(",")[0] in listed
            assert any(joint.torque.quantity in row.settings_nm for row in found.rows)


def test_every_due_test_has_its_instrument_on_the_van(job: tuple[Plan, WorkOrder]) -> None:
    plan, order = job
    known = {str(row["test"]) for row in plan.practice.table("instruments").rows}
    assert {test.key for test in order.tests} <= known
    asked = instruments(plan, order.tests)
    assert NOTHING not in asked
    assert set(asked) <= {row.instrument for row in tools(plan).rows}
    assert [test.id for test in due_tests(site_of(plan))] == [test.id for test in order.tests]


def test_parts_of_the_steps_come_in_a_box_or_are_on_the_list(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    bill = materials(plan)
    for device in plan.devices:
        sheet, own = device.sheet, {part.id for part in device.sheet.parts}
        names = [*(item.name for item in sheet.box.contents), *(row.what for row in bill.rows)]
        names += [item.name for item in sheet.box.not_in_box]
        for part in (part for step in sheet.steps for part in step.parts if part not in own):
            assert any(words(part) <= words(name) for name in names), (sheet.id, part)


def test_every_label_is_counted(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    counted = [row for row in materials(plan).rows if row.group == "labels"]
    assert sum(row.quantity.quantity for row in counted) == sum(label.number for label in plan.labels)
    assert {id for row in counted for id in row.of} == {label.id for label in plan.labels}


def picks_of(plan: Plan, order: WorkOrder, bill: Materials | None = None) -> list[Pick]:
    return pick_list(plan, bill or materials(plan), tools(plan), order, NO_FIRM)


def test_the_pick_list_has_a_place_and_a_step_for_every_row_and_loses_none(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    bill, picks = materials(plan), picks_of(*job)
    loaded = {row.what for row in bill.rows if row.quantity.missing or row.quantity.quantity > 0}
    assert loaded | {row.what for row in tools(plan).rows} <= {pick.what for pick in picks}
    assert not any(pick.amount == "0" for pick in picks)
    assert all(pick.steps for pick in picks), [pick.what for pick in picks if not pick.steps]
    assert all(pick.why and pick.ground for pick in picks), [pick.what for pick in picks if not pick.ground]
    assert [ORDER.index(pick.place) for pick in picks] == sorted(ORDER.index(pick.place) for pick in picks)
    pieces = Counter[str]()
    for row in bill.rows:
        if not row.quantity.missing and row.amount == f"{row.quantity.quantity:g}":
            pieces[row.what] += round(row.quantity.quantity)
    for pick in picks:
        if pick.what in pieces and pick.amount.isdecimal() and pick.place != "in the boxes":
            assert int(pick.amount) == pieces[pick.what], pick.what


def lengths(plan: Plan, found: CutPlan) -> list[int]:
    """What every run of a cut plan takes, found another way: of each run one length, or one a conductor."""
    if found.ware == "raceway":
        return [
            tenths(part.length)
            for run in plan.runs
            for part in of_one_kind(run)
            if run.id in found.runs and not part.raceway.missing and not part.trade_size.missing
            and f" {part.trade_size.word} in," in found.what
        ]  # fmt: skip
    if found.ware == "cable":
        return [tenths(cut) for laid in cable_cuts(plan).values() for each, cut in laid if each.id in found.runs]
    return []


def test_the_cut_plan_holds_every_piece_with_no_waste_below_nothing(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    for found in cut_plans(plan):
        placed = sorted(at for bar in found.cuts.bars for at in bar)
        assert sorted([*placed, *found.cuts.too_long]) == list(range(len(found.pieces)))
        assert all(waste >= 0 for waste in found.cuts.waste)
        assert len(found.cuts.bars) >= found.cuts.bound
        assert found.cuts.proven
        if found.number.missing:
            assert len(told(plan, found)) == 1
            continue
        if found.ware != "conductor":
            assert sum(each.length for each in found.pieces) >= sum(lengths(plan, found)) - 254 * len(found.pieces)
            assert sum(each.length for each in found.pieces) >= max(lengths(plan, found))


def test_the_pieces_of_conductors_are_those_of_the_bill(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    cuts = [each for found in conductor_cuts(plan).values() for each in found if not each.length.missing]
    pieces = [each for found in cut_plans(plan) if found.ware == "conductor" for each in found.pieces]
    assert sum(each.length for each in pieces) == sum(
        tenths(each.length) * round(each.pieces.quantity) for each in cuts
    )


def test_a_serial_number_is_asked_of_every_unit_and_module(job: tuple[Plan, WorkOrder]) -> None:
    plan, _ = job
    rows = delivery(plan)
    for device in plan.devices:
        mine = [row for row in rows if row.device == device.name]
        asked = sum(count or 1 for _, count in numbered(device))
        assert sum(row.kind == "serial number" for row in mine) == asked
        contents = [(row.what, row.number) for row in mine if row.kind == "contents"]
        assert contents == [(item.name, f"{item.count:g}") for item in device.sheet.box.contents]
    assert [row.kind for row in rows].count("damage") == len(DAMAGE)
    assert all(
        "DO NOT INSTALL" in row.todo and "quarantine outdoors" in row.todo for row in rows if row.kind == "damage"
    )


def test_each_module_of_a_stack_has_a_space_for_its_number(tmp_path: Path) -> None:
    plan = sitework(make_plan(write_demo("stack-outdoors", tmp_path)))
    modules = [row.what for row in delivery(plan) if row.kind == "serial number" and "module" in row.what.lower()]
    assert len(modules) == 5
    assert modules[0].endswith("1 of 5")


def test_a_length_that_nobody_knows_makes_no_bar_and_no_zero() -> None:
    plan = invented_plan()
    unknown = plan.runs[0]._replace(length=missing("L_max", "ft", "routes.battery-run.length"))
    plan = plan._replace(runs=[unknown, *plan.runs[1:]])
    open_plans = [found for found in cut_plans(plan) if unknown.id in found.runs]
    assert open_plans
    for found in open_plans:
        assert found.number.missing
        assert "routes.battery-run.length" in told(plan, found)[0]
    rows = [row for row in materials(plan).rows if unknown.id in row.of and row.group in ("conductors", "raceway")]
    lengthwise = [row for row in rows if "Conductor" in row.what or "sticks" in row.what]
    assert lengthwise and {row.amount for row in lengthwise} == {"not known"}


def test_more_length_never_needs_fewer_bars_and_two_runs_share_a_stick() -> None:
    plan, bars = invented_plan(), list[float]()
    for tenth in range(10, 260, 7):
        runs = [plan.runs[0]._replace(length=v("L_max", tenth / 10, "ft")), plan.runs[0]._replace(id="other")]
        (found,) = [each for each in cut_plans(plan._replace(runs=runs)) if each.ware == "raceway"]
        bars.append(found.number.quantity)
    assert bars == sorted(bars)
    short = [plan.runs[0]._replace(id=f"r{number}", length=v("L_max", 3.2, "ft")) for number in range(3)]
    (shared,) = [each for each in cut_plans(plan._replace(runs=short)) if each.ware == "raceway"]
    assert shared.number.quantity == 1


def test_a_cut_that_is_longer_than_every_spool_is_told() -> None:
    plan = invented_plan()
    far = plan.runs[0]._replace(length=v("L_max", 700.0, "ft"))
    found = [each for each in cut_plans(plan._replace(runs=[far])) if each.ware == "conductor"]
    assert found and all(each.number.missing and "one length" in told(plan, each)[0] for each in found)
