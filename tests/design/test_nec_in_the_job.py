"""What the NEC asks of a dwelling beside its battery, on one small job: sets, jumpers, neutral, loads, editions."""

from importlib.resources import files
from math import ceil
from pathlib import Path

import pytest
from damaged_job import electrical
from wiring_job import JOB, SHEETS, check, swap, wired

from standfast.design.wiring import drop, load, splices, unbalance
from standfast.design.wiring.drop import Part
from standfast.design.wiring.material import Material
from standfast.equipment.read import read as read_sheet
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import make_plan
from standfast.rulebooks.nfpa70 import loads
from standfast.sheet import Value, at_least, at_most, given
from standfast.shelf import Edition, edition
from standfast.survey.read import read as read_job

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
SERVICE = 'conductors = { size = "4/0", material = "al", sets = 1 }'
ELECTRODE = 'electrode_conductor = { size = "4", material = "cu" }'
ROUTE = '[[routes]]\nid = "disconnect-run"'
SUB = """
[[panels]]
id = "sub"
state = "{state}"
busbar = "225 A"
main = "{main}"
fed_from = "main"
feed = "end"
source_position = "opposite end"
free_spaces = 8
spaces = 12
short_circuit_rating = "22 kA"
breaker_interrupting = "22 kA"
terminals = "75 °C"
bending_space = "8 in"
neutral_bonded = false
accepts = ["W"]
{circuits}

[[routes]]
id = "sub-feeder"
from = "main"
to = "sub"
length = "7 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
conductors = {{ {conductors} }}
other_current_carrying = 0
state = "{state}"

"""
NONE = "circuits = []"


def fed(main: str, conductors: str, state: str = "new", circuits: str = NONE) -> dict[str, str]:
    """The job with its battery in a sub-panel behind a feeder."""
    feeder = (
        f'[[panels.circuits]]\nid = "sub-feeder"\nfeeds = "sub"\nbreaker = "{main}"\npoles = 2\nstate = "{state}"\n'
    )
    panel = SUB.format(main=main, conductors=conductors, state=state, circuits=circuits)
    space = {"neutral_bonded = true": 'neutral_bonded = true\nbending_space = "8 in"'}
    return space | {f'{ROUTE}\nfrom = "main"': f'{feeder}{panel}{ROUTE}\nfrom = "sub"'}


def verdict(id: str, job: dict[str, str] | None = None) -> str:
    return check(wired(job), id).verdict


# --- conductors -----------------------------------------------------------------------------------------------------
WYE = {'system = "120/240 V single-phase"\nvoltage = "240 V"': 'system = "120/208 V single-phase"\nvoltage = "208 V"'}
OTHERS = {"other_current_carrying = 0": "other_current_carrying = 1"}


@pytest.mark.parametrize(("wye", "others", "factor"), [(False, True, 1.0), (True, False, 1.0), (True, True, 0.8)])
def test_the_neutral_of_two_lines_of_a_wye_counts_for_bundling(wye: bool, others: bool, factor: float) -> None:
    found = wired((WYE if wye else {}) | (OTHERS if others else {})).unit
    assert found is not None
    assert found.circuit.conductor.conditions.bundling.quantity == factor


def test_a_feeder_of_a_part_of_the_house_has_no_83_percent() -> None:
    """100 A: 3 AWG copper has 100 A at 75 °C; by 83 % 4 AWG with 85 A would do."""
    built = wired(fed("100 A", 'material = "cu"')).feeders[0].built
    assert built is not None
    assert built.conductor.size.word == "3"
    small = fed("100 A", 'size = "4", material = "cu"')
    assert verdict("conductor-terminations/sub-feeder", small) == "fail"


@pytest.mark.parametrize(("size", "expected"), [("4/0", "pass"), ("3/0", "fail")])
def test_the_conductors_of_the_service_may_have_83_percent(size: str, expected: str) -> None:
    """200 A: 166 A; 4/0 aluminium has 180 A at 75 °C, 3/0 has 155 A."""
    assert verdict("service-conductors", {SERVICE: SERVICE.replace("4/0", size)}) == expected


