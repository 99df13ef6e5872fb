"""The table of joints of neutral and ground: every state of the demo house, with one thing changed at a time."""

import pytest
from damaged_job import DEMO, HANDBOOK, NEC, ROLES, SOUND, Changes, electrical, swapped

from standfast.design.wiring import bonded
from standfast.design.wiring.bonds import Bonds
from standfast.design.wiring.material import Material, SheetFile
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.survey.read import read

Sheets = dict[str, Changes | None]

SWITCHED: Sheets = {"island_switch": (("neutral_switched = false", "neutral_switched = true"),)}
RELAY: Sheets = {"battery": (('neutral_bond = "none"', 'neutral_bond = "while the grid is away"'),)}
ALWAYS: Sheets = {"battery": (('neutral_bond = "none"', 'neutral_bond = "always"'),)}
INLET = ('id = "dryer"\nname = "Dryer"', 'id = "inlet"\nname = "Generator inlet"\nfeeds = "generator"')


def found(job: Changes = (), sheets: Sheets | None = None, more: str = "") -> Bonds:
    """The table of the demo with changes."""
    survey, faults = read(swapped(DEMO, job) + more)
    assert survey is not None, faults
    made: dict[str, SheetFile] = {}
    for role, id in ROLES.items():
        changes = (sheets or {}).get(role, ())
        if changes is not None:
            sheet = read_sheet(swapped(shipped()[id], changes), f"{id}.toml").sheet
            assert sheet is not None
            made[role] = sheet
    return bonded.bonds(Material(NEC, HANDBOOK, survey, made, "battery-1"))


def verdicts(table: Bonds) -> dict[str, str]:
    return {check.id.partition("/")[2]: check.verdict for check in table.checks}


def with_generator(words: str) -> Bonds:
    text = f'\n[[generators]]\nid = "generator"\nname = "Generator"\noutput = "30 A"\ninterlocked = true\n{words}\n'
    return found((INLET,), None, text)


def test_every_part_that_is_alive_by_itself_has_a_row() -> None:
    rows = found().rows
    assert [(row.part, row.bonds.number, row.where, row.verdict) for row in rows] == [
        ("Main panel, Backup panel", 1, "Main panel", "pass"),
        ("Main panel, Backup panel", 1, "Main panel", "pass"),
        ("Main panel", 1, "Main panel", "pass"),
        ("Backup panel", 1, "Main panel", "pass"),
        ("Backup panel", 1, "Main panel", "pass"),
    ]
    assert not any(row.own for row in rows)


def test_pitfall_19_a_switch_that_leaves_the_neutral_needs_no_bond_of_the_inverter() -> None:
    assert SOUND["wiring.neutral-bond/island"].clause.clause == "250.24 and 250.142(B)"
    assert set(verdicts(found((), RELAY)).items()) >= {("grid", "pass"), ("island", "fail")}
    told = {check.id: check.reason for check in found((), RELAY).checks}
    assert "joined at Main panel, battery 1" in told["wiring.neutral-bond/island"]
    assert "250.6(A)" in told["wiring.neutral-bond/island"]


def test_pitfall_19_a_switch_that_opens_the_neutral_needs_exactly_one_bond_beyond_it() -> None:
    lone = found((), SWITCHED)
    assert verdicts(lone) == {"grid": "pass", "grid-only": "pass", "island-beside-grid": "fail", "island": "fail"}
    island = lone.checks[-1]
    assert island.demand is not None
    assert (island.clause.clause, island.demand.number) == ("250.30(A)(1)", 0)
    assert "no joint" in island.reason
    assert set(verdicts(found((), SWITCHED | RELAY)).values()) == {"pass"}
    assert found((), SWITCHED | RELAY).rows[-1].where == "battery 1"
    joined = (("neutral_bonded = false", "neutral_bonded = true"),)
    assert verdicts(found(joined, SWITCHED))["grid"] == "fail"
    assert verdicts(found(joined, SWITCHED))["island"] == "pass"


def test_pitfall_19_both_questions_are_asked_and_neither_is_guessed() -> None:
    unsaid = found((), {"island_switch": (("neutral_switched = false\n", ""),)})
    assert verdicts(unsaid)["grid"] == "pass"
    assert verdicts(unsaid)["island"] == "cannot tell"
    assert "switch.neutral_switched" in unsaid.checks[-1].reason
    relay = found((), {"battery": (('neutral_bond = "none"\n', ""),)})
    assert "electrical.neutral_bond" in relay.checks[-1].reason
    assert found((), {"island_switch": None}).checks[-1].verdict == "cannot tell"


def test_what_is_not_known_decides_nothing_that_is_certain_without_it() -> None:
    twice = (("neutral_bonded = false", "neutral_bonded = true"),)
    unsaid = found(twice, {"island_switch": (("neutral_switched = false\n", ""),)})
    assert verdicts(unsaid)["grid"] == "fail"
    assert unsaid.rows[0].bonds.number == 2
    both = found((), {"battery": (('neutral_bond = "none"\n', ""),)})
    assert verdicts(both)["grid"] == "cannot tell"  # it may be one that is joined always
    assert "battery 1 (?)" in both.rows[0].where


def test_a_bond_that_is_always_closed_is_one_too_many_beside_the_grid() -> None:
    assert verdicts(found((), ALWAYS))["grid"] == "fail"
    assert verdicts(found((), ALWAYS | SWITCHED))["island"] == "pass"


PLUGGED, FIXED = 'connection = "inlet"\nneutral_bonded = true\n', 'connection = "fixed"\nneutral_bonded = true\n'


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("neutral_bonded = false\nneutral_switched = false", {"grid": "pass", "generator": "pass"}),
        (f"{PLUGGED}neutral_switched = false", {"grid": "pass", "generator": "fail"}),
        (f"{FIXED}neutral_switched = false", {"grid": "fail", "generator": "fail"}),
        ("neutral_bonded = true\nneutral_switched = false", {"grid": "cannot tell", "generator": "cannot tell"}),
        ("neutral_switched = false", {"grid": "cannot tell", "generator": "cannot tell"}),
    ],
)  # fmt: skip
def test_a_generator_brings_its_own_joint(words: str, expected: dict[str, str]) -> None:
    table = with_generator(f"with_battery = false\n{words}")
    assert {id: verdict for id, verdict in verdicts(table).items() if id in expected} == expected


def test_a_state_that_nobody_knows_to_be_reachable_never_fails() -> None:
    text = '\n[[generators]]\nid = "generator"\noutput = "30 A"\nconnection = "fixed"\nneutral_bonded = true\n'
    table = found((INLET,), None, text + "neutral_switched = false\nwith_battery = false\n")
    joined = next(check for check in table.checks if check.id.endswith("/generator-joined-grid-only"))
    assert joined.verdict == "cannot tell"
    assert joined.reason.startswith("generators.generator.interlocked")


def test_backup_that_nothing_parts_from_the_grid_is_asked_for() -> None:
    table = found((('fed_through = "island switch"\n', ""),))
    assert table.checks[-1].verdict == "cannot tell"
    assert "fed_through" in table.checks[-1].reason


def test_pitfall_20_a_panel_behind_the_service_keeps_neutral_apart() -> None:
    table = found((("neutral_bonded = false", "neutral_bonded = true"),))
    assert set(verdicts(table).values()) == {"fail"}
    assert all("250.142(B)" in check.reason for check in table.checks)


def test_every_check_of_the_table_stands_among_those_of_the_job() -> None:
    ids = [check.id for check in found().checks]
    assert [id for id in electrical() if id.startswith("wiring.neutral-bond")] == ids
