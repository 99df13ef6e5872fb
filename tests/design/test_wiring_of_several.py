"""Several units, and an inverter that stands by itself: what each has for itself, and what they are together."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring_job import JOB, NEC, SHEETS, check, swap

from standfast.design.wiring.backup import BackupSheet, backup_load
from standfast.design.wiring.load import charging_current, speaker
from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import read as read_sheet
from standfast.shelf import edition
from standfast.survey.read import Survey
from standfast.survey.read import read as read_job

HANDBOOK = edition("handbook", "2026")
ROUTES = JOB[JOB.index('[[routes]]\nid = "disconnect-run"') : JOB.index("[tolerances]")]
MAIN = "spaces = 6\nfree_spaces = 4"
WIDE = {MAIN: "spaces = 20\nfree_spaces = 18", 'busbar = "200 A"': 'busbar = "225 A"'}


def text(count: int) -> str:
    """The job of the wiring tests with so many equal units, each with its own runs."""
    runs = "".join(
        ROUTES.replace("disconnect-run", f"run-{n}").replace("battery-run", f"last-{n}")
        .replace('"disconnect"', f'"disconnect-{n}"').replace('"battery"', f'"battery-{n}"')
        for n in range(1, count + 1)
    )  # fmt: skip
    return swap(JOB.replace(ROUTES, runs) + f'\n[equipment]\nbattery = "unit"\nquantity = {count}\n', WIDE)


def several(count: int, changes: dict[str, str] | None = None) -> Survey:
    survey, faults = read_job(swap(text(count), changes or {}))
    assert survey is not None and faults == []
    return survey


def sheets(**changes: dict[str, str]) -> dict[str, SheetFile]:
    found: dict[str, SheetFile] = {}
    for role, text in SHEETS.items():
        sheet = read_sheet(swap(text, changes.get(role, {})), f"{role}.toml").sheet
        assert sheet is not None
        found[role] = sheet
    return found


def wired(count: int, changes: dict[str, str] | None = None, **changed: dict[str, str]) -> Wiring:
    return wire(NEC, HANDBOOK, several(count, changes), sheets(**changed))


def test_two_units_pass_as_one_does() -> None:
    assert [each.id for each in wired(2).checks if each.open] == []
    ids = [each.id for each in wired(2).checks]
    assert len(set(ids)) == len(ids)


@settings(max_examples=12, deadline=None)
@given(st.integers(1, 6), st.integers(10, 32), st.integers(4, 60))
def test_equal_units_have_equal_circuits_and_their_sum_on_the_busbar(count: int, amps: int, feet: int) -> None:
    more = {'length = "30 ft"': f'length = "{feet} ft"'}
    bigger = {'output_current = "24 A"': f'output_current = "{amps} A"', '"40 A"': '"60 A"'}
    one, all_ = wired(1, more, battery=bigger), wired(count, more, battery=bigger)
    (first,) = one.units
    for each in all_.units:
        assert each.circuit.conductor.size.number == first.circuit.conductor.size.number
        assert each.circuit.ground.number == first.circuit.ground.number
        assert (each.breaker.number, each.drop.volts.number) == (first.breaker.number, first.drop.volts.number)
    assert all_.busbars[0].sources.quantity == pytest.approx(count * one.busbars[0].sources.quantity)
    added = one.faults["main"].quantity - 9
    assert all_.faults["main"].quantity - 9 == pytest.approx(count * added)


def test_names_change_no_number() -> None:
    renamed = {'"run-1"': '"east"', '"last-2"': '"west"', '"main"': '"house"', '"range"': '"stove"'}
    plain, other = wired(2), wired(2, renamed)
    assert [(each.verdict, each.margin) for each in other.checks] == [
        (each.verdict, each.margin) for each in plain.checks
    ]


def test_one_unit_more_can_be_too_many_for_a_busbar() -> None:
    assert check(wired(5), "source-busbar/main").verdict == "pass"  # by the sum of its devices: 50 A and 5 × 30 A
    found = check(wired(6), "source-busbar/main")
    assert (found.verdict, found.reason.count("fail")) == ("fail", 3)


def test_every_breaker_needs_its_spaces() -> None:
    wide = {"spaces = 2": "spaces = 10"}
    assert check(wired(1, breaker=wide), "panel-spaces/main").verdict == "pass"
    found = check(wired(2, breaker=wide), "panel-spaces/main")
    assert (found.verdict, found.margin) == ("fail", -2)


def test_a_unit_of_an_unknown_panel_leaves_open_what_all_of_them_share() -> None:
    lost = several(2, {'id = "run-2"\nfrom = "main"': 'id = "run-2"\nfrom = "utility"'})
    found = wire(NEC, HANDBOOK, lost, sheets())
    assert check(found, "route/battery-2").verdict == "cannot tell"
    assert check(found, "device-rating/battery-1").verdict == "pass"
    for id in ("source-busbar/main", "panel-spaces/main"):
        assert "battery-2" in check(found, id).reason
    assert check(found, "interrupting-rating/main").verdict == "pass"


def backup(count: int, **changed: dict[str, str]) -> BackupSheet:
    job = several(count, {"[tolerances]": '[backup]\nmode = "circuits"\ntransfer = "manual"\n[tolerances]',
                          'id = "range"\nbreaker = "50 A"': 'id = "range"\nload = "7 kVA"\nphases = "line to line"\n'
                          'backed_up = true\nhas_motor = false\nbreaker = "50 A"'})  # fmt: skip
    return backup_load(NEC, job, sheets(**changed), job.fact("supply.service", "I", "A"))


def verdicts(found: BackupSheet) -> dict[str, str]:
    return {each.id.removeprefix("backup."): each.verdict for each in found.checks}


POWER = 'output_current = "24 A"'


def test_units_add_up_on_an_island_only_where_their_maker_says_so() -> None:
    told = {POWER: f'{POWER}\noutput_power = "5.7 kW"\nparallel_max = 3'}
    assert verdicts(backup(1, battery=told))["capacity"] == "fail"  # 7 kVA are 29 A
    assert verdicts(backup(2, battery=told))["capacity"] == "pass"
    assert verdicts(backup(2, battery=told))["parallel"] == "pass"
    assert verdicts(backup(4, battery=told))["parallel"] == "fail"
    silent = backup(2, battery={POWER: f'{POWER}\noutput_power = "5.7 kW"'})
    assert {verdicts(silent)[id] for id in ("parallel", "capacity", "largest-load")} == {"cannot tell"}
    assert "parallel" not in verdicts(backup(1, battery=told))


# ---- An inverter that stands by itself

INVERTER = (
    SHEETS["battery"].replace('id = "unit"', 'id = "hybrid"').replace('kind = "battery unit"', 'kind = "inverter"')
)
INVERTER = INVERTER.replace('[energy]\nrated = "10 kWh"\n', "")
CELLS = re.sub(r"\n(ac_voltage|output_current|charge_current|max_overcurrent|fault_contribution|forms_grid).*", "",
               SHEETS["battery"]).replace('with = "unit"', 'with = "hybrid"')  # fmt: skip
HYBRID = {
    'to = "battery"': 'to = "inverter"',
    "[tolerances]": '[[routes]]\nid = "dc"\nfrom = "inverter"\nto = "battery"\n'
    '[equipment]\nbattery = "unit"\ninverter = "hybrid"\n[tolerances]',
}


def hybrid(battery: str = CELLS, inverter: str = INVERTER, quantity: int = 1) -> Wiring:
    job, faults = read_job(swap(JOB, HYBRID))
    assert job is not None and faults == []
    found = sheets()
    for role, text in {"battery": battery, "inverter": inverter}.items():
        sheet = read_sheet(text, f"{role}.toml").sheet
        assert sheet is not None
        found[role] = sheet
    assert charging_current(NEC, job, speaker(job, found)).quantity == pytest.approx(1.25 * 21)
    return wire(NEC, HANDBOOK, job, found)


def test_the_inverter_speaks_for_the_circuit() -> None:
    found = hybrid()
    (own,) = found.units
    assert (own.id, own.output.quantity, own.breaker.quantity) == ("inverter-1", 24, 30)
    assert [each.name for each in own.ends] == ["main", "breaker", "disconnect", "inverter"]
    for id in ("device-rating", "voltage", "anti-islanding", "listing-interactive", "short-circuit-rating"):
        assert check(found, f"{id}/inverter-1").verdict == "pass"
    assert check(found, "listing-pair/battery-1").verdict == "pass"
    assert {"inverter-1", "inverter-1/disconnect", "main"} < set(found.faults)


def test_a_battery_and_an_inverter_that_are_not_listed_as_a_pair_fail_with_the_clause() -> None:
    alone = INVERTER.replace('with = "unit"', 'with = "other"')
    found = check(hybrid(CELLS.replace('with = "hybrid"', 'with = "other"'), alone), "listing-pair/battery-1")
    assert (found.verdict, str(found.clause)) == ("fail", str(NEC.clause("storage_listing")))
    said_by_inverter = hybrid(CELLS.replace('with = "hybrid"', 'with = "other"'))
    assert check(said_by_inverter, "listing-pair/battery-1").verdict == "pass"


# ---- Units in a panel of their own that one feeder joins to the house

COMBINER = """
[[panels]]
id = "combiner"
state = "new"
busbar = "125 A"
main = "80 A"
fed_from = "main"
feed = "end"
source_position = "elsewhere"
spaces = 12
short_circuit_rating = "10 kA"
breaker_interrupting = "10 kA"
terminals = "75 °C"
neutral_bonded = false
accepts = ["W"]
circuits = []


