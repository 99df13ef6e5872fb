"""Where a data sheet proves terminals dead, every pair has its space on the paper."""

from invented_job import make_plan

from standfast.fieldwork.isolation import CONDUCTORS, DIRECT, pairs
from standfast.fieldwork.proof_of_dead import written
from standfast.fieldwork.steps import Reading, WorkStep

AC = pairs(CONDUCTORS["120/240 V single-phase"])


def proof(*proves: str, readings: tuple[Reading, ...] = (), evidence: tuple[str, ...] = ()) -> WorkStep:
    [step] = written(
        make_plan(),
        [WorkStep("a.b", "connect", "x", (), "data sheet", proves=proves, readings=readings, evidence=evidence)],
    )
    return step


def test_every_pair_stands_between_two_proofs_of_the_tester() -> None:
    step = proof("battery-1:ac", evidence=("reading", "photo"))
    assert [each.what for each in step.readings[1:-1]] == list(AC)
    assert all(each.limit == "no voltage" and each.unit == "V" for each in step.readings[1:-1])
    assert ("before" in step.readings[0].what, "after" in step.readings[-1].what) == (True, True)
    assert step.evidence == ("photo",), "what is written down needs no box beside it"
    assert "gloves" in step.cautions[0]


def test_pairs_of_two_sides_say_which_side() -> None:
    told = [each.what for each in proof("inverter-1:ac", "inverter-1:dc").readings[1:-1]]
    assert told == [*(f"AC: {pair}" for pair in AC), *(f"battery side: {pair}" for pair in pairs(DIRECT))]


def test_readings_that_a_data_sheet_asks_itself_stay_alone() -> None:
    own = (Reading("plus to minus", "V"),)
    assert proof("battery-1:dc", readings=own).readings == own
    assert proof().readings == ()
