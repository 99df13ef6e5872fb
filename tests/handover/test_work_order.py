"""The work order on paper: cautions before steps, torques in both units, holes, tests, spaces to write in."""

from typing import get_args

import pytest

from standfast import shelf
from standfast.equipment.prices import shipped
from standfast.fieldwork.cut_plan import cut_plans
from standfast.fieldwork.delivery import delivery
from standfast.fieldwork.material import Group
from standfast.fieldwork.materials import materials
from standfast.fieldwork.pick_list import Store, pick_list
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import STAGES
from standfast.fieldwork.tools import Shelf, tools
from standfast.fieldwork.work_order import work_order
from standfast.handover.van_sheets import Van
from standfast.handover.work_order import ISSUED, WAIT, Work, work_order_document
from standfast.paper.document import Block, Document, Frame, Sheet, StepCard, Table, Words
from standfast.paper.pdf import Press
from standfast.words import has


@pytest.fixture(scope="module")
def work(plan: Plan) -> Work:
    order = work_order(plan)
    bill, gear = materials(plan), tools(plan)
    van = Van(pick_list(plan, bill, gear, order, Store(None, shipped())), cut_plans(plan), delivery(plan))
    return Work(plan, b"schema = 1\n", shelf.adoption("us-2021"), bill, gear, [], order, van)


def sheet(document: Document, code: str) -> Sheet:
    return next(each for each in document.sheets if each.code == code)


def tables(blocks: "tuple[Block, ...] | list[Block]") -> list[Table]:
    return [block for block in blocks if isinstance(block, Table)]


def test_every_step_stands_once_in_its_order_with_its_cautions(work: Work) -> None:
    cards = [block for block in sheet(work_order_document(work), "W8").blocks if isinstance(block, StepCard)]
    cards = [card for card in cards if card.number.isdigit()]
    assert [card.text for card in cards] == [step.text for step in work.order.steps]
    assert [card.number for card in cards] == [str(number) for number in range(1, len(cards) + 1)]
    assert [tuple(card.cautions) for card in cards] == [step.cautions for step in work.order.steps]
    hung = next(card for card in cards if card.text.startswith("Battery 1: Lift the unit with the aid"))
    assert "Nobody stands or reaches under the unit." in hung.cautions


def test_torques_are_printed_in_both_units(work: Work) -> None:
    rows = tables(list(sheet(work_order_document(work), "W7").blocks))[0].rows
    bolts = next(row for row in rows if row[0] == {"style": "bold", "text": "Battery 1: Unit to bracket"})
    assert bolts[1] == "4" and bolts[2] == {"style": "bold", "text": "9 N·m (79.7 lbf·in)"}


def test_each_hole_has_its_place_bits_and_a_box_for_the_scan(work: Work) -> None:
    document = work_order_document(work)
    holes = tables(list(sheet(document, "W5").blocks))[0].rows
    assert len(holes) == 6
    first = holes[0]
    assert (
        first[0] == {"style": "bold", "text": "battery-1/H1"}
        and "(2802 mm)" in str(first[2])
        and "(1052 mm)" in str(first[3])
    )
    assert "3/16 in" in str(first[4]) and "deep" in str(first[4])
    assert first[6] == first[7] == {"style": "box", "text": ""}
    frames = [block for block in sheet(document, "W5").blocks if isinstance(block, Frame)]
    assert "Scan the wall" in str(frames[0].blocks)  # before anything else at the hole


def test_a_set_that_is_not_ready_stops_the_work_on_every_sheet(work: Work) -> None:
    assert work_order_document(work).strip.state == ISSUED
    stopped = work_order_document(work._replace(against=("1 check fails",)))
    assert stopped.strip.state == WAIT
    frames = [block for block in sheet(stopped, "W1").blocks if isinstance(block, Frame) and block.look == "state"]
    assert "1 check fails" in str(frames[0].blocks)


def test_a_lift_that_was_not_found_is_told_and_not_guessed(work: Work) -> None:
    plan = work.plan._replace(lift=None)
    blocks = sheet(work_order_document(work._replace(plan=plan)), "W4").blocks
    assert isinstance(blocks[0], Frame) and "Nobody lifts" in str(blocks[0].blocks)


def test_every_material_tool_and_test_is_on_paper(work: Work) -> None:
    document = work_order_document(work)
    assert sum(len(each.rows) for each in tables(list(sheet(document, "W2").blocks))) == len(work.materials.rows)
    assert sum(len(each.rows) for each in tables(list(sheet(document, "W3").blocks))) == len(work.tools.rows)
    [tests] = tables(list(sheet(document, "W9").blocks))
    assert [row[0] for row in tests.rows] == [{"style": "bold", "text": test.id} for test in work.order.tests]


def test_every_test_stands_with_its_spaces_behind_the_step_that_does_it(work: Work) -> None:
    numbers = [card.number for card in sheet(work_order_document(work), "W8").blocks if isinstance(card, StepCard)]
    for test in work.order.tests:
        steps = [number for number in numbers[: numbers.index(test.id)] if not number.startswith("T")]
        assert steps[-1] == str(work.order.numbers[work.order.done_at[test.id]])


def test_it_prints_and_prints_the_same_again(work: Work, press: Press) -> None:
    first, second = press.pdf(work_order_document(work)), press.pdf(work_order_document(work))
    assert first.pdf == second.pdf
    assert list(first.numbers) == ["W1", "V1", "V2", "V3", *(f"W{number}" for number in range(2, 11))]


def test_every_heading_can_be_said() -> None:
    words = [f"group_{word}" for word in get_args(Group)] + [f"shelf_{word}" for word in get_args(Shelf)]
    words += [f"stage_{word}" for word in STAGES]
    assert [word for word in words if not has(f"paper.{word.replace(' ', '_')}")] == []


def test_every_joint_has_a_space_of_its_own(work: Work) -> None:
    cards = [block for block in sheet(work_order_document(work), "W8").blocks if isinstance(block, StepCard)]
    bolts = next(card for card in cards if card.text.startswith("Battery 1: Bolt the unit"))
    assert bolts.ticks == [("Battery 1: Unit to bracket: tightened and marked", "9 N·m (79.7 lbf·in), data sheet", 4)]
    assert [what for what, _, _ in bolts.readings] == ["torque tool number and calibration date"]
    assert [name for name, _ in bolts.facts] == ["Tools"], "the torque stands once, beside the boxes"


def test_w6_locks_both_switches_and_says_which_supply_side_stays_live(work: Work) -> None:
    blocks = list(sheet(work_order_document(work), "W6").blocks)
    opened = [str(row[0]) for row in tables(blocks)[0].rows if row[2] == "open, lock and tag"]
    assert len(opened) == 2 and "Service disconnect" in opened[0] and "Emergency disconnect" in opened[1]
    told = [block.text for block in blocks if isinstance(block, Words)]
    assert any("supply side of Service disconnect" in str(text) for text in told)
    assert any(str(text).startswith("Emergency disconnect: ") and "stay live" in str(text) for text in told)
