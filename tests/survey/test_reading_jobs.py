"""What the reader of job files says: every fault at once, with its place, what to do, and the nearest known word."""

from datetime import date
from importlib import resources

import pytest

from standfast.faults import UnitMismatch
from standfast.survey import read
from standfast.survey.read import Survey

DEMOS = resources.files("standfast.foreman").joinpath("demos")
GOOD = DEMOS.joinpath("one_wall", "job.toml").read_text(encoding="utf-8")
FAULTY = DEMOS.joinpath("faulty", "job.toml").read_text(encoding="utf-8")
HEAD = 'schema = 1\n[job]\nname = "x"\ndate = 2026-05-04\nadoption = "us-2021"\n'


def good() -> Survey:
    survey, faults = read(GOOD)
    assert not faults
    assert survey is not None
    return survey


def mended(text: str) -> str:
    return "\n".join(row.partition("# mend:")[2].strip() if "# mend:" in row else row for row in text.split("\n"))


def said(text: str) -> list[str]:
    return [str(fault) for fault in read(text).faults]


def test_the_demo_job_has_no_fault_and_says_that_it_is_invented() -> None:
    job = good().job
    assert job.job.invented
    assert "invented" in job.job.name


def test_each_line_of_the_faulty_demo_that_is_marked_has_a_fault_and_no_other_line_has() -> None:
    rows = FAULTY.split("\n")
    # Which data sheets there are is no question of this reader.
    marked = {n for n, row in enumerate(rows, 1) if "# mend:" in row and "demo-" not in row}
    assert {fault.line for fault in read(FAULTY).faults} == marked
    assert len(marked) > 35


def test_the_faulty_demo_can_be_mended_by_what_it_says_itself() -> None:
    survey, faults = read(mended(FAULTY))
    assert not faults
    assert survey is not None


@pytest.mark.parametrize(
    ("lines", "fault"),
    [
        ("[site]\nfloor_area = 1850", "job.toml:7:14: site.floor_area: 1850 has no unit: an area is due here"),
        ('[site]\nfloor_area = "1850"', "job.toml:7:14: site.floor_area: '1850' has no unit: an area is due here"),
        ('[site]\nfloor_area = "3 ft"', 'job.toml:7:14: site.floor_area: "3 ft" measures length: an area is due here'),
        (
            '[site]\nfloor_aera = "3 ft2"',
            'job.toml:7:1: "floor_aera" is not a word that is known here (did you mean floor_area?)',
        ),
        ('[site]\nservice = "200 A"', "(it belongs under [supply])"),
        ('[sight]\naddress = "x"', 'job.toml:6:1: "sight" is not a word that is known here (did you mean site?)'),
        ('[[rooms]]\nid = "a"\nkind = "atached garage"', 'did you mean "attached garage"?'),
        ('[[rooms]]\nkind = "kitchen"', "rooms has no id: Name by which walls and openings refer to it (add id = …)"),
        ('[[rooms]]\nid = "not known"\nkind = "kitchen"', "job.toml:7:6: id cannot be not known"),
        ('[[rooms]]\nid = "A b"\nkind = "kitchen"', 'job.toml:7:6: rooms.id: "A b" cannot be a name'),
        (
            '[[rooms]]\nid = "a"\nkind = "kitchen"\n[[rooms]]\nid = "a"\nkind = "hall"',
            'job.toml:10:6: id "a" is there twice: line 6 has it too',
        ),
        ('[conditions]\nflood_hazard_area = "no"', "is not true or false (write true or false, without quotes)"),
        (
            '[site]\nyear_built = "1987"',
            "is not a whole number (write a whole number without quotes and without a unit)",
        ),
        ("[site]\nyear_built = 1", "job.toml:7:14: year_built: 1 cannot be"),
        (
            '[contractor]\nlicence_expires = "2027-01-01"',
            "is not a date (write year-month-day without quotes: 2026-05-04)",
        ),
        ("[contractor]\nlicence_expires = 2026-05-03", "the licence ended on 2026-05-03: the job is dated 2026-05-04"),
        (
            '[land]\nlot = [["0 ft", "0 ft"], ["1 ft", "0 ft"]]',
            "job.toml:7:7: lot is no outline: it has fewer than three corners",
        ),
        (
            '[land]\nlot = [["0 ft", "0 ft"], ["9 ft", "0 ft"], ["0 ft", "9 ft"], ["9 ft", "9 ft"]]',
            "its sides 2 and 4 meet",
        ),
        (
            '[land]\nlot = [["0 ft", "0 ft"], ["9 ft"], ["0 ft", "9 ft"]]',
            "job.toml:7:26: land.lot: item 2 is missing here",
        ),
        ('[land]\nlot = [["0 ft", "0 ft"], ["9 ft", 3], ["0 ft", "9 ft"]]', "job.toml:7:35: land.lot: 3 has no unit"),
        ('[supply]\nsystem = "120/208 V single-phase"\nvoltage = "240 V"', 'write the voltage between lines: "208 V"'),
        ('[[panels]]\nid = "a"\nfed_from = "a"', 'panel "a" is fed from itself'),
        ('[[panels]]\nid = "a"\nfed_from = "b"\n[[panels]]\nid = "b"\nfed_from = "b"', 'panel "b" is fed from itself'),
        (
            '[[rooms]]\nidd = "a"\nkind = "kitchen"',
            'job.toml:7:1: "idd" is not a word that is known here (did you mean id?)',
        ),
        ('[[panels]]\nid = "a"\nspaces = 4\ncircuits = [{ id = "x", spaces = [6] }]', 'panel "a" has 4 spaces'),
        ('[[panels]]\nid = "a"\ncircuits = [{ id = "x", spaces = [2], poles = 2 }]', "list one space for each pole"),
        ('[wishes]\nwall = "east"', 'job.toml:7:8: there is no wall "east" (add the wall)'),
        ('[[routes]]\nid = "r"\nfrom = "battery"\nto = "battery"', 'route "r" ends where it starts'),
        ('[backup]\nmode = "circuits"\n[[panels]]\nid = "a"\ncircuits = []', "no circuit says backed_up = true"),
        ("[tolerances]\nplacing = nan", "job.toml:7:11: tolerances.placing: nan has no unit"),
        ('[tolerances]\nplacing = "-1 mm"', '"-1 mm" is too small: it cannot be below 0 mm'),
        ('[tolerances]\nplacing = "1/0 mm"', "divides by zero"),
        ("rooms = 3", 'job.toml:6:1: "rooms" is not a word that is known here'),
    ],
)
def test_a_fault_says_where_what_and_what_to_do(lines: str, fault: str) -> None:
    (found,) = said(HEAD + lines + "\n")
    assert fault in found


