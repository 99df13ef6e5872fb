"""Panel directories: every space once, under the names of the installation, sources marked."""

import pytest
from one_line_job import damaged, job_and_sheets

from standfast.design.installation.build import build
from standfast.design.installation.circuits import named
from standfast.handover.directory import SPARE, UNSURVEYED, Directory, directories, schedule
from standfast.handover.drawings.directory import drawings, facts_of
from standfast.paper.drawing import DoesNotFit

NAMES = ("one_wall", "detached_pair", "stack_outdoors", "cabinet")


def cards(name: str, *changes: tuple[str, str]) -> dict[str, Directory]:
    job, sheets, _ = damaged(name, *changes)
    found = directories(job.job, named(job.job, build(job, sheets), sheets))
    return {each.panel.id: each for each in found}


@pytest.mark.parametrize("name", NAMES)
def test_every_space_stands_once_and_in_order(name: str) -> None:
    for card in cards(name).values():
        spaces = [row.space for row in card.rows if row.space is not None]
        assert spaces == list(range(1, len(spaces) + 1))
        assert len(spaces) >= (card.panel.spaces or 0)
        held = [row.held.circuit.id for row in card.rows if row.held is not None and row.first is None]
        assert sorted(held) == sorted(circuit.id for circuit in card.panel.circuits)


@pytest.mark.parametrize("name", NAMES)
def test_a_draughtsman_would_sign_them(name: str) -> None:
    job, _ = job_and_sheets(name)
    for drawing in drawings(list(cards(name).values()), facts_of(job.job, "NEC 2023 408.4(A)")).values():
        assert drawing.flaws() == []
        shown = [mark.text for _, mark in drawing.texts]
        assert any(job.job.job.date.isoformat() in text for text in shown)
        assert "NEC 2023 408.4(A)" in " ".join(shown)


def test_sources_new_moved_and_spare_are_told() -> None:
    backup = {row.space: row for row in cards("one_wall")["backup"].rows}
    assert backup[10].serves == "Battery 1 inverter" and backup[10].source and backup[10].rating == "30/2"
    assert backup[12].first == 10 and not backup[12].rating
    assert backup[1].serves == "Refrigerator (moved from Main panel 21)"
    assert backup[7].serves == SPARE
    main = {row.space: row for row in cards("one_wall")["main"].rows}
    assert main[27].serves == "Backup panel" and main[27].source  # the battery behind it feeds back
    assert not main[1].source


def test_a_space_is_not_called_spare_while_some_circuits_have_no_space() -> None:
    rows = cards("one_wall", ("spaces = [2, 4]\n", ""))["main"].rows
    assert {row.serves for row in rows if row.held is None} == {UNSURVEYED}
    assert [row.serves for row in rows if row.space is None] == ["Dryer"]


def test_the_rows_for_a_spreadsheet_name_the_line_of_every_space() -> None:
    job, sheets = job_and_sheets("one_wall")
    made = schedule(job.job, named(job.job, build(job, sheets), sheets))
    lines = {(row[0], row[1]): row[made.head.index("line")] for row in made.rows}
    assert [lines["Main panel", space] for space in (1.0, 2.0, 3.0, 4.0, 5.0)] == ["L1", "L1", "L2", "L2", "L1"]


def test_a_board_with_ways_has_device_curve_and_residual_current_device() -> None:
    change = ('system = "120/240 V single-phase"', 'system = "230 V single-phase"')
    words = 'device = "breaker with residual current device"\ncurve = "B"\nresidual = { type = "A", rated = "30 mA" }\n'
    job, _, _ = damaged("one_wall", change, ('id = "dryer"\n', f'id = "dryer"\n{words}'))
    made = cards("one_wall", change, ('id = "dryer"\n', f'id = "dryer"\n{words}'))
    drawn = drawings(list(made.values()), facts_of(job.job, ""))["panel directory"]
    shown = " ".join(mark.text for _, mark in drawn.texts)
    assert drawn.flaws() == []
    assert "Way" in shown and "RCD" in shown and "A 30 mA" in shown and "current device" in shown


def test_a_panel_with_too_many_spaces_is_refused() -> None:
    job, _ = job_and_sheets("one_wall")
    with pytest.raises(DoesNotFit, match="too long"):
        drawings(list(cards("one_wall", ("spaces = 30", "spaces = 150")).values()), facts_of(job.job, ""))
