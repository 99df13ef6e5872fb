"""The one-line diagram of the invented demo job, and of larger and poorer ones."""

from collections.abc import Mapping
from importlib import resources

import pytest

from standfast import shelf
from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.build import JobFile, SheetFile, build
from standfast.design.labels.schedule import schedule
from standfast.design.wiring.backup import backup_load
from standfast.design.wiring.load import service_load
from standfast.design.wiring.whole import wire
from standfast.equipment.read import find
from standfast.handover import loads
from standfast.handover.drawings.one_line import draw, drawings
from standfast.handover.drawings.one_line_told import OneLine, RunWords
from standfast.handover.drawings.one_line_tree import NoUtility, Words, branch_circuits, tree
from standfast.handover.drawings.one_line_words import one_line
from standfast.paper.document import Table
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.survey import read

NEC, HANDBOOK = shelf.edition("nfpa70", "2023"), shelf.edition("handbook", "2026")
DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
CHOSEN = {
    "battery": "demo-wall-10",
    "breaker": "demo-breaker",
    "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
}


def job_of(*changes: tuple[str, str]) -> JobFile:
    text = DEMO
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    survey = read(text).survey
    assert survey is not None
    return survey


def sheets(*roles: str) -> Mapping[str, SheetFile]:
    found = {role: find(CHOSEN[role]).sheet for role in roles or CHOSEN}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def facts(*changes: tuple[str, str], roles: tuple[str, ...] = ()) -> OneLine:
    job, chosen = job_of(*changes), sheets(*roles)
    installation, wiring = build(job, chosen), wire(NEC, HANDBOOK, job, chosen)
    labels = schedule(NEC, installation, {bar.panel: bar.option for bar in wiring.busbars if bar.option}, backup=True)
    return one_line(job, chosen, installation, wiring, labels, "sheet E2")


def texts(drawing: Drawing) -> list[str]:
    return [mark.text for _, mark in drawing.texts]


@pytest.fixture(scope="module")
def demo() -> tuple[OneLine, Drawing]:
    told = facts()
    return told, draw(told)


def test_a_draughtsman_would_sign_it(demo: tuple[OneLine, Drawing]) -> None:
    _, drawing = demo
    assert drawing.flaws() == []
    assert drawing.notes == []
    assert min(mark.height for _, mark in drawing.texts) >= 2.5


def test_every_device_has_its_one_name_once(demo: tuple[OneLine, Drawing]) -> None:
    told, drawing = demo
    shown = " ".join(texts(drawing))
    grouped = {
        part.id
        for bus in told.installation.of_kind("busbar")
        for parts in branch_circuits(told.installation, bus).values()
        for part in parts
    }
    for part in told.installation.parts.values():
        if part.id in grouped or part.kind == "load":
            continue
        mark = "(E)" if part.existing else "(N)"
        assert f"{mark} {part.name}" in shown or part.kind == "electrode", part.name


def test_fault_current_stands_at_every_bus_and_ratings_beside_every_device(demo: tuple[OneLine, Drawing]) -> None:
    _, drawing = demo
    lines = texts(drawing)
    assert (
        sum(line.startswith("fault current ") and "kA" in line for line in lines) == 6
    )  # the utility's own, and 5 buses
    for line in (
        "busbar 200 A, end-fed, withstands 22 kA",
        "200 A, interrupting 22 kA",
        "30 A, 2-pole, interrupting 10 kA",
    ):
        assert line in lines
    assert "60 A, withstands 10 kA, lockable" in lines
    assert "see sheet E2" in lines


def test_every_run_is_numbered_on_its_line_and_in_the_schedule(demo: tuple[OneLine, Drawing]) -> None:
    told, drawing = demo
    lines = texts(drawing)
    for number, run in enumerate(told.runs, 1):
        assert lines.count(str(number)) >= 2, run
        assert " ".join(lines).count(run.title.split(" to ")[0]) >= 1
    joined = {id for run in told.runs for id in run.ids}
    drawn = {link.id for link in told.installation.links if link.kind in ("conductor", "bond")}
    loads_only = {link.id for link in told.installation.links if link.b.endswith("/load")}
    assert joined == drawn - loads_only


def test_electrode_bonding_and_labels_are_there(demo: tuple[OneLine, Drawing]) -> None:
    _, drawing = demo
    shown = " ".join(texts(drawing))
    assert "main bonding jumper" in shown
    assert "electrode system concrete-encased electrode" in shown
    assert "Bonded: water pipe yes, gas pipe yes, intersystem terminal yes." in shown
    assert "label L1" in shown
    assert "(E) Emergency disconnect" in shown
    assert "readily reached outdoors; of the battery: terminals for a remote switch; label L6" in shown


def test_the_same_job_gives_the_same_drawing(demo: tuple[OneLine, Drawing]) -> None:
    assert draw(facts()).svg() == demo[1].svg()


@pytest.mark.parametrize(
    ("change", "shown"),
    [
        (('fault_current = "9.4 kA"\n', ""), "fault current at the service not known"),
        (('main_interrupting = "22 kA"\n', ""), "200 A, interrupting not known"),
        (('electrodes = ["concrete-encased electrode"]\n', ""), "not known"),
        (("gas_pipe_bonded = true\n", "gas_pipe_bonded = false\n"), "gas pipe NO"),
        (('size = "4/0"\nmaterial = "al"', 'material = "al"'), "lines size not known Al XHHW in RMC, 12 ft"),
    ],
)
def test_what_nobody_surveyed_is_printed_as_not_known(change: tuple[str, str], shown: str) -> None:
    drawing = draw(facts(change))
    assert shown in " ".join(texts(drawing))
    assert drawing.flaws() == []


