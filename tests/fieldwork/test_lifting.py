"""Which way each part is lifted: the first that is allowed, and what is printed as the reason."""

import pytest

from standfast.equipment import find, read
from standfast.equipment.read import DataSheet, shipped
from standfast.fieldwork.lifting import Lifting, lift
from standfast.reading import Document
from standfast.sheet import given
from standfast.sheet.wanted import wanted
from standfast.shelf import adoption
from standfast.survey import read as read_job
from standfast.survey.model import Job

HANDLING = {
    "crew": "2", "carry": '"40 ft"', "steps": "0", "reach": '"16 in"', "lift_from": '"10 in"', "turn": '"0 deg"',
    "lifts": "1", "duration": '"30 min"', "coupling": '"fair"', "floor": '"level and dry"',
}  # fmt: skip

PLACE = given("bottom", 600.0, "mm", "test")


def job(**changes: str | None) -> Document[Job]:
    facts = {word: value for word, value in (HANDLING | changes).items() if value is not None}
    lines = "\n".join(f"{word} = {value}" for word, value in facts.items())
    text = f'schema = 1\n[job]\nname = "test"\ndate = 2026-05-04\nadoption = "us-2021"\n[handling]\n{lines}\n'
    reading = read_job(text)
    assert reading.survey is not None and not reading.faults, reading.faults
    return reading.survey


def sheet(id: str, *changes: tuple[str, str]) -> DataSheet:
    text = shipped()[id]
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    reading = read(text, f"{id}.toml")
    assert reading.sheet is not None and not reading.faults, reading.faults
    return reading.sheet


def lifted(
    *changes: tuple[str, str],
    aid: DataSheet | None = None,
    books: str = "us-2021",
    bottom: float = 600,
    **facts: str | None,
) -> Lifting:
    chosen = aid if aid is not None else find("demo-wall-lift").sheet
    place = given("bottom", bottom, "mm", "test")
    return lift(job(**facts), sheet("demo-wall-10", *changes), chosen, adoption(books), place)


def verdicts(found: Lifting) -> dict[str, str]:
    return {check.id.removeprefix("lifting."): check.verdict for check in found.checks}


def way(found: Lifting, part: str) -> str:
    return next(row.way for row in found.rows if row.part == part)


def test_light_parts_are_lifted_by_one_and_the_unit_by_the_aid() -> None:
    found = lifted()
    assert [row.way for row in found.rows] == ["one person", "aid", "one person"]
    assert set(verdicts(found).values()) == {"pass"}
    assert found.heaviest is not None and found.heaviest.people == 2


def test_the_index_of_one_person_is_the_reason_for_the_aid() -> None:
    found = lifted()
    check = next(check for check in found.checks if check.id == "lifting.part/battery-1/unit")
    index = next(row.solo for row in found.rows if row.part == "unit")
    assert index.quantity > 3
    assert f"lifting index is {index.quantity:.1f}" in check.reason
    assert "no weight for a team" in check.reason
    symbols = {value.symbol for value in check.values()}
    assert {"LI", "RWL", "HM", "VM", "m_rated"} <= symbols


def test_the_destination_counts_with_the_origin() -> None:
    low = next(row.solo for row in lifted(lift_to='"30 in"').rows if row.part == "bracket")
    high = next(row.solo for row in lifted(lift_to='"60 in"').rows if row.part == "bracket")
    assert high.quantity > low.quantity


def test_the_makers_word_for_an_aid_wins_over_a_light_part() -> None:
    found = lifted(('mass = "108 kg"', 'mass = "4 kg"'))
    assert way(found, "unit") == "aid"
    assert "the maker asks for an aid" in next(row.reason for row in found.rows if row.part == "unit")


def test_a_heavy_part_that_the_maker_lets_be_lifted_by_hand_still_needs_the_aid() -> None:
    found = lifted(('lifted = "with an aid"', 'lifted = "by hand"'))
    assert way(found, "unit") == "aid"


@pytest.mark.parametrize(
    ("rule", "facts", "bottom", "aid"),
    [
        ("part", {}, 600.0, ('rated_load = "160 kg"', 'rated_load = "100 kg"')),
        ("aid-height", {}, 1800.0, ("steps = false", "steps = true")),
        ("aid-floor", {"floor": '"gravel"'}, 600.0, ("steps = false", "steps = true")),
        ("aid-steps", {"steps": "2"}, 600.0, ("operators = 2", "operators = 1")),
        ("aid-crew", {"crew": "1"}, 600.0, ("steps = false", "steps = true")),
    ],
)
def test_each_limit_of_the_aid_can_fail(rule: str, facts: dict[str, str], bottom: float, aid: tuple[str, str]) -> None:
    found = lifted(aid=sheet("demo-wall-lift", aid), bottom=bottom, **facts)
    assert verdicts(found)[f"{rule}/battery-1/unit"] == "fail"
    assert way(found, "unit") == "no way known"


