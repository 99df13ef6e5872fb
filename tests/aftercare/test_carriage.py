"""Which rule asks for what of a battery that leaves; never that it may be sent."""

import pytest
from demo_jobs import DEMOS, Removed

from standfast import shelf
from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.rulebooks.adr.instruction import instructions
from standfast.sheet import Value, given, missing


def rules(removed: Removed, name: str, condition: Condition) -> list[tuple[str, str]]:
    return [(each.rule, each.what) for each in removed(name, condition).asked]


def test_american_rules_by_condition(removed: Removed) -> None:
    sound, worn, hurt = (rules(removed, "one_wall", each) for each in CONDITIONS)
    assert sound[0][0] == "49 CFR 173.185(b)" and worn[0][0] == "49 CFR 173.185(d)"
    assert {rule for rule, _ in hurt} == {"49 CFR 173.185(f)", "49 CFR 173.185(d)"}
    assert ("49 CFR 173.185(d)", "the easier packing for recycling and disposal does not hold for it") in hurt
    assert any("no aircraft" in what for _, what in hurt)
    assert removed("one_wall", "damaged").asked[0].by.startswith("the maker")


def test_european_rules_leave_the_choice_to_an_assessment(removed: Removed) -> None:
    assert rules(removed, "terrace", "sound")[0][0] == "ADR P903 or LP903"
    assess = rules(removed, "terrace", "damaged")[0]
    assert "special provision 376" in assess[0]
    assert "P908 or LP904" in assess[1] and "P911 or LP906" in assess[1]


def test_a_country_whose_rules_are_not_held_is_told(removed: Removed) -> None:
    only = removed("verandah", "damaged").asked
    assert len(only) == 1 and "not held" in only[0].rule and "carrier" in only[0].by


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("name", DEMOS)
def test_nobody_is_told_that_it_may_be_sent(removed: Removed, name: str, condition: Condition) -> None:
    made = removed(name, condition)
    told = " ".join([*(each.what for each in made.asked), *(each.text for each in made.steps)]).lower()
    assert "safe to transport" not in told and "may be sent" not in told
    assert all(each.by for each in made.asked) and "gives no leave" in told


DAMAGED = given("damaged", True, "", "case")
SOUND = given("damaged", False, "", "case")


@pytest.mark.parametrize(
    ("damaged", "reacts", "word"),
    [
        (SOUND, missing("reacts", "", "assess it"), "P903 or LP903"),
        (DAMAGED, given("reacts", False, "", "case"), "P908 or LP904"),
        (DAMAGED, given("reacts", True, "", "case"), "P911 or LP906"),
    ],
)
def test_packing_instructions(damaged: Value, reacts: Value, word: str) -> None:
    assert instructions(shelf.edition("adr", "2023"), damaged, reacts).word == word


def test_a_damaged_battery_that_nobody_assessed_has_no_instruction() -> None:
    found = instructions(shelf.edition("adr", "2023"), DAMAGED, missing("reacts", "", "have it assessed"))
    assert found.missing and "assessed" in found.how
    assert instructions(shelf.edition("adr", "2023"), missing("damaged", "", "look"), SOUND).missing