@pytest.mark.parametrize(
    ("change", "shown"),
    [
        (("neutral_bonded = true\n", ""), "Neutral and ground are joined NOWHERE that is known"),
        (("neutral_bonded = false", "neutral_bonded = true"), "joined in: Main panel, Backup panel; kept apart in"),
        (('_mark = "not service equipment"', '_mark = "service disconnect"'), "joined in: emergency disconnect, Main"),
    ],
)
def test_joints_of_neutral_and_ground_are_told_as_surveyed(change: tuple[str, str], shown: str) -> None:
    assert shown in " ".join(facts(change).grounding)


def test_equipment_that_was_not_chosen_is_drawn_without_ratings() -> None:
    told = facts(roles=("battery", "breaker"))
    island = told.words["backup/island-switch"]
    assert island.lines[0] == "rating not known"
    assert draw(told).flaws() == []


def test_a_backup_panel_without_an_island_switch() -> None:
    told = facts(('fed_through = "island switch"\n', ""))
    drawing = draw(told)
    assert drawing.flaws() == []
    assert not any("Island switch" in line for line in texts(drawing))


def test_one_lone_branch_circuit_keeps_its_name() -> None:
    text = (
        DEMO[: DEMO.index('[[panels.circuits]]\nid = "furnace"')]
        + DEMO[DEMO.index('[[panels.circuits]]\nid = "battery"') :]
    )
    survey = read(text).survey
    assert survey is not None
    installation = build(survey, sheets())
    told = one_line(survey, sheets(), installation, wire(NEC, HANDBOOK, survey, sheets()))
    assert "(E) Refrigerator breaker" in texts(draw(told))


def chain(length: int, width: int) -> OneLine:
    parts = [Part("utility", "utility", "Utility", {}, True), Part("bus", "busbar", "Bus", {}, True)]
    links = [Link("service", "utility", "bus", "conductor")]
    for column in range(width):
        before = "bus"
        for row in range(length):
            id = f"d-{column}-{row}"
            parts.append(Part(id, "disconnect", f"Disconnect {column} {row}", {}, False))
            links.append(Link(f"run-{id}", before, id, "busbar" if before == "bus" else "conductor"))
            before = id
    words = {part.id: Words(part.name, ("60 A",)) for part in parts}
    runs = [RunWords(("service",), "Service", ("not known",))]
    return OneLine(Installation(parts, links), words, runs, (), ())


@pytest.mark.parametrize(("length", "width"), [(1, 1), (2, 3), (6, 2), (8, 1)])
def test_other_installations_are_laid_out_without_flaws(length: int, width: int) -> None:
    assert draw(chain(length, width)).flaws() == []


SUN = ('id = "dryer"\nname = "Dryer"', 'id = "sun"\nname = "Solar array"\nsource_output = "16 A"')


def test_a_source_that_is_there_already_stands_beside_the_battery() -> None:
    made = drawings(facts(SUN))
    assert list(made) == ["one-line", "one-line continued", "one-line schedule"]
    assert [drawing.flaws() for drawing in made.values()] == [[], [], []]
    assert "(E) Solar array" in texts(made["one-line"])
    assert "Ringed numbers: see the conductor schedule on sheet E1.1." in texts(made["one-line"])
    assert "power source, 16 A continuous" in texts(made["one-line"])
    assert "(N) Backup panel main" in texts(made["one-line continued"])
    assert "Conductors and raceways" in texts(made["one-line schedule"])


def test_two_sources_on_two_panels_still_fit() -> None:
    second = ('id = "network"\nname = "Network and alarms"', 'id = "wind"\nname = "Wind"\nsource_output = "12 A"')
    assert [drawing.flaws() for drawing in drawings(facts(SUN, second)).values()] == [[], [], []]


def test_what_fits_on_one_sheet_stays_on_one(demo: tuple[OneLine, Drawing]) -> None:
    assert list(drawings(demo[0])) == ["one-line"]


@pytest.mark.parametrize(("length", "width", "why"), [(14, 1, "higher"), (1, 9, "wide")])
def test_what_is_too_large_for_the_sheet_is_refused(length: int, width: int, why: str) -> None:
    with pytest.raises(DoesNotFit, match=why):
        draw(chain(length, width))


def test_a_schedule_that_is_too_long_is_refused() -> None:
    told = chain(1, 1)
    long = told._replace(notes=["A note that takes a line of its own."] * 60)
    with pytest.raises(DoesNotFit, match="too long"):
        draw(long)


def test_an_installation_without_a_utility_has_no_top() -> None:
    with pytest.raises(NoUtility):
        tree(Installation([], []), lambda part: Words(part.name, ()))


def test_load_and_backup_become_tables_with_every_line() -> None:
    job, chosen = job_of(), sheets()
    load = service_load(NEC, job, chosen)
    backup = backup_load(NEC, job, chosen, load.house)
    found = [block for block in loads.blocks(load, backup) if isinstance(block, Table)]
    assert [len(table.rows) for table in found] == [len(load.rows), len(backup.rows)]
    assert ["Load of the house", "21600 VA", "NEC 2023 220.83(A)"] in [list(row) for row in found[0].rows]