WALL = """
[[rooms]]
id = "garage"
kind = "attached garage"
[[walls]]
id = "w"
room = "garage"
length = "12 ft"
height = "8 ft"
"""
DOOR = 'openings = [{{ id = "d", kind = "door", left = "{}", bottom = "{}", width = "3 ft", height = "7 ft" }}]'


@pytest.mark.parametrize(
    ("lines", "fault"),
    [
        ('start = ["0 ft", "0 ft"]\nend = ["12 ft 1 in", "0 ft"]', "its ends in plan are 12 ft 1 in apart"),
        ('start = ["0 ft", "0 ft"]\nend = ["12 ft 1/2 in", "0 ft"]', ""),
        (DOOR.format("10 ft", "0 in"), '"d" reaches 13 ft 0 in from the left end'),
        (DOOR.format("1 ft", "2 ft"), '"d" reaches 9 ft 0 in above the floor'),
        ('build_up = { first_stud = "13 ft" }', "first_stud reaches 13 ft 0 in"),
        ('vehicle_path = { left = "3 ft", right = "2 ft" }', "right (2 ft) is not beyond left (3 ft)"),
        ('vehicle_path = { left = "3 ft", right = "20 ft" }', "vehicle_path reaches 20 ft 0 in"),
        ('behind = "kitchen"', 'there is no room "kitchen"'),
        ('behind = "outside"', ""),
    ],
)
def test_what_is_on_a_wall_fits_on_it(lines: str, fault: str) -> None:
    found = said(HEAD + WALL + lines + "\n")
    assert (fault in found[0] and len(found) == 1) if fault else not found


def test_two_openings_do_not_overlap_but_may_touch() -> None:
    door = '{{ id = "{}", kind = "door", left = "{} ft", bottom = "0 in", width = "3 ft", height = "7 ft" }}'
    touching = f"openings = [{door.format('a', 1)}, {door.format('b', 4)}]\n"
    over = f"openings = [{door.format('a', 1)}, {door.format('b', 3)}]\n"
    assert not said(HEAD + WALL + touching)
    assert '"b" and "a" overlap' in said(HEAD + WALL + over)[0]


def test_faults_of_every_kind_come_at_once_and_what_was_understood_is_kept() -> None:
    text = (
        HEAD
        + 'sope = "x"\n[supply\nmain = "200 A"\n[site]\nfloor_area = 3\naddress = "here"\n'
        + WALL
        + 'behind = "x"\n'
    )
    survey, faults = read(text)
    assert [fault.line for fault in faults] == [6, 7, 10, 21]
    assert survey is not None
    assert survey.job.site.address == "here"
    assert survey.job.site.floor_area is None


def test_a_faulty_head_gives_no_survey_but_the_other_faults_too() -> None:
    survey, faults = read(HEAD.replace("2026-05-04", '"soon"') + '[wishes]\nwall = "east"\n')
    assert survey is None
    assert [fault.line for fault in faults] == [4, 7]


