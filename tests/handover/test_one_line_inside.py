"""Devices inside panels, battery units and inverters: on the one-line diagram, and on the equipment list."""

from functools import partial

import pytest
from one_line_job import job_and_sheets, texts, told, told_of

from standfast.handover import equipment_schedule
from standfast.handover.contents import Item
from standfast.handover.drawings.one_line import SIDE_MM, _fitted, _grown, drawings
from standfast.handover.drawings.one_line_place import bottom_of, top_of
from standfast.handover.drawings.one_line_told import OneLine
from standfast.paper.sheets import ANSI_B


def items(name: str) -> dict[str, Item]:
    job, sheets = job_and_sheets(name)
    return {each.tag: each for each in equipment_schedule.items(told_of(job, sheets), sheets, {})}


def shown(facts: OneLine) -> str:
    return texts(drawings(facts))


@pytest.mark.parametrize(
    ("name", "main", "rating"),
    [("cabinet", "Backup panel main", "60 A"), ("detached_pair", "Garage panel main", "100 A")],
)
def test_the_main_of_a_panel_that_a_feeder_reaches_is_drawn_and_listed(name: str, main: str, rating: str) -> None:
    assert main in shown(told(name))
    item = items(name)[main]
    assert item.what == "Circuit breaker" and item.ratings.startswith(f"{rating}, interrupting 10 kA")


def test_the_main_at_the_service_is_the_service_disconnect_and_stands_once() -> None:
    assert "Main panel main" not in shown(told("cabinet"))


def test_the_main_of_another_building_is_its_disconnect() -> None:
    assert "disconnect of the building" in items("detached_pair")["Garage panel main"].ratings
    elsewhere = told("detached_pair", ('building_disconnect = "in the panel"', 'building_disconnect = "none"'))
    assert "disconnect of the building: none" in elsewhere.words["garage/main"].lines


def test_a_main_that_nobody_stated_is_not_drawn_but_said_to_be_unknown() -> None:
    facts = told("detached_pair", ('main = "100 A"\n', ""))
    assert "garage/main" not in facts.installation.parts
    assert "main not known" in facts.words["garage"].lines


def test_an_existing_feeder_says_all_that_was_surveyed() -> None:
    (feeder,) = [run for run in told("detached_pair").runs if "garage-feeder" in run.ids[0]]
    said = "; ".join(feeder.lines)
    assert "lines 3 AWG Cu THHN/THWN-2, neutral 3 AWG" in said and "equipment ground 8 AWG" in said
    assert "1-1/2 in PVC 40, 62 ft one way" in said


@pytest.mark.parametrize(
    ("gone", "said"),
    [
        (('ground = "8", ', ""), "equipment ground size not known"),
        (('neutral = "3", ', ""), "neutral size not known"),
        (('neutral = "3", ', 'neutral = "none", '), "no neutral"),
        (('length = "62 ft"\n', ""), "length not known"),
    ],
)
def test_what_of_an_existing_feeder_was_not_surveyed_is_said(gone: tuple[str, str], said: str) -> None:
    (feeder,) = [run for run in told("detached_pair", gone).runs if "garage-feeder" in run.ids[0]]
    assert said in "; ".join(feeder.lines)


def test_switch_and_fuse_of_a_stack_and_the_pv_switch_of_its_inverter_are_drawn_inside_their_outlines() -> None:
    facts = told("stack_outdoors")
    inside = {link.b: link for link in facts.installation.links if link.kind == "internal"}
    assert {"inverter-1/inside/pv-switch", "battery-1/inside/overcurrent", "battery-1"} <= set(inside)
    said = shown(facts)
    for words in ("Battery 1 switch", "Inverter PV switch", "fuse of 60 A DC"):
        assert words in said
    listed = items("stack_outdoors")
    assert listed["Battery 1 overcurrent device"].model == "inside the battery unit"
    assert listed["Inverter PV switch"].model == "inside the inverter"


def test_what_no_data_sheet_states_is_not_drawn_inside() -> None:
    assert not [id for id in told("cabinet").installation.parts if "/inside/" in id]


def test_only_the_certificate_of_the_chosen_pair_is_listed() -> None:
    assert items("cabinet")["Island switch"].listing == "UL 1741, invented-1741-049"


def test_no_text_stands_on_the_outline_of_a_unit() -> None:
    facts = told("stack_outdoors")
    root = _fitted(partial(_grown, facts), (ANSI_B.drawing[0] - SIDE_MM - 6, ANSI_B.drawing[1]), 2.0)
    nodes = {node.part.id: node for node in root.walk()}
    assert top_of(nodes["roof-array"]) <= bottom_of(nodes["inverter-1/inside/pv-switch"])
