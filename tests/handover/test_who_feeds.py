"""The table of who can feed what: names as everywhere, both sides, the state, what clears each source."""

from pathlib import Path

import pytest

from standfast.foreman.demo import write_demo
from standfast.foreman.plan import make_plan
from standfast.handover.who_feeds import blocks
from standfast.paper.document import Table


@pytest.fixture(scope="module")
def table(tmp_path_factory: pytest.TempPathFactory) -> Table:
    folder: Path = tmp_path_factory.mktemp("job")
    design = make_plan(write_demo("many-sources", folder)).design
    found = [each for each in blocks(design.wiring.feeds, design.installation) if isinstance(each, Table)]
    assert len(found) == 1
    return found[0]


def row(table: Table, name: str) -> list[str]:
    return next([str(cell) for cell in each] for each in table.rows if str(each[0]) == name)


def test_every_busbar_stands_in_it(table: Table) -> None:
    names = {str(each[0]) for each in table.rows}
    panels = ("Meter-main", "House panel", "Workshop panel", "Backup panel")
    assert {f"Busbar of the {panel}" for panel in panels} <= names


def test_a_busbar_names_its_sources_and_what_clears_them(table: Table) -> None:
    cells = row(table, "Busbar of the House panel")
    assert cells[1] == "Utility, Generator on wheels: 150 A"
    assert cells[2] == "PV inverter, Battery 1 inverter: 40 A"
    assert cells[3] == "190 A"
    assert cells[4] == "the grid feeds the house"
    assert "House panel main: Utility, Generator on wheels" in cells[5]


def test_what_nothing_limits_is_said_so(table: Table) -> None:
    entrance = next(each for each in table.rows if "Service disconnect" in str(each[0]))
    assert str(entrance[3]) == "no limit"
    assert "none: Utility" in str(entrance[5])


def test_branch_circuits_to_loads_are_left_out(table: Table) -> None:
    assert not [each for each in table.rows if "Range" in str(each[0])]


def test_nothing_stands_where_nothing_was_worked_out(tmp_path: Path) -> None:
    design = make_plan(write_demo("one-wall", tmp_path)).design
    assert blocks((), design.installation) == []