def test_sets_of_an_ac_run_carry_together() -> None:
    """200 A in two sets of 1/0 aluminium: twice 120 A at 75 °C; four conductors in one raceway: 0.8 × 2 × 135 A."""
    built = wired(fed("200 A", 'material = "al", size = "1/0", sets = 2')).feeders[0].built
    assert built is not None
    carried = built.conductor.carried
    assert carried.at_terminations.quantity == 240
    assert carried.after_factors.quantity == pytest.approx(216)
    assert built.raceways[0].area.quantity == pytest.approx(6 * 0.1855 + 0.0824)  # lines, neutrals, one full ground
    assert built.ground.word == "4"
    assert built.part.sets is not None


def test_conductors_in_parallel_are_not_below_1_0() -> None:
    small = fed("200 A", 'material = "cu", size = "2", sets = 2')
    assert verdict("parallel/sub-feeder", small) == "fail"
    assert verdict("conductor-terminations/sub-feeder", small) == "cannot tell"


def test_an_existing_feeder_of_two_sets_carries_twice() -> None:
    job = fed("200 A", 'material = "al", size = "1/0", neutral = "1/0", sets = 2', "existing")
    (found,) = wired(job).feeders
    assert found.usable.quantity == pytest.approx(216)
    assert verdict("conductor-protection/sub-feeder", job) == "pass"


def test_a_run_of_104_and_one_of_105_degrees_fahrenheit() -> None:
    cool, hot = wired().unit, wired({'ambient = "104 °F"': 'ambient = "105 °F"'}).unit
    assert cool is not None and hot is not None
    assert cool.circuit.conductor.conditions.ambient.quantity == 0.91
    assert hot.circuit.conductor.conditions.ambient.quantity == 0.87


def of_runs(one: str, other: str) -> str:
    first, second, rest = JOB.split('{ material = "cu", insulation = "thhn" }')
    return f"{first}{{ {one} }}{second}{{ {other} }}{rest}"


def test_of_two_sizes_of_one_circuit_none_is_taken() -> None:
    found = check(wired({JOB: of_runs('size = "8", material = "cu"', 'size = "6"')}), "conductor-ampacity/battery-1")
    assert found.verdict == "cannot tell"
    assert "the runs of one circuit differ" in found.reason


@pytest.mark.parametrize("metals", [("cu", "al"), ("al", "cu")])
def test_of_two_metals_of_one_circuit_aluminium_counts(metals: tuple[str, str]) -> None:
    found = wired({JOB: of_runs(*(f'material = "{metal}"' for metal in metals))})
    assert found.unit is not None
    assert found.unit.circuit.conductor.conditions.material.word == "al"
    assert check(found, "terminal-metal/battery-1/battery/line").verdict == "fail"


def test_drop_counts_both_conductors_and_the_metal() -> None:
    """24 A over 30 ft of 6 AWG: copper 0.491, aluminium 0.808 ohm per 1000 ft, there and back."""
    survey = read_job(JOB).survey
    assert survey is not None
    task = Material(NEC, HANDBOOK, survey, {}, "battery-1")
    size, feet, amps = given("size", "6", "", "test"), given("L", 30.0, "ft", "test"), given("I", 24.0, "A", "test")
    volts = [
        drop.along(task, "V_d", [Part(given("material", metal, "", "test"), size, feet)], amps).volts.quantity
        for metal in ("cu", "al")
    ]
    assert volts == [pytest.approx(2 * 24 * 0.491 * 30 / 1000), pytest.approx(2 * 24 * 0.808 * 30 / 1000)]
    two = Part(given("material", "cu", "", "test"), size, feet, given("n_set", 2.0, "1", "test"))
    assert drop.along(task, "V_d", [two], amps).volts.quantity == pytest.approx(volts[0] / 2)


# --- grounding and bonding ------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("electrodes", "size", "expected"),
    [
        ('["ground rods"]', "6", "pass"),  # 250.66(A)
        ('["ground rods"]', "8", "fail"),
        ('["concrete-encased electrode"]', "4", "pass"),  # 250.66(B)
        ('["concrete-encased electrode"]', "6", "fail"),
        ('["metal water pipe", "ground rods"]', "4", "pass"),  # 4/0 aluminium: 4 AWG by the table
        ('["metal water pipe", "ground rods"]', "6", "fail"),
    ],
)
def test_the_electrode_conductor_goes_by_what_it_ends_at(electrodes: str, size: str, expected: str) -> None:
    changes = {'electrodes = ["concrete-encased electrode"]': f"electrodes = {electrodes}"}
    assert verdict("electrode-conductor", changes | {ELECTRODE: ELECTRODE.replace('"4"', f'"{size}"')}) == expected