def test_places_stay_right_behind_an_item_that_was_taken_out() -> None:
    text = HEAD + '[[rooms]]\nid = "a"\n[[rooms]]\nid = "b"\nkind = "hall"\nceiling = "8 ft"\n'
    survey, faults = read(text)
    assert len(faults) == 1
    assert survey is not None
    assert survey.fact("rooms.b.ceiling", "h", "in").how == "job.toml:11:1 rooms.b.ceiling"


def test_a_reference_to_a_faulty_item_is_no_second_fault() -> None:
    text = HEAD + '[[rooms]]\nid = "a"\nkind = "hal"\n[[walls]]\nid = "w"\nroom = "a"\nlength = "9 ft"\n'
    assert len(said(text)) == 1


def test_a_fact_names_its_place_and_is_converted() -> None:
    fact = good().fact("walls.garage-east.build_up.stud_spacing", "s", "mm")
    assert fact.quantity == pytest.approx(406.4)
    line = GOOD.split("\n").index('stud_spacing = "16 in"') + 1
    assert fact.how == f"job.toml:{line}:1 walls.garage-east.build_up.stud_spacing"
    assert fact.kind == "given"


def test_words_yes_counts_dates_and_lists_are_facts() -> None:
    survey = good()
    assert survey.fact("rooms.garage.kind", "place").word == "attached garage"
    assert survey.fact("rooms.garage.separated", "separated").yes
    assert survey.fact("panels.main.free_spaces", "n", "1").quantity == 4
    assert survey.fact("contractor.licence_expires", "end").word == "2027-03-31"
    assert survey.fact("supply.electrodes", "electrodes").number == ("concrete-encased electrode",)
    assert survey.fact("routes.battery-run.from", "from").word == "battery"
    assert survey.fact("job.date", "day").word == date(2026, 5, 4).isoformat()


@pytest.mark.parametrize(
    ("lines", "need"),
    [
        ("", "supply.fault_current: job.toml does not say. Find out and write there: Available fault current"),
        ('[supply]\nfault_current = "not known"\n', "job.toml says that it is not known"),
    ],
)
def test_an_absent_fact_is_missing_and_says_what_to_find_out(lines: str, need: str) -> None:
    survey, faults = read(HEAD + lines)
    assert not faults
    assert survey is not None
    fact = survey.fact("supply.fault_current", "I_sc", "A")
    assert fact.missing
    assert need in fact.how


def test_a_fact_in_an_absent_table_or_item_is_missing_with_the_right_sentence() -> None:
    survey = good()
    assert "Rated power of the motor" not in survey.fact("supply.transformer.impedance", "Z", "%").how
    assert 'Impedance: "1.5 %"' in survey.fact("supply.transformer.impedance", "Z", "%").how
    assert "job.toml has no walls garage-west" in survey.fact("walls.garage-west.length", "L", "mm").how


def test_a_word_that_the_format_does_not_know_is_an_error_of_the_program() -> None:
    for path in ("supply.flt_current", "supply.transformer.z", "supply.main.x", "supply", "walls"):
        with pytest.raises(KeyError):
            good().fact(path, "x", "A")


@pytest.mark.parametrize(
    ("path", "unit"),
    [("supply.main", "V"), ("supply.main", ""), ("rooms.garage.kind", "A"), ("panels.main.spaces", "A")],
)
def test_a_fact_asked_in_a_wrong_unit_is_refused(path: str, unit: str) -> None:
    with pytest.raises(UnitMismatch):
        good().fact(path, "x", unit)


def test_ids_and_has_and_place() -> None:
    survey = good()
    assert survey.ids("walls") == ["garage-east", "garage-north"]
    assert survey.ids("walls.garage-north.openings") == ["kitchen-door"]
    assert survey.has("supply.main")
    assert not survey.has("supply.transformer")
    assert survey.place("supply").startswith("job.toml:")


@pytest.mark.parametrize(
    ("lines", "fault"),
    [
        ('id = "a"\nwhat = "smoke alarms"\nat = "cellar"', 'there is no panel or circuit "cellar"'),
        ('id = "co-alarms"\nwhat = "smoke alarms"', 'id "co-alarms" is there twice'),
        ('id = "again"\nwhat = "carbon monoxide alarms"', '"again" offers carbon monoxide alarms again'),
    ],
)
def test_offers_of_work_on_the_existing_house_name_a_place_and_are_there_once(lines: str, fault: str) -> None:
    assert GOOD.count("\n[[defects]]") > 0
    text = GOOD.replace("\n[[defects]]", f"\n[[adders]]\n{lines}\n\n[[defects]]", 1)
    assert [fault in each for each in said(text)] == [True]
