"""A vehicle charger under a listed control: the setting stands for it, where listing and setting are stated."""

import pytest
from fed_house import CHOSEN, job_of

from standfast.design.wiring.load import LoadSheet, service_load
from standfast.design.wiring.material import SheetFile
from standfast.equipment.read import find
from standfast.sheet import Check
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
CAR = (
    '[[loads.appliances]]\nid = "range"',
    '[[loads.appliances]]\nid = "car"\nkind = "vehicle charger"\nrating = "11.5 kVA"\nstate = "existing"\n\n'
    '[[loads.appliances]]\nid = "range"',
)  # fmt: skip
CONTROL = '\n[[controls]]\nid = "manager"\nname = "Load manager"\nlimits = "service"\nsetting = "{}"\n{}\n'
LISTED = 'sources = ["car"]\nlisting = "UL 916, file 000 (invented)"\naccess = "qualified people"'


@pytest.fixture(scope="module")
def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def load(sheets: dict[str, SheetFile], more: str = "", *, car: bool = True) -> LoadSheet:
    return service_load(NEC, job_of(*((CAR,) if car else ()), more=more), sheets)


def of(found: LoadSheet, id: str) -> Check:
    return next(each for each in found.checks if each.id == id)


def test_the_charger_counts_in_full_without_a_control(sheets: dict[str, SheetFile]) -> None:
    assert load(sheets).house.quantity > load(sheets, car=False).house.quantity


def test_under_a_listed_control_the_setting_stands_for_it_as_a_continuous_current(sheets: dict[str, SheetFile]) -> None:
    held = load(sheets, CONTROL.format("152 A", LISTED))
    assert held.house.quantity == load(sheets, car=False).house.quantity
    assert held.needed.quantity == 1.25 * 152
    assert of(held, "load.control/manager").verdict == "pass"
    assert of(held, "load.control-access/manager").verdict == "pass"


def test_a_small_setting_does_not_hide_what_the_control_cannot_hold(sheets: dict[str, SheetFile]) -> None:
    held = load(sheets, CONTROL.format("20 A", LISTED))
    rest = load(sheets, car=False)
    assert held.needed.quantity == rest.needed.quantity


@pytest.mark.parametrize("word", ["listing", "setting"])
def test_without_listing_or_setting_it_counts_in_full(sheets: dict[str, SheetFile], word: str) -> None:
    text = CONTROL.format("152 A", LISTED)
    cut = "\n".join(line for line in text.splitlines() if not line.startswith(word))
    held = load(sheets, cut)
    assert held.house.quantity == load(sheets).house.quantity
    if word == "listing":
        assert of(held, "load.control/manager").verdict == "cannot tell"


def test_a_setting_that_anybody_can_change_fails(sheets: dict[str, SheetFile]) -> None:
    held = load(sheets, CONTROL.format("152 A", LISTED.replace("qualified people", "anybody")))
    assert of(held, "load.control-access/manager").verdict == "fail"


def test_a_control_may_hold_the_battery_too(sheets: dict[str, SheetFile]) -> None:
    both = load(sheets, CONTROL.format("100 A", LISTED.replace('["car"]', '["car", "battery"]')))
    rest = load(sheets, car=False)
    assert both.needed.quantity == max(rest.house.quantity, 125)
