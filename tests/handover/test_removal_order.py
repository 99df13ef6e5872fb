"""The removal order as paper: condition first, all that is turned with its boxes, holds, and no leave to send."""

from pathlib import Path

import pytest

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.foreman.removals import aftercare_papers, planned
from standfast.paper.document import Document, Frame, HoldBar, StepCard, Table

Orders = dict[str, Document]


@pytest.fixture(scope="module")
def orders(tmp_path_factory: pytest.TempPathFactory) -> Orders:
    job = make_plan(write_demo("stack_outdoors", tmp_path_factory.mktemp("job") / "house"), runner_up=False)
    return aftercare_papers(job, sitework(job), ["es"])


def test_the_question_of_damage_stands_on_the_first_sheet(orders: Orders) -> None:
    first = orders["removal"].sheets[0]
    frames = [block for block in first.blocks if isinstance(block, Frame)]
    assert [frame.look for frame in frames] == ["state", "plain", "caution"]
    assert "Do not go to it" in repr(frames[0])


def test_everything_that_is_opened_and_proved_has_its_boxes(orders: Orders, tmp_path: Path) -> None:
    job = make_plan(write_demo("stack_outdoors", tmp_path / "house"), runner_up=False)
    made = planned(job, sitework(job))["sound"]
    turned, proved, held = (block for block in orders["removal"].sheets[1].blocks if isinstance(block, Table))
    names = {made.decided.house.called(gate) for gate in made.parted.opened}
    assert len(turned.rows) == len(names) and all(name in repr(turned.rows) for name in names)
    assert len(proved.rows) == sum(1 for each in made.steps if each.proves)
    told = repr(held.rows)
    assert "NFPA 70E 120.5" in told and "common practice" in told and "NOT KEPT" not in told
    assert told.count("'kept'") == 11 and "inverter off, before: battery breaker off" in told


@pytest.mark.parametrize("place", [2, 3])
def test_hands_and_power_wait_at_a_hold(orders: Orders, place: int) -> None:
    blocks = orders["removal"].sheets[place].blocks
    texts = [block.text if isinstance(block, StepCard | HoldBar) else "" for block in blocks]
    holds = [number for number, block in enumerate(blocks) if isinstance(block, HoldBar)]
    assert len(holds) >= 2
    cables = next(number for number, text in enumerate(texts) if "take the conductors out" in text)
    power = next(number for number, text in enumerate(texts) if text.startswith("Each person takes off"))
    assert any(hold < cables for hold in holds) and power - 1 in holds


def test_both_languages_have_the_same_sheets_steps_and_numbers(orders: Orders) -> None:
    english, spanish = orders["removal"], orders["removal.es"]
    assert spanish.language == "es"
    for one, other in zip(english.sheets, spanish.sheets, strict=True):
        assert [type(block) for block in one.blocks] == [type(block) for block in other.blocks]
        cards = [[block.number for block in each.blocks if isinstance(block, StepCard)] for each in (one, other)]
        assert cards[0] == cards[1]


def test_no_paper_gives_leave_to_send_it(orders: Orders) -> None:
    told = repr(orders["removal"].sheets).lower()
    assert "safe to transport" not in told and "gives no leave" in told and "173.185(f)" in told


def test_the_service_sheet_has_every_service_of_every_unit(orders: Orders) -> None:
    sheet = orders["service"]
    titles = [each.title for each in sheet.sheets]
    assert titles == [
        "Which service, and which sheet", "Replace a module of Battery 1", "Replace the head of Battery 1",
        "Replace Inverter", "Replace all of Battery 1", "Update the firmware of Battery 1, Inverter",
    ]  # fmt: skip
    first = next(block for block in sheet.sheets[0].blocks if isinstance(block, Table))
    assert [repr(row[0]).count(f"S{number}") for number, row in enumerate(first.rows, 2)] == [1] * 5
    for each in sheet.sheets[1:]:
        cards = [block.number for block in each.blocks if isinstance(block, StepCard)]
        assert cards[0] == "1" and any(number.startswith("T") for number in cards)
        assert sum(isinstance(block, HoldBar) for block in each.blocks) >= (0 if "firmware" in each.title else 3)
        told = repr(each.blocks)
        assert "For the owner: when the power is off" in told and "sheet R4" not in told
    opened = [block for block in sheet.sheets[2].blocks if isinstance(block, Table)]
    assert len(opened[0].rows) == 5 and all(int(str(row[2])) >= 3 for row in opened[1].rows)


def test_the_service_sheet_is_the_same_in_both_languages(orders: Orders) -> None:
    english, spanish = orders["service"], orders["service.es"]
    assert spanish.language == "es"
    for one, other in zip(english.sheets, spanish.sheets, strict=True):
        assert [type(block) for block in one.blocks] == [type(block) for block in other.blocks]
        cards = [[block.number for block in each.blocks if isinstance(block, StepCard)] for each in (one, other)]
        assert cards[0] == cards[1]


def test_the_days_and_the_repeated_tests_stand_on_the_removal_order(orders: Orders) -> None:
    codes = [each.code for each in orders["removal"].sheets]
    assert codes == [f"R{number}" for number in range(1, 10)]
    tests = [block for block in orders["removal"].sheets[6].blocks if isinstance(block, StepCard)]
    assert [block.number for block in tests] == ["T6"]
    assert "While the damaged unit waits, the grid feeds without it" in repr(orders["removal"].sheets[8].blocks)
