"""The circuit of the unit: what is chosen, and what each check says when the job changes."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring_job import JOB, NEC, SHEETS, check, wired

from standfast.design.wiring.circuit import Circuit
from standfast.rulebooks.nfpa70 import sizes

FIRST_ROUTE = '[[routes]]\nid = "disconnect-run"'


def built(job: dict[str, str] | None = None, **sheets: dict[str, str] | None) -> Circuit:
    own = wired(job, **sheets).unit
    assert own is not None
    return own.circuit


def size(job: dict[str, str] | None = None, **sheets: dict[str, str] | None) -> str:
    return built(job, **sheets).conductor.size.word


def verdict(id: str, job: dict[str, str] | None = None, **sheets: dict[str, str] | None) -> str:
    return check(wired(job, **sheets), id).verdict


def test_the_whole_job_passes() -> None:
    found = wired()
    assert [each.id for each in found.checks if each.open] == []
    assert len({each.id for each in found.checks}) == len(found.checks)


def test_what_is_built() -> None:
    own = wired().unit
    assert own is not None
    assert (own.continuous.quantity, own.circuit.need.before.quantity, own.breaker.quantity) == (24, 30, 30)
    assert (own.circuit.conductor.size.word, own.circuit.ground.word) == ("10", "10")
    assert own.circuit.conductor.carried.at_terminations.quantity == 35
    assert own.circuit.conductor.carried.after_factors.quantity == pytest.approx(40 * 0.91)
    assert [tube.trade_size.word for tube in own.circuit.raceways] == ["1/2", "1/2"]
    assert own.circuit.length.quantity == pytest.approx(36 * 1.1)


def test_unmarked_terminals_take_the_lowest_column() -> None:
    marked = {'output_current = "24 A"': 'output_current = "26 A"'}
    assert size(battery=marked) == "8"  # 32.5 A: 10 AWG carries 35 A at 75 °C, but 40 A devices need 8 AWG
    unknown = wired({'terminals = "75 °C"\n': ""}, battery={'output_current = "24 A"': 'output_current = "32 A"'})
    assert unknown.unit is not None
    assert unknown.unit.circuit.conductor.conditions.terminations.quantity == 60
    assert check(unknown, "conductor-terminations/battery-1").assumptions()


def test_continuous_factor_and_ambient_are_never_multiplied() -> None:
    hot = {'ambient = "104 °F"': 'ambient = "122 °F"'}
    assert size(hot) == "10"  # 40 A × 0.82 = 32.8 A still carries 24 A


def test_a_full_raceway_asks_for_more_copper_but_not_for_more_ground() -> None:
    own = wired(
        {'insulation = "thhn" }\nother_current_carrying = 0': 'insulation = "thhn" }\nother_current_carrying = 18'}
    ).unit
    assert own is not None
    assert own.circuit.conductor.size.word == "8"  # 40 A × 0.91 × 0.5 = 18.2 A is short
    assert own.circuit.ground.word == "10"


def test_a_long_way_asks_for_more_copper_and_for_more_ground() -> None:
    own = wired({'length = "30 ft"': 'length = "75 ft"'}).unit
    assert own is not None
    assert (own.circuit.conductor.least.word, own.circuit.conductor.size.word) == ("10", "8")
    assert own.circuit.ground.word == "8"


def test_a_long_way_that_the_terminals_cannot_take_fails_on_the_rise() -> None:
    far = {'length = "30 ft"': 'length = "600 ft"'}
    assert verdict("voltage-rise/battery-1", far) == "fail"
    assert size(far) == "6"
    assert verdict("terminal-range/battery-1/battery/line", far) == "pass"


def test_a_size_fixed_by_the_job_is_judged_not_mended() -> None:
    small = {'insulation = "thhn" }': 'insulation = "thhn", size = "12" }'}
    found = wired(small)
    assert check(found, "conductor-terminations/battery-1").verdict == "fail"
    assert check(found, "conductor-protection/battery-1").verdict == "fail"


def test_a_wet_run_lowers_xhhw() -> None:
    wet = {'insulation = "thhn"': 'insulation = "xhhw"', "wet = false": "wet = true"}
    own = wired(wet).unit
    assert own is not None
    assert own.circuit.conductor.conditions.insulation_c.quantity == 75


@pytest.mark.parametrize(
    ("id", "role", "old", "new"),
    [
        ("device-maker-maximum/battery-1", "battery", 'device = "40 A"', 'device = "25 A"'),
        ("device-backfeed/battery-1", "breaker", "backfeed = true", "backfeed = false"),
        ("device-family/battery-1", "breaker", 'family = "W"', 'family = "Q"'),
        ("device-voltage/battery-1", "breaker", 'voltage = "240 V"', 'voltage = "120 V"'),
        ("voltage/battery-1", "battery", 'ac_voltage = "240 V"', 'ac_voltage = "230 V"'),
        ("panel-spaces/main", "breaker", "spaces = 2", "spaces = 6"),
        ("device-held/battery-1", "breaker", 'held = "bolt-on"', 'held = "plug-in"'),
        ("listing-pair/battery-1", "battery", 'with = "unit"', 'with = "another"'),
        ("anti-islanding/battery-1", "battery", "anti_islanding = true", "anti_islanding = false"),
        ("dc-voltage/battery-1", "battery", '"58 V"', '"400 V"\nlive_parts_accessible = true'),
        ("neutral-bond/grid", "battery", 'neutral_bond = "none"', 'neutral_bond = "always"'),
        ("terminal-range/battery-1/battery/line", "battery", 'wire_max = "6"', 'wire_max = "12"'),
        ("terminal-metal/battery-1/disconnect/line", "disconnect", '["cu", "al"]', '["al"]'),
        ("interrupting-rating/battery-1/breaker", "breaker", 'interrupting = "10 kA"', 'interrupting = "5 kA"'),
        ("short-circuit-rating/battery-1/disconnect", "disconnect", 'rating = "10 kA"', 'rating = "2 kA"'),
        ("short-circuit-rating/battery-1", "battery", 'rating = "10 kA"', 'rating = "2 kA"'),
        ("disconnect-rating/battery-1", "disconnect", 'ratings = ["60 A"]', 'ratings = ["20 A"]'),
        ("emergency-shutdown/battery-1", "battery", 'shutdown = "built in"', 'shutdown = "none"'),
    ],
)  # fmt: skip
def test_each_limit_of_the_equipment_can_fail(id: str, role: str, old: str, new: str) -> None:
    assert verdict(id) == "pass"
    assert verdict(id, None, **{role: {old: new}}) == "fail"


@pytest.mark.parametrize(
    ("id", "old", "new"),
    [
        ("service-rating", 'main = "200 A"\nmain_int', 'main = "60 A"\nmain_int'),
        ("electrode-conductor", 'size = "4", material = "cu"', 'size = "8", material = "cu"'),
        ("interrupting-rating/service-disconnect", 'main_interrupting = "22 kA"', 'main_interrupting = "5 kA"'),
        ("interrupting-rating/main", 'breaker_interrupting = "10 kA"', 'breaker_interrupting = "5 kA"'),
        ("short-circuit-rating/main", 'short_circuit_rating = "22 kA"', 'short_circuit_rating = "5 kA"'),
        ("panel-protection/main", 'busbar = "200 A"', 'busbar = "150 A"'),
    ],
)  # fmt: skip
def test_each_limit_of_the_job_can_fail(id: str, old: str, new: str) -> None:
    assert verdict(id) == "pass"
    assert verdict(id, {old: new}) == "fail"


def test_a_raceway_fixed_by_the_job_can_be_too_full() -> None:
    # 40 A: breaker 50 A, three 8 AWG and a 10 AWG ground: 0.1309 in2 on 0.1216 in2.
    large = {'output_current = "24 A"': 'output_current = "40 A"', 'device = "40 A"': 'device = "60 A"'}
    assert [tube.trade_size.word for tube in built(battery=large).raceways] == ["3/4", "3/4"]
    fixed = {'raceway = "emt"': 'raceway = "emt"\ntrade_size = "1/2"'}
    assert verdict("raceway-fill/battery-1/battery-run", fixed, battery=large) == "fail"


def test_a_busbar_that_no_option_saves_fails() -> None:
    more = "".join(
        f'[[panels.circuits]]\nid = "load-{n}"\nbreaker = "50 A"\npoles = 2\nstate = "existing"\n' for n in range(4)
    )
    found = wired({'"opposite end"': '"same end"', FIRST_ROUTE: more + FIRST_ROUTE})
    failed = check(found, "source-busbar/main")
    assert (failed.verdict, found.busbars[0].option) == ("fail", None)
    assert "option (3): fail" in failed.reason


def test_battery_adds_to_the_fault() -> None:
    assert wired().faults["main"].quantity == pytest.approx(9.045)
    # 240 V / 9 kA at a ratio of 1.5: 14.79 + j 22.19 mohm. 32.4 ft of 10 AWG in steel there and back, at 20 °C:
    # 2 × 32.4 × (1.2 × 254.5 / 309.5 + j 0.063) = 63.94 + j 4.08 mohm. 240 V / |78.73 + j 26.27| mohm = 2.892 kA.
    assert wired().faults["battery-1/inverter"].quantity == pytest.approx(2.8915427 + 0.045)


def test_a_transformer_gives_the_greater_of_both_loops() -> None:
    changes = {'fault_current = "9 kA"': 'transformer = { rating = "25 kVA", impedance = "2 %", tolerance = "10 %" }'}
    # What the half windings have is not known: 5/3, as if they had no resistance.
    expected = 25000 / 240 / (0.02 * 0.9) * 5 / 3 / 1000 + 0.045
    assert wired(changes).faults["main"].quantity == pytest.approx(expected)


def test_the_sum_of_devices_counts_only_where_every_breaker_is_listed() -> None:
    same = {'"opposite end"': '"same end"'}
    assert verdict("source-busbar/main", same) == "pass"  # 50 + 30 A on 200 A
    assert verdict("source-busbar/main", {**same, "spaces = 6": "spaces = 20"}) == "cannot tell"


def test_sources_on_the_same_busbar_are_added() -> None:
    solar = (
        '[[panels.circuits]]\nid = "solar"\nbreaker = "40 A"\npoles = 2\nsource_output = "32 A"\nstate = "existing"\n'
    )
    found = wired({FIRST_ROUTE: solar + FIRST_ROUTE})
    assert found.busbars[0].sources.quantity == 1.25 * (24 + 32)
    assert found.busbars[0].options[1][1].verdict == "fail"
    assert found.busbars[0].option == 3


BACKUP = """
[[panels]]
id = "backup"
state = "new"
busbar = "125 A"
main = "60 A"
fed_from = "main"
feed = "end"
source_position = "opposite end"
free_spaces = 12
spaces = 12
short_circuit_rating = "10 kA"
breaker_interrupting = "10 kA"
terminals = "75 °C"
bending_space = "3 in"
neutral_bonded = false
accepts = ["W"]
circuits = []