def test_an_aid_for_steps_takes_steps() -> None:
    found = lifted(aid=sheet("demo-wall-lift", ("steps = false", "steps = true")), steps="2")
    assert verdicts(found)["aid-steps/battery-1/unit"] == "pass"
    assert way(found, "unit") == "aid"


@pytest.mark.parametrize(("floor", "word"), [("wet", "slippery floor"), ("gravel", "unsure footing")])
def test_lifts_that_the_equation_leaves_out_are_not_passed_by_it(floor: str, word: str) -> None:
    found = lift(job(floor=f'"{floor}"'), sheet("demo-wall-10"), None, adoption("us-2021"), PLACE)
    bracket = next(check for check in found.checks if check.id == "lifting.part/battery-1/bracket")
    assert bracket.verdict == "cannot tell"
    assert word in bracket.reason
    assert "handling.floor" in bracket.reason and "aid.floor" in bracket.reason


def test_in_a_basement_light_parts_are_carried_on_a_condition_and_the_unit_by_what_climbs_stairs() -> None:
    stuck = lifted(steps="13")
    assert [(check.id, check.verdict) for check in stuck.checks if check.open] == [
        ("lifting.aid-steps/battery-1/unit", "fail")
    ]
    (told,) = [check.reason for check in stuck.checks if check.open]
    assert "equipment.aid" in told and "aid.steps = true" in told and "handling.steps = 0" in told
    found = lifted(steps="13", aid=find("demo-stair-climber").sheet)
    assert [row.way for row in found.rows] == ["one person", "aid", "one person"]
    assert not any(check.open for check in found.checks)
    by_hand = [row for row in found.rows if row.way == "one person"]
    assert all("on the 13 steps of the way" in row.condition for row in by_hand)
    assert all("steps" not in row.condition for row in lifted(steps="0").rows)


def test_a_part_too_heavy_for_one_person_is_not_carried_down_the_stairs_without_an_aid() -> None:
    found = lift(
        job(steps="13"), sheet("demo-wall-10", ('mass = "7 kg"', 'mass = "30 kg"')), None, adoption("us-2021"), PLACE
    )
    assert verdicts(found)["part/battery-1/bracket"] == "fail"


def test_what_is_not_known_of_the_way_is_asked_in_one_round() -> None:
    found = lift(job(steps=None, floor=None, reach=None), sheet("demo-wall-10"), None, adoption("us-2021"), PLACE)
    rows = {row.word: row for row in wanted(found.checks)}
    assert rows.keys() == {"handling.steps", "handling.floor", "handling.reach"}
    ids = {check.id for check in found.checks if check.verdict == "cannot tell"}
    assert all(set(row.checks) == ids for row in rows.values())


@pytest.mark.parametrize("word", ["reach", "lift_from", "turn", "lifts", "duration", "steps", "floor"])
def test_a_missing_fact_is_never_a_pass(word: str) -> None:
    found = lift(
        job(**{word: None}), sheet("demo-wall-10"), None, adoption("us-2021"), given("bottom", 600.0, "mm", "test")
    )
    assert verdicts(found)["part/battery-1/bracket"] == "cannot tell"
    assert f"handling.{word}" in next(check.reason for check in found.checks)


def test_a_missing_mass_cannot_be_told_even_with_an_aid() -> None:
    found = lifted(('mass = "108 kg"\n', ""))
    assert verdicts(found)["part/battery-1/unit"] == "cannot tell"


def test_without_an_aid_the_unit_fails() -> None:
    found = lift(job(), sheet("demo-wall-10"), None, adoption("us-2021"), given("bottom", 600.0, "mm", "test"))
    assert verdicts(found)["part/battery-1/unit"] == "fail"
    assert "choose an aid" in next(check.reason for check in found.checks if check.verdict == "fail")


def test_hands_too_far_out_may_lift_nothing() -> None:
    found = lifted(reach='"26 in"')
    assert way(found, "bracket") == "aid"


def test_where_the_place_has_a_rule_for_teams_a_team_may_lift() -> None:
    body = '"\nwidth = "24 in"\nheight = "40 in"'
    heavier = ('mass = "7 kg' + body, 'mass = "20 kg' + body)
    facts = {"reach": '"12 in"', "lift_from": '"32 in"', "lift_to": '"40 in"', "lifts": "60", "duration": '"20 min"'}
    assert way(lifted(heavier, books="uk-pas63100-2024", **facts), "bracket") == "team"
    assert way(lifted(heavier, **facts), "bracket") == "aid"
    assert way(lifted(heavier, books="uk-pas63100-2024", **(facts | {"crew": "1"})), "bracket") != "team"


