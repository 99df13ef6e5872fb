"""What is there already: rows of the load calculation, breakers of circuits, listings of controls, the transformer."""

import pytest
from fed_house import CHOSEN

from standfast.design.wiring.load import service_load
from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import wire
from standfast.equipment.read import find
from standfast.foreman.demo import job_text
from standfast.sheet import Check
from standfast.shelf import edition
from standfast.survey.read import read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
CHARGER = 'load = "11520 VA", continuous = "11520 VA", phases'
LISTING = 'listing = "UL 916, file INVENTED-916 (invented)"'
STATED = 'fault_current = "9.4 kA"\nfault_x_over_r = 1.4\n'
TRANSFORMER = (
    "[supply.conductors]\n",
    '[supply.transformer]\nrating = "{}"\nimpedance = "{}"\nx_over_r = 1.5\nprimary_fault = "100000 kVA"\n\n'
    "[supply.conductors]\n",
)


@pytest.fixture(scope="module")
def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def checks(sheets: dict[str, SheetFile], *changes: tuple[str, str], demo: str = "many-sources") -> dict[str, Check]:
    text = job_text(demo)
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    survey, faults = read(text)
    assert survey is not None and not faults, faults
    every = [*wire(NEC, HANDBOOK, survey, sheets).checks, *service_load(NEC, survey, sheets).checks]
    return {each.id: each for each in every}


def without_appliances(demo: str) -> tuple[tuple[str, str], tuple[str, str]]:
    text = job_text(demo)
    rows = text[text.index("[[loads.appliances]]") : text.index("[loads.heating]")]
    return (rows, ""), ("hvac_in_pool = false\n", "hvac_in_pool = false\nappliances = []\n")


# --- rows of the calculation ----------------------------------------------------------------------------------------
def test_a_calculation_without_the_range_and_the_dryer_that_the_panel_feeds(sheets: dict[str, SheetFile]) -> None:
    found = checks(sheets, *without_appliances("one-wall"), demo="one-wall")["load.appliances-listed"]
    assert found.verdict == "cannot tell"
    assert "range in main, dryer in main" in found.reason
    assert "air-conditioner" not in found.reason  # the cooling has its rating


def test_one_row_is_not_two_circuits(sheets: dict[str, SheetFile]) -> None:
    second = (
        'name = "Air conditioner"\nspaces = [5, 7]',
        'name = "Air conditioner"\nspaces = [5, 7]\nbreaker = "35 A"\npoles = 2\nload = "4800 VA"\n'
        'phases = "line to line"\nstate = "existing"\n\n[[panels.circuits]]\nid = "second"\nspaces = [28, 30]',
    )
    found = checks(sheets, ("free_spaces = 4", "free_spaces = 2"), second, demo="one-wall")["load.appliances-listed"]
    assert found.verdict == "cannot tell"
    assert "second in main" in found.reason


@pytest.mark.parametrize("demo", ["one-wall", "many-sources"])
def test_the_demos_list_what_their_panels_feed(sheets: dict[str, SheetFile], demo: str) -> None:
    assert checks(sheets, demo=demo)["load.appliances-listed"].verdict == "pass"


@pytest.mark.parametrize("word", ["battery-2", "inverter", "spa"])
def test_a_control_of_what_is_not_there_is_a_fault_of_the_file(word: str) -> None:
    text = job_text("many-sources").replace('sources = ["vehicle-charger"]', f'sources = ["{word}"]')
    _, faults = read(text)
    assert any(f'there is no source "{word}"' in fault.what for fault in faults)


# --- breakers -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("lasting", "verdict"), [("1200 VA", "pass"), ("1440 VA", "pass"), ("1500 VA", "fail")])
def test_a_breaker_of_15_a_carries_12_a_for_hours(sheets: dict[str, SheetFile], lasting: str, verdict: str) -> None:
    lights = 'load = "1080 VA"\ncontinuous = "300 VA"'
    found = checks(sheets, (lights, f'load = "{lasting}"\ncontinuous = "{lasting}"'))
    assert found["wiring.branch-device/living-room"].verdict == verdict