[[routes]]
id = "backup-feeder"
from = "main"
to = "backup"
length = "7 ft"
ambient = "104 °F"
wet = false
raceway = "emt"
other_current_carrying = 0
state = "new"

"""
FEEDER = '[[panels.circuits]]\nid = "backup-feeder"\nbreaker = "60 A"\npoles = 2\nstate = "new"\n'
SPACE = {"neutral_bonded = true": 'neutral_bonded = true\nbending_space = "3 in"'}
FED = SPACE | {f'{FIRST_ROUTE}\nfrom = "main"': f'{FEEDER}{BACKUP}{FIRST_ROUTE}\nfrom = "backup"'}


def test_every_busbar_up_to_the_service_is_asked() -> None:
    found = wired(FED)
    assert [bar.panel for bar in found.busbars] == ["backup", "main"]
    assert [bar.option for bar in found.busbars] == [1, 2]
    assert [each.id for each in found.checks if each.open] == []


def test_a_new_feeder_is_worked_out_from_its_device() -> None:
    built = wired(FED).feeders[0].built
    assert built is not None
    assert (built.conductor.size.word, built.ground.word, built.raceways[0].trade_size.word) == ("6", "10", "3/4")


def test_a_panel_that_nobody_knows_the_feed_of_is_never_passed_over() -> None:
    unfed = {old: new.replace('fed_from = "main"\n', "") for old, new in FED.items()}
    assert verdict("supply-way/backup", unfed) == "cannot tell"


def test_an_unchanged_service_is_not_asked_for_an_emergency_disconnect() -> None:
    assert verdict("emergency-disconnect") == "not applicable"
    new = {'id = "main"\nstate = "existing"': 'id = "main"\nstate = "new"'}
    assert verdict("emergency-disconnect", {**new, 'emergency_disconnect = "none"\n': ""}) == "cannot tell"
    assert verdict("emergency-disconnect", new) == "fail"


LOST = {'to = "battery"': 'to = "disconnect"', 'from = "disconnect"': 'from = "main"'}
OWN = '[[routes]]\nid = "disconnect-run"'


def test_without_routes_only_what_hangs_on_them_is_open() -> None:
    found = wired(LOST)
    assert check(found, "route/battery-1").verdict == "cannot tell"
    assert check(found, "listing-pair/battery-1").verdict == "pass"
    assert (found.units, found.busbars) == ((), ())
    listed = wired({**LOST, OWN: f'[[panels.circuits]]\nid = "battery"\npoles = 2\nstate = "new"\n\n{OWN}'})
    assert check(listed, "source-busbar/main").verdict == "pass"
    assert check(listed, "device-rating/battery-1").verdict == "pass"
    for id in ("conductor-ampacity/battery-1", "voltage-rise/battery-1", "voltage-drop/battery-1"):
        assert "routes: the runs from main to battery-1" in check(listed, id).reason


def lines() -> list[tuple[str, str]]:
    keep = re.compile(r"^(schema|id|kind|invented|maker|name|date|adoption|from|to|at|standard) =|^\[|^$")
    return [
        (role, line)
        for role, text in {"job": JOB, **SHEETS}.items()
        for line in dict.fromkeys(text.split("\n"))
        if not keep.match(line)
    ]


FEWER_FACTS_PASS = {
    # what is chosen or taken on the safe side where the file does not say, or another option or place decides
    "source_position", "rated", "disconnect_inside",
    "service", "route", "length", "material", "feed", "trade_size", "temperature", "state", "system", "dwelling",
    "electrodes", "forms_grid", "poles", "breaker", "spaces", "conductors", "terminals", "short_circuit_with",
    "charge_current", "fault_x_over_r",
}  # fmt: skip


@pytest.mark.parametrize(("role", "line"), lines())
def test_a_missing_fact_never_turns_into_a_pass(role: str, line: str) -> None:
    before = {each.id: each for each in wired().checks}
    gone = {line + "\n": ""}
    after = wired(gone) if role == "job" else wired(None, **{role: gone})
    changed = [each for each in after.checks if before.get(each.id) != each]
    assert all(each.verdict != "fail" for each in changed)
    worse = [each for each in after.checks if each.verdict == "cannot tell"]
    word = line.split(" =")[0]
    assert worse or word in FEWER_FACTS_PASS, f"{role}: {line}"


@settings(deadline=None, derandomize=True, max_examples=25)
@given(st.integers(5, 48), st.integers(0, 12), st.integers(1, 300), st.integers(0, 200))
def test_more_current_or_a_longer_way_never_takes_less_copper(amps: int, more: int, feet: int, further: int) -> None:
    def area(current: int, length: int) -> int:
        unit = {'output_current = "24 A"': f'output_current = "{current} A"', 'device = "40 A"': 'device = "60 A"'}
        found = size({'length = "30 ft"': f'length = "{length} ft"'}, battery={**unit, 'max = "6"': 'max = "3"'})
        return sizes.order(NEC).index(found)

    assert area(min(amps + more, 48), feet + further) >= area(amps, feet)


def test_the_books_stay_apart() -> None:
    assert {each.clause.book for each in wired().checks} == {NEC.short, "Handbook"}


def test_a_sheet_that_is_silent_about_work_beside_the_grid_cannot_be_told() -> None:
    silent = check(wired(None, battery={'"UL 1741"': '"UL 62109-1"'}), "listing-interactive/battery-1")
    assert silent.verdict == "cannot tell"
    assert "listing: " in silent.reason and "UL 1741" in silent.reason
