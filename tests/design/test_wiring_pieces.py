"""Runs piece by piece: the piece that carries least decides, unless it is short; roofs are hotter than the air."""

import pytest
from wiring_job import JOB, check, swap, wired

from standfast.design.wiring.whole import Wiring
from standfast.survey.read import read

RUN = 'length = "30 ft"\nambient = "104 °F"\nwet = false\nraceway = "emt"\n'
RUN += 'conductors = { material = "cu", insulation = "thhn" }'
ROOF = 'on_roof = true, above_roof = "0 in"'
HOT = 'on_roof = false, ambient = "140 °F"'


def run(*sections: str, insulation: str = "thhn", wet: str = "true") -> dict[str, str]:
    """The first run, 30 ft, outdoors, with sections; the second is 6 ft: both at 10 % tolerance."""
    where = f'length = "30 ft"\nambient = "104 °F"\nwet = {wet}\nraceway = "emt"\n'
    return {RUN: f'{where}conductors = {{ insulation = "{insulation}" }}\nsections = [{", ".join(sections)}]'}


def piece(id: str, length: str, words: str = "on_roof = false") -> str:
    return f'{{ id = "{id}", length = "{length}", {words} }}'


def factors(found: Wiring) -> tuple[float, float]:
    assert found.unit is not None
    where = found.unit.circuit.conductor.conditions
    return where.ambient.quantity, where.bundling.quantity


def test_a_long_hot_piece_decides() -> None:
    assert factors(wired(run(piece("wall", "20 ft"), piece("attic", "10 ft", HOT)))) == (0.71, 1.0)


def test_a_short_hot_piece_is_left_out_and_the_sheet_says_so() -> None:
    found = wired(run(piece("wall", "28 ft"), piece("attic", "2 ft", HOT)))
    assert factors(found) == (0.91, 1.0)
    assert found.unit is not None
    heat = found.unit.circuit.conductor.conditions.ambient
    assert heat.how.startswith("left out as short: disconnect-run attic")
    assert heat.clause is not None
    assert heat.clause.clause == "310.14(A)(2), Exception"


def test_short_is_a_tenth_of_the_circuit_too() -> None:
    """At the long end of the survey 3 ft are 3.3 ft; a tenth of the circuit at its short end is 3.24 ft."""
    assert factors(wired(run(piece("wall", "27 ft"), piece("attic", "3 ft", HOT)))) == (0.71, 1.0)


def test_short_is_ten_feet_too() -> None:
    long = run(piece("wall", "290 ft"), piece("attic", "10 ft", HOT))
    long = {RUN: long[RUN].replace('"30 ft"', '"300 ft"')}
    assert factors(wired(long)) == (0.71, 1.0)  # 11 ft at the long end
    shorter = {RUN: long[RUN].replace("290 ft", "291 ft").replace("10 ft", "9 ft")}
    assert factors(wired(shorter)) == (0.91, 1.0)


def test_short_pieces_count_together() -> None:
    twice = run(piece("wall", "27 ft"), piece("attic", "1.5 ft", HOT), piece("loft", "1.5 ft", HOT))
    assert factors(wired(twice)) == (0.71, 1.0)


def test_of_three_steps_the_highest_that_leaves_out_little_enough_decides() -> None:
    warm = piece("lean-to", "20 ft", 'on_roof = false, ambient = "122 °F"')
    assert factors(wired(run(warm, piece("wall", "8 ft"), piece("attic", "2 ft", HOT)))) == (0.82, 1.0)


def test_a_piece_beside_other_circuits_bundles_there_alone() -> None:
    beside = piece("gutter", "20 ft", "on_roof = false, other_current_carrying = 6")
    assert factors(wired(run(piece("wall", "10 ft"), beside))) == (0.91, 0.7)


@pytest.mark.parametrize(
    ("words", "insulation", "factor"),
    [
        (ROOF, "thhn", 0.5),  # 40 °C and 33 K
        ('on_roof = true, above_roof = "0.74 in"', "thhn", 0.5),
        ('on_roof = true, above_roof = "0.75 in"', "thhn", 0.91),
        (ROOF, "xhhw-2", 0.91),
        ("on_roof = false", "thhn", 0.91),
    ],
)
def test_the_sun_on_a_roof_adds_its_heat_close_above_it(words: str, insulation: str, factor: float) -> None:
    assert (
        factors(wired(run(piece("wall", "10 ft"), piece("roof", "20 ft", words), insulation=insulation)))[0] == factor
    )


