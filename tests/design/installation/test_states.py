"""The switch states of the house: what runs with what, and which facts they hang on."""

from importlib.resources import files

import pytest

from standfast.design.installation.build import build
from standfast.design.installation.states import State, states, unknown
from standfast.design.installation.yard import JobFile, SheetFile
from standfast.equipment.read import find
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
CHOSEN = {"battery": "demo-wall-10", "breaker": "demo-breaker", "disconnect": "demo-disconnect-60"}
INLET = ('id = "dryer"\nname = "Dryer"', 'id = "inlet"\nname = "Generator inlet"\nfeeds = "generator"')


def job_of(*changes: tuple[str, str], generator: str | None = None) -> JobFile:
    text = TEXT
    for old, new in changes if generator is None else (*changes, INLET):
        assert old in text, old
        text = text.replace(old, new, 1)
    if generator is not None:
        text += f'\n[[generators]]\nid = "generator"\nname = "Generator"\noutput = "30 A"\n{generator}\n'
    survey, faults = read(text)
    assert survey is not None, faults
    return survey


@pytest.fixture(scope="module")
def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def of(job: JobFile, sheets: dict[str, SheetFile]) -> dict[str, State]:
    return {each.id: each for each in states(job, sheets, build(job, sheets))}


def test_a_battery_with_backup_has_the_grid_and_the_island(sheets: dict[str, SheetFile]) -> None:
    found = of(job_of(), sheets)
    assert list(found) == ["grid", "grid-only", "island-beside-grid", "island"]
    assert found["grid"].name == "the grid feeds the house"
    assert found["island"].name == "the battery carries the backed-up circuits, the grid is away"
    assert found["island"].opened == {"backup/island-switch"}
    assert found["island"].idle == {"utility"}
    assert unknown(job_of(), sheets, build(job_of(), sheets)) == []


def test_without_backup_the_battery_never_runs_alone(sheets: dict[str, SheetFile]) -> None:
    text = TEXT.replace("backed_up = true", "backed_up = false").replace('mode = "circuits"', 'mode = "none"')
    job, faults = read(text)
    assert job is not None, faults
    assert list(of(job, sheets)) == ["grid", "grid-only"]


def test_whether_the_unit_forms_a_grid_is_asked_where_nobody_chose_one() -> None:
    job = job_of()
    found = of(job, {})
    assert [each.how for each in found["island"].hangs_on] == [
        "equipment.battery: choose one by the id of its data sheet"
    ]
    assert unknown(job, {}, build(job, {}))[0].missing


def test_an_interlocked_generator_is_never_joined_to_the_grid(sheets: dict[str, SheetFile]) -> None:
    found = of(job_of(generator="interlocked = true\nwith_battery = false"), sheets)
    assert found["grid"].idle == {"generator"}
    assert found["generator"].opened == {"service-disconnect"}
    assert not any("joined" in id for id in found)
    for state in found.values():
        together = {"utility", "generator"} - state.idle
        assert len(together) < 2 or "service-disconnect" in state.opened, state.id


def test_a_generator_that_is_not_interlocked_can_be_joined_to_the_grid(sheets: dict[str, SheetFile]) -> None:
    found = of(job_of(generator="interlocked = false\nwith_battery = true"), sheets)
    assert found["generator-joined-grid"].idle == frozenset()
    assert found["generator-joined-grid"].opened == frozenset()
    assert found["generator-joined-grid"].hangs_on == ()
    assert found["generator-joined-grid"].name == "the grid and the generator feed the house together"


def test_nobody_said_whether_it_is_interlocked_so_both_may_be(sheets: dict[str, SheetFile]) -> None:
    job = job_of(generator="with_battery = false")
    found = of(job, sheets)
    assert found["generator"].hangs_on == ()
    assert [each.how.partition(":")[0] for each in found["generator-joined-grid-only"].hangs_on] == [
        "generators.generator.interlocked"
    ]
    needs = [each.how for each in unknown(job, sheets, build(job, sheets))]
    assert len(needs) == 1 and needs[0].startswith("generators.generator.interlocked")


def test_the_battery_runs_beside_the_generator_only_as_the_job_says(sheets: dict[str, SheetFile]) -> None:
    beside = of(job_of(generator="interlocked = true\nwith_battery = true"), sheets)
    assert "battery-1/inverter" not in beside["generator-battery"].idle
    parted = of(job_of(generator="interlocked = true\nwith_battery = false"), sheets)
    assert "generator-battery" not in parted
    assert "battery-1/inverter" in parted["generator"].idle


def test_existing_sun_runs_only_beside_something_that_forms_a_grid(sheets: dict[str, SheetFile]) -> None:
    sun = ('id = "dryer"\nname = "Dryer"', 'id = "sun"\nname = "Solar array"\nsource_output = "16 A"')
    found = of(job_of(sun), sheets)
    assert "main/sun/source" not in found["grid"].idle
    assert "main/sun/source" in found["island"].idle
    assert "main/sun/source" not in found["island-beside-grid"].idle


def test_a_generator_that_no_breaker_feeds_is_asked_for(sheets: dict[str, SheetFile]) -> None:
    survey, faults = read(TEXT + '\n[[generators]]\nid = "spare"\ninterlocked = true\n')
    assert survey is not None, faults
    house = build(survey, sheets)
    assert [each.how for each in unknown(survey, sheets, house)] == [
        'panels.circuits: the breaker that it feeds, with feeds = "spare"'
    ]
    assert list(of(survey, sheets)) == ["grid", "grid-only", "island-beside-grid", "island"]


def test_backup_without_an_island_switch_asks_for_one(sheets: dict[str, SheetFile]) -> None:
    job = job_of(('fed_through = "island switch"\n', ""))
    assert list(of(job, sheets)) == ["grid", "grid-only"]
    assert unknown(job, sheets, build(job, sheets))[0].how.startswith("panels.fed_through")


FAULTS = {
    'fed by two circuits': ('id = "dryer"\nname = "Dryer"', 'id = "dryer"\nname = "Dryer"\nfeeds = "backup"'),
    "has main lugs only": ('main = "60 A"\n', 'main = "60 A"\nmain_lugs = true\n'),
    "is fed by feed-through lugs, and by the breaker": (
        'fed_from = "main"\n', 'fed_from = "main"\nfed_by = "feed-through lugs"\n',
    ),
    'is fed from the utility by tap': ('fed_from = "utility"\n', 'fed_from = "utility"\nfed_by = "tap"\n'),
    'there is no panel "attic"': ("[loads]", '[[controls]]\nid = "c"\nlimits = "attic"\n\n[loads]'),
    'there is no source "sun"': ("[loads]", '[[controls]]\nid = "c"\nlimits = "main"\nsources = ["sun"]\n\n[loads]'),
    "is plugged in by hand, and starts without a person": (
        "[loads]", '[[generators]]\nid = "g"\nconnection = "inlet"\nstarts_by_itself = true\n\n[loads]',
    ),
    "has the name of something else": ("[loads]", '[[generators]]\nid = "main"\n\n[loads]'),
}  # fmt: skip


@pytest.mark.parametrize("what", FAULTS)
def test_what_cannot_be_is_a_fault_with_its_place(what: str) -> None:
    old, new = FAULTS[what]
    assert old in TEXT
    _, faults = read(TEXT.replace(old, new, 1))
    assert [each for each in faults if what in each.what and each.line > 0], faults