NEW = {'id = "main"\nstate = "existing"': 'id = "main"\nstate = "new"'}


def jumper(text: str, new: bool = True, conductors: str = SERVICE) -> dict[str, str]:
    return {SERVICE: f"{conductors}\n{text}"} | (NEW if new else {})


@pytest.mark.parametrize(
    ("text", "new", "expected"),
    [
        ("", False, "not applicable"),
        ("", True, "cannot tell"),
        ('main_bonding = "screw or strap of the maker"', True, "not applicable"),
        ('main_bonding = "wire"', True, "cannot tell"),
        ('main_bonding = "wire"\nmain_bonding_jumper = { size = "4", material = "cu" }', True, "pass"),
        ('main_bonding = "wire"\nmain_bonding_jumper = { size = "6", material = "cu" }', True, "fail"),
        ('main_bonding_jumper = { size = "6", material = "cu" }', False, "fail"),
    ],
)
def test_main_and_supply_side_jumpers_go_by_the_service_conductors(text: str, new: bool, expected: str) -> None:
    """4/0 aluminium service conductors: 4 AWG copper."""
    assert verdict("main-bonding-jumper", jumper(text, new)) == expected
    other = text.replace("main_bonding_jumper", "supply_side_jumper")
    if other != text:
        assert verdict("supply-side-jumper", jumper(other, new)) == expected


@pytest.mark.parametrize(("size", "expected"), [("3/0", "pass"), ("2/0", "fail")])
def test_a_jumper_beyond_the_table_has_an_eighth_of_the_area(size: str, expected: str) -> None:
    """Three sets of 400 kcmil copper, 1200 kcmil: 150 000 circular mils, where the electrode conductor stops at 3/0."""
    three = 'conductors = { size = "400", material = "cu", sets = 3 }'
    job = jumper(f'main_bonding_jumper = {{ size = "{size}", material = "cu" }}', conductors=three)
    assert verdict("main-bonding-jumper", job) == expected


@pytest.mark.parametrize(
    ("text", "id", "expected"),
    [
        ('water_bond = { size = "4", material = "cu" }', "water-bond", "pass"),
        ('water_bond = { size = "6", material = "cu" }', "water-bond", "fail"),
        ('gas_bond = { size = "6", material = "cu" }', "gas-bond", "pass"),  # by the 200 A of the service
        ('gas_bond = { size = "10", material = "cu" }', "gas-bond", "cannot tell"),
        ('gas_bond = { size = "14", material = "cu" }\ngas_circuit = "15 A"', "gas-bond", "pass"),
        ('gas_bond = { size = "14", material = "cu" }\ngas_circuit = "20 A"', "gas-bond", "fail"),
        ('water_bond = { size = "4" }', "water-bond", "cannot tell"),
    ],
)
def test_jumpers_of_pipes_have_their_size(text: str, id: str, expected: str) -> None:
    assert verdict(id, jumper(text, new=False)) == expected


def test_a_jumper_of_a_water_pipe_stops_at_its_cap() -> None:
    three = 'conductors = { size = "500", material = "cu", sets = 3 }'
    job = jumper('water_bond = { size = "3/0", material = "cu" }', new=False, conductors=three)
    assert verdict("water-bond", job) == "pass"  # an eighth of 1500 kcmil would be 187.5 kcmil
    assert verdict("water-bond", {SERVICE: job[SERVICE].replace("3/0", "2/0")}) == "fail"


@pytest.mark.parametrize(("size", "expected"), [("2/0", "pass"), ("2", "pass"), ("4", "fail")])
def test_the_neutral_of_the_service_carries_a_fault_back(size: str, expected: str) -> None:
    """4/0 aluminium: not below 2 AWG aluminium."""
    job = {SERVICE: SERVICE.replace("sets = 1", f'sets = 1, neutral = "{size}"')}
    assert verdict("service-neutral", job) == expected


