"""Several sources in one house: busbars with all of them, lugs and taps, power control, generators."""

import pytest
from fed_house import CHOSEN, SUN, TEXT, text_of

from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import find
from standfast.sheet import Check
from standfast.shelf import edition
from standfast.survey.read import read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")


@pytest.fixture(scope="module")
def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def wired(
    sheets: dict[str, SheetFile], *changes: tuple[str, str], generator: str | None = None, more: str = ""
) -> Wiring:
    survey, faults = read(text_of(*changes, generator=generator, more=more))
    assert survey is not None and not faults, faults
    return wire(NEC, HANDBOOK, survey, sheets)


def of(found: Wiring, id: str) -> Check:
    return next(each for each in found.checks if each.id == f"wiring.{id}")


def verdict(found: Wiring, id: str) -> str:
    return of(found, id).verdict


LUGS = (
    ('feeds = "backup"\n', ""), ('id = "backup-feeder"\nfrom', 'id = "lugs"\nfrom'),
    ('fed_through = "island switch"', 'fed_by = "feed-through lugs"'),
)  # fmt: skip
INTERLOCKED = "interlocked = true\nwith_battery = false\nstarts_by_itself = false"
CONTROL = '\n[[controls]]\nid = "limiter"\nlimits = "main"\nsetting = "160 A"\nsources = ["battery-1", "sun"]\n{}\n'
LISTED = 'listing = "UL 3141, file 000 (invented)"\naccess = "qualified people"'


def test_battery_and_sun_on_one_busbar_are_added_at_125_percent(sheets: dict[str, SheetFile]) -> None:
    found = next(each for each in wired(sheets, SUN).busbars if each.panel == "main")
    assert found.sources.quantity == 1.25 * (24 + 16)


def test_a_busbar_that_nothing_but_a_control_saves(sheets: dict[str, SheetFile]) -> None:
    """200 A of main and 125 % of 40 A are over 120 % of a 200 A busbar; a listed setting of 160 A is 200 A."""
    big = ('source_output = "16 A"', 'source_output = "32 A"')
    over = wired(sheets, SUN, big)
    assert verdict(over, "source-busbar/main") != "pass"
    held = wired(sheets, SUN, big, more=CONTROL.format(LISTED))
    assert verdict(held, "source-busbar/main") == "pass"
    assert next(each for each in held.busbars if each.panel == "main").option == 13
    assert "750" in of(held, "source-busbar/main").condition


def test_a_control_without_listing_counts_for_nothing(sheets: dict[str, SheetFile]) -> None:
    big = ('source_output = "16 A"', 'source_output = "32 A"')
    found = wired(sheets, SUN, big, more=CONTROL.format('access = "qualified people"'))
    assert verdict(found, "source-busbar/main") == "cannot tell"
    control = next(check for number, check in _options(found, "main") if number == 13)
    assert control.verdict == "cannot tell" and "controls.limiter.listing" in control.reason


def test_a_control_that_anybody_can_set_counts_for_nothing(sheets: dict[str, SheetFile]) -> None:
    big = ('source_output = "16 A"', 'source_output = "32 A"')
    found = wired(sheets, SUN, big, more=CONTROL.format('listing = "UL 3141"\naccess = "anybody"'))
    assert next(check for number, check in _options(found, "main") if number == 13).verdict == "fail"


def test_a_setting_is_a_continuous_current(sheets: dict[str, SheetFile]) -> None:
    more = CONTROL.format(LISTED).replace("160 A", "161 A")
    found = wired(sheets, SUN, ('source_output = "16 A"', 'source_output = "32 A"'), more=more)
    control = next(check for number, check in _options(found, "main") if number == 13)
    assert control.verdict == "fail"
    assert control.demand is not None and control.demand.quantity == pytest.approx(1.25 * 161)


def test_a_source_that_the_control_does_not_hold_comes_on_top(sheets: dict[str, SheetFile]) -> None:
    more = CONTROL.format(LISTED).replace('"battery-1", "sun"', '"battery-1"')
    control = next(check for number, check in _options(wired(sheets, SUN, more=more), "main") if number == 13)
    assert control.demand is not None and control.demand.quantity == pytest.approx(1.25 * (160 + 16))