def test_insulation_of_75_degrees_may_not_lie_close_above_a_hot_roof() -> None:
    found = wired(run(piece("wall", "29 ft"), piece("roof", "1 ft", ROOF), insulation="thw"))
    asked = check(found, "conductor-ampacity/battery-1")
    assert asked.verdict == "cannot tell"  # 73 °C: the table ends; that it is short does not help


@pytest.mark.parametrize("words", ["wet_words = 0", "on_roof = true"])
def test_a_roof_that_nobody_said_or_measured_is_no_pass(words: str) -> None:
    section = piece("roof", "20 ft", words) if words.startswith("on_roof") else '{ id = "roof", length = "20 ft" }'
    found = wired(run(piece("wall", "10 ft"), section))
    asked = check(found, "conductor-ampacity/battery-1")
    assert asked.verdict == "cannot tell"
    word = "above_roof" if words.startswith("on_roof") else "on_roof"
    assert f"routes.disconnect-run.sections.roof.{word}" in asked.reason


def test_indoors_nobody_is_asked_for_a_roof() -> None:
    inside = run(
        '{ id = "wall", length = "10 ft" }', '{ id = "attic", length = "20 ft", ambient = "140 °F" }', wet="false"
    )
    assert factors(wired(inside)) == (0.71, 1.0)


def test_a_piece_of_unknown_length_counts_in_full() -> None:
    open_end = f'{{ id = "attic", {HOT} }}'
    assert factors(wired(run(piece("wall", "29 ft"), open_end))) == (0.71, 1.0)


def test_a_nipple_between_two_enclosures_bundles_nothing() -> None:
    short = JOB.replace('length = "6 ft"', 'length = "21 in"').replace('length = "30 ft"', 'length = "3 ft"')
    head, _, tail = short.rpartition("other_current_carrying = 0")
    nipple = f"{head}other_current_carrying = 10{tail}"
    assert factors(wired({JOB: nipple})) == (0.91, 1.0)  # 23.1 in at the longest
    assert factors(wired({JOB: nipple.replace("21 in", "22 in")}))[1] == 0.5


@pytest.mark.parametrize(
    ("sections", "wet", "told"),
    [
        ((piece("wall", "10 ft"), piece("attic", "10 ft")), "true", "20 ft together, the run 30 ft"),
        ((piece("wall", "10 ft"), piece("wall", "20 ft")), "true", '"wall"'),
        ((piece("wall", "10 ft"), piece("roof", "20 ft", ROOF)), "false", "says wet = false"),
    ],
)
def test_sections_that_cannot_be_true_are_faults(sections: tuple[str, ...], wet: str, told: str) -> None:
    faults = [str(each) for each in read(swap(JOB, run(*sections, wet=wet))).faults]
    assert any(told in each for each in faults), faults


def test_sections_that_make_up_the_run_are_no_fault() -> None:
    assert not read(swap(JOB, run(piece("wall", "10 ft 1 in"), piece("attic", "20 ft")))).faults


def test_a_run_along_the_wall_has_no_sections() -> None:
    along = {RUN: run(piece("wall", "10 ft"))[RUN].replace('length = "30 ft"\n', 'along = "wall"\n')}
    faults = [str(each) for each in read(swap(JOB, along)).faults]
    assert any("write its length instead of along" in each for each in faults)


def test_the_raceway_may_change_along_the_run() -> None:
    found = wired(run(piece("wall", "10 ft"), piece("yard", "20 ft", 'on_roof = false, raceway = "pvc-40"')))
    assert found.unit is not None
    tube = next(each for each in found.unit.circuit.raceways if each.run.id == "disconnect-run")
    assert [(each.kind.word, each.longest.quantity) for each in tube.kinds] == [("emt", 11), ("pvc-40", 22)]
    assert check(found, "raceway-fill/battery-1/disconnect-run/pvc-40").verdict == "pass"


def test_a_raceway_with_conductors_of_others_in_a_piece_of_it_is_not_sized() -> None:
    beside = piece("gutter", "20 ft", "on_roof = false, other_current_carrying = 6")
    found = wired(run(piece("wall", "10 ft"), beside))
    assert check(found, "raceway-fill/battery-1/disconnect-run").verdict == "cannot tell"