[[routes]]
id = "feeder"
from = "main"
to = "combiner"
length = "20 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
conductors = { material = "cu", insulation = "thhn" }
other_current_carrying = 0
state = "new"

[tolerances]"""
FEEDER = (
    '[[panels.circuits]]\nid = "range"',
    (
        '[[panels.circuits]]\nid = "feeder"\nfeeds = "combiner"\nbreaker = "60 A"\npoles = 2\nstate = "new"\n\n'
        '[[panels.circuits]]\nid = "range"'
    ),
)


def combined(count: int) -> Wiring:
    ends = {f'id = "run-{n}"\nfrom = "main"': f'id = "run-{n}"\nfrom = "combiner"' for n in range(1, count + 1)}
    return wired(count, {**ends, FEEDER[0]: FEEDER[1], "[tolerances]": COMBINER})


def test_units_in_a_panel_of_their_own_share_its_feeder() -> None:
    two = combined(2)
    assert [bar.panel for bar in two.busbars] == ["combiner", "main"]
    assert [bar.sources.quantity for bar in two.busbars] == [60, 60]
    (feeder,) = two.feeders
    assert feeder.built is not None
    needed = check(two, "source-feeder/combiner")
    assert needed.limit is not None
    assert (needed.verdict, needed.limit.quantity) == ("pass", 60)
    assert check(two, "panel-spaces/combiner").verdict == "pass"
    assert check(two, "feeder-load/combiner").verdict == "pass"  # two that charge: 1.25 × 42 A
    three = combined(3)
    assert check(three, "feeder-load/combiner").verdict == "fail"
    assert check(three, "interrupting-rating/main/feeder").verdict == "pass"