def test_a_unit_without_parts_cannot_be_told() -> None:
    text = shipped()["demo-wall-10"]
    head, _, rest = text.partition("[[parts]]")
    plain = head + rest[rest.index("[box]") :]
    reading = read(plain.replace('parts = ["bracket"]\n', "").replace('parts = ["unit"]\n', ""), "demo-wall-10.toml")
    assert reading.sheet is not None
    found = lift(job(), reading.sheet, None, adoption("us-2021"), given("bottom", 600.0, "mm", "test"))
    assert [check.verdict for check in found.checks] == ["cannot tell"] and found.rows == ()


MODULE = ('height = "40 in"\ndepth = "1 in"\ncount = 1', 'height = "10 in"\ndepth = "1 in"\ncount = 1\nat = "2 in"')


def stack(pieces: int) -> tuple[str, str]:
    return MODULE[0], MODULE[1].replace("count = 1", f"count = {pieces}")


def bracket(found: Lifting) -> float:
    return next(row.solo.quantity for row in found.rows if row.part == "bracket")


def test_the_index_of_a_stack_is_that_of_its_worst_piece_in_its_place() -> None:
    """Four pieces of 10 in on a foot of 2 in over the floor: their lower edges are 2, 12, 22 and 32 in up."""
    calm = {"duration": '"480 min"', "lift_from": '"30 in"'}
    singly = [bracket(lifted(stack(1), bottom=up * 254.0, **calm)) for up in range(4)]
    assert bracket(lifted(stack(4), bottom=0, **calm)) == pytest.approx(max(singly))
    assert len({round(each, 6) for each in singly}) > 1


def test_the_aid_must_reach_the_highest_piece_of_a_stack() -> None:
    heavy = ('lifted = "by hand"\ncoupling = "good"', 'lifted = "with an aid"\ncoupling = "good"')
    tall = sheet("demo-wall-lift", ("steps = false", "steps = true"))
    reach = tall.fact("aid.lift_max", "h_max", "mm").quantity
    within = 2 + int((reach / 25.4 - 2) // 10)
    for pieces, verdict in ((within - 1, "pass"), (within, "fail")):
        found = lifted(stack(pieces), heavy, aid=sheet("demo-wall-lift", ('lift_min = "', 'lift_min = "0')), bottom=0)
        assert verdicts(found)["aid-height/battery-1/bracket"] == verdict


def test_every_piece_of_every_unit_is_a_lift() -> None:
    """Ninety units in half an hour are three lifts a minute of each part, whatever smaller number the job states."""
    found = lift(
        job(), sheet("demo-wall-10"), find("demo-wall-lift").sheet, adoption("us-2021"),
        given("bottom", 600.0, "mm", "test"), unit="battery-2", units=90,
    )  # fmt: skip
    assert bracket(found) > bracket(lifted())
    assert {check.id.split("/")[1] for check in found.checks} == {"battery-2"}
    assert {row.unit for row in found.rows} == {"battery-2"}


@pytest.mark.parametrize("word", ["", 'at = "not known"\n'])
def test_a_piece_of_a_stack_whose_height_nobody_knows_is_not_taken_to_be_lifted_to_the_floor(word: str) -> None:
    text = shipped()["demo-stack-15"].replace('at = "51-1/2 in"\n', word)
    tall = read(text, "demo-stack-15.toml").sheet
    assert tall is not None
    found = lift(job(), tall, None, adoption("us-2021"), given("bottom", 50.0, "mm", "test"))
    (head,) = [check for check in found.checks if check.id == "lifting.part/battery-1/head"]
    assert head.verdict == "cannot tell"
    assert any("parts.head.at" in value.how for value in head.values() if value.missing)


@pytest.mark.parametrize(
    ("facts", "change", "need"),
    [
        ({"lift_to": '"not known"'}, (), "handling.lift_to"),
        ({}, (('coupling = "good"', 'coupling = "not known"'),), "coupling"),
    ],
    ids=["lift_to", "coupling"],
)
def test_a_lift_of_which_nobody_knows_a_fact_is_not_worked_out_with_another(
    facts: dict[str, str], change: tuple[tuple[str, str], ...], need: str
) -> None:
    found = lift(
        job(**facts), sheet("demo-wall-10", *change), None, adoption("us-2021"), given("bottom", 600.0, "mm", "test")
    )
    check = next(check for check in found.checks if check.id == "lifting.part/battery-1/bracket")
    assert check.verdict == "cannot tell"
    assert any(need in value.how for value in check.values() if value.missing)