def test_a_sub_panel_that_joins_neutral_and_ground_fails() -> None:
    joined = {
        old: new.replace("neutral_bonded = false", "neutral_bonded = true") for old, new in fed("60 A", "").items()
    }
    fails = [each.id for each in wired(joined).checks if each.verdict == "fail"]
    assert [each for each in fails if "bond" in each]
    assert not [each.id for each in wired(fed("60 A", "")).checks if "bond" in each.id and each.verdict == "fail"]


# --- services -------------------------------------------------------------------------------------------------------
def test_a_service_has_six_disconnects_at_most() -> None:
    assert verdict("service-disconnects") == "pass"
    more = "".join(f'\n[[panels]]\nid = "p{n}"\nfed_from = "utility"\nstate = "existing"\n' for n in range(6))
    many = {ROUTE: f"{more}\n{ROUTE}"}
    assert verdict("service-disconnects", many) == "fail"
    one = many | {'emergency_disconnect = "none"': 'emergency_disconnect_mark = "service disconnect"'}
    assert verdict("service-disconnects", one) == "pass"


def test_which_breakers_of_a_panel_without_main_are_the_disconnects_is_not_guessed() -> None:
    found = check(wired({"neutral_bonded = true": "neutral_bonded = true\nmain_lugs = true"}), "service-disconnects")
    assert found.verdict == "cannot tell"
    assert "panels.main.main_lugs" in found.reason


# --- loads ----------------------------------------------------------------------------------------------------------
LIGHTS = """
[[panels.circuits]]
id = "lights-{n}"
spaces = [{n}]
breaker = "20 A"
poles = 1
load = "{load}"
continuous = "0 VA"
phases = "line to neutral"
state = "existing"
"""


TO_GROUND = {'voltage = "240 V"': 'voltage = "240 V"\nvoltage_to_ground = "120 V"'}


def lights(*loads: tuple[int, str]) -> str:
    return "".join(LIGHTS.format(n=n, load=load) for n, load in loads)


@pytest.mark.parametrize(
    ("loads", "neutral", "expected"),
    [
        (((1, "2400 VA"), (3, "1200 VA")), "10", "pass"),  # 20 A on one line, 10 A on the other: 20 A
        (((1, "2400 VA"), (5, "2400 VA")), "10", "cannot tell"),  # 40 A connected over 35 A of 10 AWG: demand not known
        (((1, "2400 VA"), (5, "2400 VA")), "8", "pass"),
        (((1, "2400 VA"),), "none", "fail"),
    ],
)
def test_the_neutral_of_a_feeder_carries_the_greater_line(
    loads: tuple[tuple[int, str], ...], neutral: str, expected: str
) -> None:
    job = fed("60 A", f'size = "6", material = "cu", neutral = "{neutral}"', "existing", lights(*loads))
    assert (
        verdict("neutral-load/sub", {'voltage = "240 V"': 'voltage = "240 V"\nvoltage_to_ground = "120 V"'} | job)
        == expected
    )


def test_a_neutral_that_nobody_measured_is_no_pass() -> None:
    job = fed("60 A", 'size = "6", material = "cu"', "existing", lights((1, "1200 VA")))
    found = check(wired(TO_GROUND | job), "neutral-load/sub")
    assert found.verdict == "cannot tell"
    assert "routes.sub-feeder.conductors.neutral" in found.reason


def neutral(*changes: tuple[str, str]) -> Value:
    text = DEMO
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    survey = read_job(text).survey
    assert survey is not None
    return unbalance.of_house(NEC, survey)


def test_the_neutral_of_the_demo_house_by_hand() -> None:
    """Lighting 10 050 VA by steps; range 8 kW and dryer 5 kW at 70 %; three appliances; the blower; no cooling."""
    by_hand = 3000 + 0.35 * 7050 + 0.7 * 8000 + 0.7 * 5000 + 1200 + 600 + 300 + 850
    assert neutral().quantity == pytest.approx(by_hand / 240)


def test_a_load_that_nobody_said_how_it_is_joined_counts_on_the_neutral_and_says_so() -> None:
    found = neutral(('rating = "4800 VA"\nphases = "line to line"', 'rating = "4800 VA"'))
    assert found.quantity == pytest.approx(neutral().quantity + 4800 / 240)
    assert any(each.bounding for each in found.trail())
    assert neutral(("[[loads.appliances]]", "[[loads.nothing]]")).missing


