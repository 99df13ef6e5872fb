"""The three-line diagrams of the demo jobs: every conductor, what opens it, where neutral and ground are joined."""

from importlib import resources

import pytest
from one_line_job import HANDBOOK, NEC, damaged, job_and_sheets, told_of

from standfast.design.wiring.whole import wire
from standfast.equipment.read import read
from standfast.handover.drawings.three_line import drawings
from standfast.handover.drawings.three_line_told import Stop, ThreeLine, three_line
from standfast.handover.legs import NoSystem
from standfast.paper.drawing import DoesNotFit

NAMES = ("one_wall", "detached_pair", "stack_outdoors", "cabinet")


def told(name: str, *changes: tuple[str, str]) -> ThreeLine:
    job, sheets, _ = damaged(name, *changes)
    return three_line(job, sheets, wire(NEC, HANDBOOK, job, sheets), told_of(job, sheets))


def stop(facts: ThreeLine, part: str) -> Stop:
    return next(each for strip in facts.strips for each in strip.stops if each.part.id == part)


def words(facts: ThreeLine) -> str:
    return " ".join(mark.text for each in drawings(facts).values() for _, mark in each.texts)


@pytest.mark.parametrize("name", NAMES)
def test_a_draughtsman_would_sign_it(name: str) -> None:
    for drawing in drawings(told(name)).values():
        assert drawing.flaws() == []


@pytest.mark.parametrize("name", NAMES)
def test_every_source_has_its_circuit_and_every_way_begins_at_the_utility(name: str) -> None:
    facts = told(name)
    assert facts.strips[0].stops[0].part.kind == "utility"
    ends = {strip.stops[-1].part.id for strip in facts.strips}
    sources = facts.facts.installation.of_kind("inverter", "generator")
    assert sources and {each.id for each in sources} <= ends
    for strip in facts.strips:
        assert len(strip.gaps) == len(strip.stops) - 1
        for gap in strip.gaps:
            assert set(gap.conductors) <= set(strip.conductors)


def test_poles_neutral_and_terminals_are_those_of_job_and_sheets() -> None:
    facts = told("one_wall")
    assert stop(facts, "battery-1/breaker").poles == ("L1", "L2")
    assert stop(facts, "battery-1/disconnect").poles == ("L1", "L2")
    assert stop(facts, "backup/island-switch").poles == ("L1", "L2")
    assert dict(stop(facts, "battery-1/inverter").marks) == {"L1": "L1", "L2": "L2", "N": "N", "G": "Ground"}
    assert "opens L1, L2, N not opened" in words(facts)


def test_dc_terminals_are_named_as_their_data_sheets_name_them() -> None:
    shown = words(told("stack_outdoors"))
    assert "terminals: Battery plus, battery minus" in shown
    assert "terminals: PV plus and minus of inputs 1 and 2" in shown
    facts = told("stack_outdoors")
    assert stop(facts, "battery-1/inside/overcurrent").unknown == "inside the unit, poles not stated"


def test_an_island_switch_that_opens_the_neutral_is_drawn_so() -> None:
    job, sheets = job_and_sheets("one_wall")
    text = resources.files("standfast.equipment").joinpath("sheets/demo-island-switch.toml").read_text("utf-8")
    word = "neutral_switched = false\n"
    for said, poles, unknown in (("neutral_switched = true\n", ("L1", "L2", "N"), False), ("", ("L1", "L2"), True)):
        island = read(text.replace(word, said), "demo-island-switch.toml").sheet
        assert island is not None and word in text
        changed = sheets | {"island_switch": island}
        facts = three_line(job, changed, wire(NEC, HANDBOOK, job, changed), told_of(job, changed))
        found = stop(facts, "backup/island-switch")
        assert found.poles == poles and bool(found.unknown) is unknown


def test_ground_runs_from_the_place_where_neutral_and_ground_are_joined() -> None:
    service = told("one_wall").strips[0]
    at = [each.part.id for each in service.stops].index("service-disconnect")
    assert all("G" not in gap.conductors for gap in service.gaps[:at])
    assert all("G" in gap.conductors for gap in service.gaps[at:])
    shown = words(told("one_wall"))
    assert shown.count("N and ground joined here") == 1
    assert "joint of N and ground not known" in words(told("one_wall", ("neutral_bonded = true\n", "")))


def test_a_source_of_one_pole_is_on_the_line_that_its_space_lies_on() -> None:
    change = ('id = "network"\nname = "Network and alarms"', 'id = "wind"\nname = "Wind"\nsource_output = "12 A"')
    facts = told("one_wall", change)
    strip = next(each for each in facts.strips if each.stops[-1].part.name == "Wind")
    (lines,) = {tuple(each for each in gap.conductors if each.startswith("L")) for gap in strip.gaps[1:]}
    assert len(lines) == 1


def test_two_poles_in_a_three_phase_panel_are_on_the_lines_of_their_spaces() -> None:
    facts = told("one_wall", ('system = "120/240 V single-phase"', 'system = "120/208 V three-phase"'))
    assert facts.strips[0].conductors == ("L1", "L2", "L3", "N", "G")
    assert stop(facts, "service-disconnect").poles == ("L1", "L2", "L3")
    assert stop(facts, "battery-1/breaker").poles == ("L2", "L3")  # spaces 10 and 12
    for drawing in drawings(facts).values():
        assert drawing.flaws() == []


def test_a_run_whose_neutral_nobody_stated_is_dashed() -> None:
    facts = told("detached_pair", (', neutral = "3"', ""))
    feeder = next(strip for strip in facts.strips if strip.title.startswith("Feeder"))
    assert any(gap.unknown == ("N",) for gap in feeder.gaps)
    assert "Dashed: not known" in words(facts)


def test_without_a_system_the_conductors_have_no_names() -> None:
    with pytest.raises(NoSystem, match=r"supply\.system"):
        told("one_wall", ('system = "120/240 V single-phase"\n', ""))


def test_a_sheet_that_is_too_low_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="higher than the sheet"):
        drawings(told("one_wall"), (335.0, 40.0))
