"""Laws of a house on its battery alone: more current or a quicker stop never harms; more that starts never helps."""

from importlib.resources import files

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.design.wiring import clearing
from standfast.design.wiring.backup import backup_load
from standfast.design.wiring.material import Material
from standfast.equipment.read import DataSheet, shipped
from standfast.equipment.read import read as read_sheet
from standfast.sheet import Check
from standfast.sheet import given as said
from standfast.shelf import edition
from standfast.survey.read import Survey, read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
UNIT = shipped()["demo-wall-10"]
STATED = 'island_fault_current = "45 A"\nisland_fault_time = "0.2 s"\n'
MOTORS = ("18 A", "38 A", "25 A")
NAMES = ("refrigerator", "furnace", "kitchen-lights", "kitchen-receptacles", "network", "garage-door")
ORDER = {"fail": 0, "cannot tell": 1, "pass": 2, "not applicable": 3}


def survey(text: str) -> Survey:
    found, faults = read(text)
    assert found is not None, faults
    return found


JOB = survey(DEMO)


def unit(stated: str) -> DataSheet:
    found = read_sheet(UNIT.replace(STATED, stated), "unit.toml").sheet
    assert found is not None
    return found


def ends(current: float | None, time: float | None) -> Check:
    """The check on faults of the backup panel for a battery that states a current in A and a time in s, or neither."""
    stated = "" if current is None else f'island_fault_current = "{current} A"\n'
    stated += "" if time is None else f'island_fault_time = "{time} s"\n'
    task = Material(NEC, HANDBOOK, JOB, {"battery": unit(stated)}, "battery-1")
    (found,) = clearing.checks(task, clearing.table(task))
    return found


amps, seconds = st.integers(1, 400), st.integers(1, 300).map(lambda n: n / 100)


@settings(max_examples=40)
@given(amps, amps, seconds)
def test_more_current_never_leaves_a_fault_standing(first: int, second: int, time: float) -> None:
    less, more = ends(min(first, second), time), ends(max(first, second), time)
    assert ORDER[more.verdict] >= ORDER[less.verdict]


@settings(max_examples=40)
@given(amps, seconds, seconds)
def test_a_quicker_stop_never_leaves_a_fault_standing(current: int, first: float, second: float) -> None:
    slow, quick = ends(current, max(first, second)), ends(current, min(first, second))
    assert ORDER[quick.verdict] >= ORDER[slow.verdict]


@settings(max_examples=30)
@given(st.none() | amps, st.none() | seconds)
def test_what_a_sheet_leaves_out_makes_no_pass(current: int | None, time: float | None) -> None:
    whole, bare = ends(current, 9.0 if time is None else time), ends(current, time)
    if time is None and (current is None or current < 200):
        assert bare.verdict == "cannot tell"
    assert bare.verdict != "pass" or whole.verdict == "pass"


def together(answers: tuple[str, str, str], sheds: frozenset[str] = frozenset()) -> dict[str, Check]:
    """The checks on backup with what three motors say of their start, and with circuits that a control drops."""
    text = DEMO
    for amps_, answer in zip(MOTORS, answers, strict=True):
        head, mark, tail = text.partition(f'locked_rotor = "{amps_}"')
        line, end, rest = tail.partition("\n")
        text = head + mark + line.replace("true", answer).replace("false", answer) + end + rest
    names = ", ".join(f'"{each}"' for each in sorted(sheds))
    text = text.replace("[backup]\n", f'[backup]\nsheds = [{names}]\nshedding = "UL 916, file 000 (invented)"\n')
    house = said("I_house", 90.0, "A", "a law")
    found = backup_load(NEC, survey(text), {"battery": unit(STATED)}, house)
    return {check.id: check for check in found.checks}


words = st.sampled_from(("true", "false"))
triples = st.tuples(words, words, words)


@settings(max_examples=8)
@given(triples)
def test_one_more_motor_that_starts_by_itself_never_helps(answers: tuple[str, str, str]) -> None:
    before = together(answers)["backup.motors-together"]
    for at in range(3):
        more = tuple("true" if at == n else answer for n, answer in enumerate(answers))
        after = together((more[0], more[1], more[2]))["backup.motors-together"]
        assert ORDER[after.verdict] <= ORDER[before.verdict]


@settings(max_examples=15)
@given(st.frozensets(st.sampled_from(NAMES)), st.sampled_from(NAMES))
def test_one_more_circuit_that_is_dropped_never_adds_load(sheds: frozenset[str], more: str) -> None:
    before, after = (together(("true",) * 3, each)["backup.capacity"] for each in (sheds, sheds | {more}))
    assert before.demand is not None and after.demand is not None
    assert after.demand.quantity <= before.demand.quantity