def house_load(text: str, book: Edition = NEC) -> load.LoadSheet:
    survey, sheet = read_job(text).survey, read_sheet(SHEETS["battery"], "battery.toml").sheet
    assert survey is not None
    assert sheet is not None
    return load.service_load(book, survey, {"battery": sheet})


def test_a_vehicle_supply_is_no_appliance_fastened_in_place() -> None:
    """Four appliances of 500 VA and more would have 75 %; a vehicle supply is not the fourth."""
    three = swap(DEMO, {'rating = "300 VA"': 'rating = "500 VA"', 'method = "existing"': 'method = "standard"'})
    car = '[[loads.appliances]]\nid = "car"\nkind = "{}"\nrating = "7200 VA"\nstate = "existing"\n\n[loads.heating]'
    charger, fastened = (
        house_load(swap(three, {"[loads.heating]": car.format(kind)})).house.quantity
        for kind in ("vehicle charger", "fastened in place")
    )
    assert charger - fastened == pytest.approx(0.25 * (1200 + 600 + 500 + 7200) / 240)


@pytest.mark.parametrize(("service", "expected"), [("100 A", "pass"), ("90 A", "fail")])
def test_the_method_for_new_dwellings_needs_a_service_of_100_amperes(service: str, expected: str) -> None:
    new = {'method = "existing"': 'method = "new"', 'service = "200 A"': f'service = "{service}"'}
    found = house_load(swap(DEMO, new))
    assert {each.id: each.verdict for each in found.checks}["load.method-service"] == expected


def test_a_house_without_electric_heat_is_worked_out_under_the_latest_edition_as_far_as_it_is_held() -> None:
    """2 VA/ft2 on 1850 ft2, 8 kVA in full and 40 % of the rest: 120.82(B). What charging adds was not seen for it."""
    text = swap(DEMO, {'method = "existing"': 'method = "new"', 'kind = "air conditioner"': 'kind = "none"'})
    pool = 1850 * 2 + 3 * 1500 + 12_000 + 5000 + 1200 + 600 + 300 + 850
    found = house_load(text, edition("nfpa70", "2026"))
    assert found.house.quantity == pytest.approx((8000 + 0.4 * (pool - 8000)) / 240)
    whole = {each.id: each for each in found.checks}["load.service"]
    assert (whole.verdict, whole.clause.edition) == ("cannot tell", "2026")
    assert house_load(text).house.quantity == pytest.approx((10_000 + 0.4 * (pool + 1850 - 10_000)) / 240)


def test_loads_at_240_volts_and_motors_at_230() -> None:
    """4.8 kVA are 20 A at the 240 V of the supply; the table of motors says which voltage its rows are for."""
    assert loads.line_current(given("S", 4800.0, "VA", "test"), given("U", 240.0, "V", "test")).quantity == 20
    volts = {row["volts"] for row in NEC.table("motor_single_phase").rows}
    assert {115.0, 230.0} <= volts
    assert not {120.0, 240.0} & volts


# --- numbers as they are and as they are printed ----------------------------------------------------------------------
def test_print_rounds_outward_and_verdicts_do_not_round() -> None:
    clause = NEC.clause("conductor_protection")
    just = at_most("x", "t", clause, given("I", 30.0000004, "A", "test"), given("I_n", 30.0, "A", "test"))
    assert just.verdict == "fail"
    just = at_least("x", "t", clause, given("I_z", 29.9999996, "A", "test"), given("I", 30.0, "A", "test"))
    assert just.verdict == "fail"


@pytest.mark.parametrize("modules", [9, 8])
def test_the_numbers_on_labels_are_those_of_the_calculation(modules: int, tmp_path: Path) -> None:
    job = write_demo("stack-outdoors", tmp_path / "house") / "job.toml"
    job.write_text(swap(job.read_text("utf-8"), {"modules = 9": f"modules = {modules}"}), "utf-8")
    plan = make_plan(job.parent)
    (array,) = plan.design.wiring.arrays
    volts = f"{array.name}: {ceil(array.voltage.quantity)} V".upper()
    assert [each for each in plan.design.labels if volts in each.wording]


