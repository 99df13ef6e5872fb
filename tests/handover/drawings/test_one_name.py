"""One device, one name: drawings, schedules, directories and lists of every demo job take it from the installation."""

import re
from collections.abc import Mapping

import pytest
from test_topologies import struck

from standfast.design.installation.circuits import listed, named
from standfast.foreman.demo import DEMOS, write_demo
from standfast.foreman.pack import Papers, papers
from standfast.foreman.plan import JobPlan, make_plan
from standfast.handover.directory import SPARE, UNSURVEYED, directories
from standfast.handover.drawings.one_line_inside import detailed
from standfast.handover.drawings.one_line_words import one_line
from standfast.handover.drawings.three_line_told import three_line
from standfast.paper.schedule import Schedule


@pytest.fixture(scope="module", params=[name for name in DEMOS if name != "faulty"])
def packed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[JobPlan, Papers]:
    plan = make_plan(write_demo(request.param, tmp_path_factory.mktemp(request.param)))
    return plan, papers(plan)


def names_of(plan: JobPlan) -> set[str]:
    shown = detailed(plan.design.installation, plan.survey, plan.sheets)
    return {part.name for part in shown.parts.values()}


def rows(made: Papers, name: str) -> list[Mapping[str, object]]:
    found: Schedule = next(each for each in made.schedules if each.name == name)
    return [dict(zip(found.head, row, strict=True)) for row in found.rows]


def drawn(made: Papers, part: str) -> str:
    return " ".join(
        mark.text
        for name, each in made.drawings.items()
        if name == part or name.startswith((f"{part}, ", f"{part} "))
        for _, mark in each.texts
    )


def test_no_two_devices_have_one_name(packed: tuple[JobPlan, Papers]) -> None:
    plan, _ = packed
    parts = [part.name for part in plan.design.installation.parts.values() if part.kind != "load"]
    assert len(parts) == len(set(parts))


def test_schedules_and_labels_name_devices_of_the_installation(packed: tuple[JobPlan, Papers]) -> None:
    plan, made = packed
    names = names_of(plan)
    assert {row["tag"] for row in rows(made, "equipment")} <= names
    assert {row["at"] for row in rows(made, "labels")} <= names
    assert {row["panel"] for row in rows(made, "panels")} | {row["panel"] for row in rows(made, "directory")} <= names
    assert {row["circuit"] for row in rows(made, "panels")} <= names


def test_directories_name_what_lies_behind_each_breaker(packed: tuple[JobPlan, Papers]) -> None:
    plan, _ = packed
    names = names_of(plan)
    for card in directories(plan.survey.job, named(plan.survey.job, plan.design.installation, plan.sheets)):
        for row in card.rows:
            if row.first is None and row.serves not in (SPARE, UNSURVEYED):
                assert row.serves.partition(" (moved from")[0] in names


def test_both_diagrams_draw_parts_of_one_graph(packed: tuple[JobPlan, Papers]) -> None:
    plan, made = packed
    told = one_line(plan.survey, plan.sheets, plan.design.installation, plan.design.wiring, plan.design.labels)
    parts = told.installation.parts
    assert all(told.words[id].name == part.name for id, part in parts.items())
    for strip in three_line(plan.survey, plan.sheets, plan.design.wiring, told).strips:
        for stop in strip.stops:
            assert stop.part == parts[stop.part.id]
            for word in stop.part.name.split():
                assert word in drawn(made, "one-line") and word in drawn(made, "three-line")


def test_materials_name_new_breakers_as_the_diagram_does(packed: tuple[JobPlan, Papers]) -> None:
    plan, made = packed
    circuits = named(plan.survey.job, plan.design.installation, plan.sheets)
    said = " ".join(str(row["use"]) for row in rows(made, "materials"))
    for panel in plan.survey.job.panels:
        for circuit in panel.circuits:
            if circuit.state == "new":
                assert listed(circuits, panel.id, circuit) in said


def test_every_label_stands_by_its_number_beside_its_device(packed: tuple[JobPlan, Papers]) -> None:
    plan, made = packed
    told = one_line(plan.survey, plan.sheets, plan.design.installation, plan.design.wiring, plan.design.labels)
    beside = {told.words[id].name: " ".join(told.words[id].lines) for id in told.installation.parts}
    shown = set(re.findall(r"\bL\d+\b", drawn(made, "one-line")))
    for label in plan.design.labels:
        assert re.search(rf"\b{label.id}\b", beside[label.at]), label
        assert label.id in shown, label
    assert shown <= {label.id for label in plan.design.labels}


def test_every_drawing_is_made_and_a_draughtsman_would_sign_it(packed: tuple[JobPlan, Papers]) -> None:
    _, made = packed
    assert {"three-line", "panel directory", "one-line"} <= set(made.drawings)
    for name, drawing in made.drawings.items():
        assert drawing.flaws() == [], name
        if name.startswith(("one-line", "three-line", "panel directory")):
            assert list(struck(drawing)) == [], name


def test_symbols_and_words_are_those_of_the_adoption(packed: tuple[JobPlan, Papers]) -> None:
    plan, made = packed
    shown = drawn(made, "one-line")
    metric = plan.adoption.symbols == "iec"
    assert ("IEC 60617" in shown) is metric and ("ANSI/IEEE 315" in shown) is not metric
    assert ("Main switch" in shown) is metric and ("Service disconnect" in shown) is not metric
    assert not (metric and "ground" in re.sub(r"ground rods|background", "", drawn(made, "three-line")))