def _options(found: Wiring, panel: str) -> tuple[tuple[int, Check], ...]:
    return next(each for each in found.busbars if each.panel == panel).options


def test_an_interlocked_generator_is_not_added_to_the_busbar(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, generator=INTERLOCKED)
    assert next(each for each in found.busbars if each.panel == "main").sources.quantity == 30
    assert verdict(found, "generator-interlock/generator") == "pass"
    assert verdict(found, "generator-busbar/generator") == "pass"


def test_a_generator_that_is_not_interlocked_fails_and_is_added(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, generator=INTERLOCKED.replace("interlocked = true", "interlocked = false"))
    assert verdict(found, "generator-interlock/generator") == "fail"
    assert next(each for each in found.busbars if each.panel == "main").sources.quantity == 1.25 * (24 + 30)


def test_nobody_said_whether_the_generator_is_interlocked_so_nothing_passes(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, generator=INTERLOCKED.replace("interlocked = true\n", ""))
    assert verdict(found, "generator-interlock/generator") == "cannot tell"
    busbar = of(found, "source-busbar/main")
    assert busbar.verdict == "cannot tell" and "generators.generator.interlocked" in busbar.reason


def test_a_generator_that_is_not_interlocked_counts_on_the_conductors_of_the_lugs(
    sheets: dict[str, SheetFile],
) -> None:
    loose = INTERLOCKED.replace("interlocked = true", "interlocked = false")
    found = wired(sheets, *LUGS, ('main = "60 A"', "main_lugs = true"), generator=loose)
    check = of(found, "feed-through/backup")
    assert check.limit is not None and check.limit.quantity == 200 + 1.25 * 30
    unsaid = wired(
        sheets, *LUGS, ('main = "60 A"', "main_lugs = true"), generator=loose.replace("interlocked = false\n", "")
    )
    assert verdict(unsaid, "feed-through/backup") == "cannot tell"


def test_whether_the_battery_runs_beside_the_generator_is_asked(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, generator="interlocked = true\nstarts_by_itself = false")
    check = of(found, "generator-busbar/generator")
    assert check.verdict == "cannot tell" and "generators.generator.with_battery" in check.reason


def test_a_generator_that_starts_by_itself_carries_all_that_is_joined_to_it(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, generator=INTERLOCKED.replace("starts_by_itself = false", "starts_by_itself = true"))
    assert verdict(found, "generator-load/generator") in ("fail", "cannot tell")
    assert verdict(wired(sheets, generator=INTERLOCKED), "generator-load/generator") == "not applicable"


RUN = """
[[routes]]
id = "generator-run"
from = "main"
to = "generator"
length = "20 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
conductors = { size = "12", material = "cu", insulation = "thhn" }
other_current_carrying = 0
state = "existing"
"""


@pytest.mark.parametrize(("output", "expected"), [("20 A", "pass"), ("22 A", "fail")])
def test_conductors_of_a_generator_reach_115_percent(
    sheets: dict[str, SheetFile], output: str, expected: str
) -> None:  # fmt: skip
    """12 AWG copper has 25 A at 75 °C: 115 % of 20 A is 23 A, of 22 A it is 25.3 A."""
    text = text_of(generator=INTERLOCKED, more=RUN).replace('output = "30 A"', f'output = "{output}"')
    survey, faults = read(text)
    assert survey is not None, faults
    assert verdict(wire(NEC, HANDBOOK, survey, sheets), "generator-conductors/generator") == expected


def test_a_generator_that_no_circuit_feeds_is_asked_for(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, more='\n[[generators]]\nid = "spare"\ninterlocked = true\n')
    assert verdict(found, "reachable-states/1") == "cannot tell"


def test_feed_through_conductors_are_part_of_the_busbar_that_they_begin_at(sheets: dict[str, SheetFile]) -> None:
    """A 200 A main and 125 % of 16 A on the first panel: 220 A, unless a device stands at the far end."""
    open_end = wired(sheets, *LUGS, SUN, ('main = "60 A"', "main_lugs = true"))
    check = of(open_end, "feed-through/backup")
    assert check.limit is not None and check.limit.quantity == 200 + 20
    assert check.verdict == "fail"
    ended = wired(sheets, *LUGS, SUN)
    assert of(ended, "feed-through/backup").limit.quantity != 220  # type: ignore[union-attr]
    assert verdict(ended, "feed-through/backup") == "pass"