def test_the_unit_load_and_its_clause_are_those_of_the_edition() -> None:
    area = given("A", 1000.0, "ft2", "test")
    found = {year: loads.lighting(edition("nfpa70", year), area) for year in ("2020", "2023", "2026")}
    assert [each.quantity for each in found.values()] == [3000, 3000, 2000]
    assert [str(each.clause) for each in found.values()] == ["NEC 2020 220.14(J)", "NEC 2023 220.41", "NEC 2026 120.41"]


# --- boxes ----------------------------------------------------------------------------------------------------------
HERE = 'splice = { where = "in the panel that it came from" }'


def boxed(volume: str, *, grounds: int = 4, clamps: str = "true") -> str:
    inside = f'conductor = "12", conductors = 16, grounds = {grounds}, clamps = {clamps}'
    return f'splice = {{ where = "in a box", volume = "{volume}", {inside} }}'


@pytest.mark.parametrize(
    ("splice", "expected"),
    [
        (HERE, "not applicable"),
        ("", "cannot tell"),
        (boxed("42 in3"), "pass"),  # 16 conductors, four grounds as one, clamps as one: 18 of 2.25 in3 = 40.5 in3
        (boxed("40 in3"), "fail"),
        (boxed("42 in3", grounds=8), "fail"),  # four grounds more are a whole conductor more: 42.75 in3
        (boxed("43 in3", grounds=8), "pass"),
        (boxed("40 in3", clamps="false"), "pass"),
        (boxed("42 in3").replace('volume = "42 in3", ', ""), "cannot tell"),
        (boxed("42 in3").replace(", clamps = true", ""), "cannot tell"),
        (boxed("42 in3").replace('conductor = "12"', 'conductor = "4"'), "cannot tell"),  # 314.28
    ],
)
def test_the_box_of_a_splice_is_filled_by_all_that_enters_it(splice: str, expected: str) -> None:
    text = DEMO.replace(HERE, splice)
    survey = read_job(text).survey
    assert survey is not None
    task = Material(NEC, HANDBOOK, survey, {}, "battery-1")
    found = {each.id: each.verdict for each in splices.checks(task)}
    assert set(found.values()) == {expected}
    assert len(found) == (1 if splice == HERE else 6)


def test_a_moved_circuit_of_which_nobody_said_how_far_it_reaches_is_told() -> None:
    survey = read_job(swap(DEMO, {f'extended = "4 ft"\n{HERE}\n': ""})).survey
    assert survey is not None
    asked = [each for each in splices.checks(Material(NEC, HANDBOOK, survey, {}, "battery-1")) if each.open]
    assert len(asked) == 3
    assert all(".extended" in each.reason for each in asked)


# --- a neutral of its own -------------------------------------------------------------------------------------------
SWITCHED = (("neutral_switched = false", "neutral_switched = true"),)
RELAY = (('neutral_bond = "none"', 'neutral_bond = "while the grid is away"'),)
OF_BACKUP = 'transfer = "automatic"\n'


@pytest.mark.parametrize(
    ("text", "jumper", "conductor"),
    [
        ("", "cannot tell", "cannot tell"),
        (
            'bonding_jumper = { size = "8", material = "cu" }\n',
            "pass",
            "cannot tell",
        ),  # 10 AWG copper: 8 AWG by the table
        ('bonding_jumper = { size = "10", material = "cu" }\n', "fail", "cannot tell"),
        ('electrode_conductor = { size = "8", material = "cu" }\n', "cannot tell", "pass"),
        ('electrode_conductor = { size = "10", material = "cu" }\n', "cannot tell", "fail"),
    ],
)
def test_a_battery_with_a_neutral_of_its_own_has_a_jumper_and_an_electrode(
    text: str, jumper: str, conductor: str
) -> None:
    found = electrical(((OF_BACKUP, OF_BACKUP + text),), island_switch=SWITCHED)
    assert found["wiring.island-bonding-jumper"].verdict == jumper
    assert found["wiring.island-electrode-conductor"].verdict == conductor
    inside = electrical((), island_switch=SWITCHED, battery=RELAY)
    assert inside["wiring.island-bonding-jumper"].verdict == "not applicable"


def test_a_battery_on_the_neutral_of_the_grid_is_asked_for_none_of_both() -> None:
    assert not [id for id in electrical() if "island-bonding" in id or "island-electrode" in id]
