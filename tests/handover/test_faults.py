"""The sheet on fault currents and arcs, and the wait for capacitors among the cautions."""

from functools import cache
from importlib.resources import files
from pathlib import Path

from standfast.foreman.plan import JobPlan, make_plan
from standfast.handover import faults
from standfast.paper.document import Block, Bullets, Table
from standfast.shelf import adoption


@cache
def plan(demo: str) -> JobPlan:
    return make_plan(Path(str(files("standfast.foreman") / "demos" / demo)))


def blocks(demo: str) -> list[Block]:
    made = plan(demo)
    return faults.blocks(made.survey, made.adoption, made.sheets, made.design)


def tables(demo: str) -> list[Table]:
    return [each for each in blocks(demo) if isinstance(each, Table)]


def test_every_place_has_both_loops_and_the_least() -> None:
    rows = tables("cabinet")[0].rows
    levels = plan("cabinet").design.wiring.levels
    assert len(rows) == len(levels) == 5
    assert [str(row[0]) for row in rows][:3] == ["Service disconnect", "Main panel", "Backup panel"]
    assert rows[0][1:] == ["7.4 kA", "7.4 kA", "0.07 kA", "7.47 kA", "5.2 kA"]


def test_arcs_are_told_with_their_limits_and_working() -> None:
    found = blocks("cabinet")
    (limits,) = [each for each in found if isinstance(each, Bullets)]
    assert any("permit no work on live parts" in str(each) for each in limits.items)
    _, arcs, working = tables("cabinet")
    assert [row[3] for row in arcs.rows] == ["2 s", "0.05 s"]
    assert "category 2" in str(arcs.rows[0][6])
    lines = [str(row[0]) for row in working.rows]
    assert len(lines) == len(set(lines))
    assert any("k_box" in line and "cal/cm2" in line for line in lines)
    assert not any("R_dc" in line for line in lines)  # the working of the bolted fault stands with its checks


def test_a_unit_with_its_inverter_inside_has_no_arcs_to_tell() -> None:
    assert len(tables("one_wall")) == 1
    assert faults.cautions(plan("one_wall").survey, plan("one_wall").sheets) == []


def test_without_the_books_no_arc_is_told() -> None:
    made = plan("cabinet")
    bare = adoption("us-2021")._replace(books={"nfpa70": "2023", "handbook": "2026"})
    found = faults.blocks(made.survey, bare, made.sheets, made.design)
    assert len([each for each in found if isinstance(each, Table)]) == 1


def test_how_long_capacitors_stay_charged_is_a_caution() -> None:
    made = plan("cabinet")
    (only,) = faults.cautions(made.survey, made.sheets)
    assert only.startswith("Capacitors in the Inverter-charger 48 stay charged")
    assert "wait 5 min, then prove dead" in only