def test_a_charger_of_48_a_needs_60_a_though_nobody_says_that_it_lasts(sheets: dict[str, SheetFile]) -> None:
    silent = (CHARGER, CHARGER.replace('continuous = "11520 VA", ', ""))
    small = ('breaker = "60 A", poles = 2, ' + silent[1], 'breaker = "50 A", poles = 2, ' + silent[1])
    assert checks(sheets, silent)["wiring.branch-device/vehicle-charger"].verdict == "pass"
    assert checks(sheets, silent, small)["wiring.branch-device/vehicle-charger"].verdict == "fail"


def test_a_circuit_that_is_moved_is_asked_too(sheets: dict[str, SheetFile]) -> None:
    heavy = ('load = "850 VA"\ncontinuous = "850 VA"', 'load = "1600 VA"\ncontinuous = "1600 VA"')
    assert checks(sheets, heavy, demo="one-wall")["wiring.branch-device/furnace"].verdict == "fail"


@pytest.mark.parametrize(("output", "verdict"), [("16 A", "pass"), ("17 A", "fail")])
def test_the_breaker_of_a_source_that_was_there(sheets: dict[str, SheetFile], output: str, verdict: str) -> None:
    found = checks(sheets, ('source_output = "16 A"', f'source_output = "{output}"'))
    assert found["wiring.source-device/sun"].verdict == verdict


# --- controls -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("text", ["none", "no", "yes, it is listed", "UL"])
def test_a_listing_without_a_standard_is_none(sheets: dict[str, SheetFile], text: str) -> None:
    found = checks(sheets, (LISTING, f'listing = "{text}"'))
    assert found["load.control/load-manager"].verdict == "cannot tell"
    assert "names no standard" in found["load.control/load-manager"].reason


@pytest.mark.parametrize("text", ["UL 916", "IEC 60947-2, file 1", "CSA C22.2 No. 107.1", "UL1741", "AS/NZS 4777.2"])
def test_a_listing_that_names_a_standard(sheets: dict[str, SheetFile], text: str) -> None:
    assert checks(sheets, (LISTING, f'listing = "{text}"'))["load.control/load-manager"].verdict == "pass"


def test_a_control_of_a_busbar_whose_source_is_elsewhere(sheets: dict[str, SheetFile]) -> None:
    """The charger is on another panel and feeds nothing: holding it back takes nothing off this busbar."""
    control = (
        "[[controls]]",
        '[[controls]]\nid = "limiter"\nlimits = "main"\nsetting = "160 A"\n'
        'sources = ["battery-1", "sun", "vehicle-charger"]\n'
        'listing = "UL 3141, file 1 (invented)"\naccess = "qualified people"\n\n[[controls]]',
    )
    large = ('main = "150 A"', 'main = "175 A"')
    found = checks(sheets, control, large)["wiring.source-busbar/main"]
    assert found.verdict == "cannot tell"
    assert "vehicle-charger feeds nothing into main" in found.reason


# --- the transformer ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("rating", "impedance", "open_"),
    [
        ("37.5 kVA", "1.8 %", []),  # 8.7 kA between the lines at its terminals
        ("15 kVA", "2 %", ["most"]),  # 5.2 kA of line to neutral at most
        ("167 kVA", "1.5 %", ["least"]),  # 46 kA: twelve feet of 4/0 do not bring it down to 9.4 kA
    ],
)
def test_a_stated_fault_current_that_its_transformer_does_not_give(
    sheets: dict[str, SheetFile], rating: str, impedance: str, open_: list[str]
) -> None:
    both = (TRANSFORMER[0], TRANSFORMER[1].format(rating, impedance))
    found = checks(sheets, both)
    own = {id.rpartition("/")[2]: each for id, each in found.items() if id.startswith("wiring.fault-current-stated")}
    assert set(own) == {"most", "least"}
    assert [end for end, each in own.items() if each.verdict == "cannot tell"] == open_
    assert {each.verdict for each in own.values()} <= {"pass", "cannot tell"}