def test_a_panel_on_lugs_alone_carries_the_sum_of_both_busbars(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, *LUGS, SUN, ('main = "60 A"', "main_lugs = true"))
    far = next(each for each in found.busbars if each.panel == "backup")
    assert far.sources.quantity == 1.25 * (24 + 16)
    assert far.check.verdict == "fail"
    assert verdict(found, "panel-protection/backup") == "fail"


def test_the_device_at_the_far_end_of_feed_through_lugs_counts_in_the_sum_of_devices(
    sheets: dict[str, SheetFile],
) -> None:
    near = next(check for number, check in _options(wired(sheets, *LUGS), "main") if number == 3)
    assert near.demand is not None and not near.demand.missing
    assert 60 in [each.quantity for each in near.demand.inputs]
    assert "I_backup" in [each.symbol for each in near.demand.inputs]


TAP = """
[[panels]]
id = "shed"
name = "Shed panel"
state = "existing"
busbar = "100 A"
main = "{main}"
fed_from = "backup"
fed_by = "tap"
terminals = "75 °C"
circuits = [ {{ id = "shed-sun", breaker = "20 A", poles = 2, source_output = "16 A", state = "existing" }} ]

[[routes]]
id = "tap"
from = "backup"
to = "shed"
length = "{length}"
ambient = "86 °F"
wet = false
raceway = "emt"
conductors = {{ size = "{size}", material = "cu", insulation = "thhn" }}
other_current_carrying = 0
state = "existing"
"""


@pytest.mark.parametrize(
    ("length", "least"), [("8 ft", (60 + 1.25 * (24 + 16)) / 10), ("20 ft", (60 + 1.25 * (24 + 16)) / 3)]
)  # fmt: skip
def test_a_tap_counts_the_sources_beside_the_device_of_its_feeder(
    sheets: dict[str, SheetFile], length: str, least: float
) -> None:  # fmt: skip
    found = wired(sheets, more=TAP.format(main="30 A", length=length, size="10"))
    check = of(found, "tap/shed")
    assert check.limit is not None and check.limit.quantity == pytest.approx(least)


def test_a_tap_beyond_25_feet_fails_and_one_whose_end_is_no_device_cannot_be_told(sheets: dict[str, SheetFile]) -> None:
    assert verdict(wired(sheets, more=TAP.format(main="30 A", length="40 ft", size="6")), "tap/shed") == "fail"
    lugs = TAP.format(main="30 A", length="8 ft", size="6").replace('main = "30 A"', "main_lugs = true")
    assert verdict(wired(sheets, more=lugs), "tap-end/shed") == "cannot tell"


def test_beyond_a_tap_with_a_source_the_feeder_carries_both_or_ends_in_a_device(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, more=TAP.format(main="30 A", length="8 ft", size="6"))
    assert verdict(found, "feeder-beyond/backup") == "pass"  # the main of the backup panel is its device


def test_every_busbar_on_the_way_of_every_source_is_asked(sheets: dict[str, SheetFile]) -> None:
    found = wired(sheets, more=TAP.format(main="30 A", length="8 ft", size="6"))
    assert {each.panel for each in found.busbars} == {"main", "backup", "shed"}


def test_the_demo_house_of_these_tests_is_invented() -> None:
    assert "invented = true" in TEXT


def test_sources_that_sit_together_at_one_end_are_at_that_end(sheets: dict[str, SheetFile]) -> None:
    """The reader compares the spaces of every source with the place that the panel states; without spaces none can."""
    small = (SUN[0], SUN[1].replace("16 A", "8 A"))
    assert dict(_options(wired(sheets, small), "main"))[2].verdict == "pass"
    unplaced = (SUN[0], small[1].replace("spaces = [28, 30]\n", ""))
    check = dict(_options(wired(sheets, unplaced), "main"))[2]
    assert check.verdict == "cannot tell" and "on which end of the busbar" in check.reason
