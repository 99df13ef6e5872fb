"""Editions that are held in part: they name their own clauses, refuse what they lack, and nothing is borrowed."""

from pathlib import Path

import pytest
import tomli

from standfast.faults import NotInEdition, OutsideTable
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.shelf import adoption, adoptions, edition
from standfast.shelf.editions import NOT_HELD

RULEBOOKS = Path(__file__).parents[2] / "src" / "standfast" / "rulebooks"
THIN = [("nfpa70", "2020", "2023"), ("nfpa70", "2026", "2023"), ("irc", "2024", "2021")]
"""Book, thin edition, and a full one beside it."""


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_demo("one-wall", tmp_path_factory.mktemp("thin") / "house")


def under(house: Path, name: str) -> JobPlan:
    text = (house / "job.toml").read_text("utf-8").replace('adoption = "us-2021"', f'adoption = "{name}"')
    (house / "job.toml").write_text(text, "utf-8")
    try:
        return make_plan(house)
    finally:
        (house / "job.toml").write_text(text.replace(f'adoption = "{name}"', 'adoption = "us-2021"'), "utf-8")


def keys(book: str, year: str, file: str) -> set[str]:
    return set(tomli.loads((RULEBOOKS / book / "editions" / year / file).read_text("utf-8")))


@pytest.mark.parametrize(("book", "thin", "full"), THIN, ids=lambda word: word)
def test_what_a_thin_edition_lacks_is_refused_though_another_edition_holds_it(book: str, thin: str, full: str) -> None:
    edition(book, full)
    found = edition(book, thin)
    assert found.thin
    assert not edition(book, full).thin
    lacking = keys(book, full, "clauses.toml") - keys(book, thin, "clauses.toml")
    assert lacking
    for key in lacking:
        with pytest.raises(NotInEdition, match=f"{found.short} {thin}: no clause is held for '{key}'"):
            found.clause(key)
    for key in keys(book, full, "numbers.toml") - keys(book, thin, "numbers.toml"):
        with pytest.raises(NotInEdition):
            found.number(key)
    for key in keys(book, full, "tables.toml") - keys(book, thin, "tables.toml"):
        with pytest.raises(NotInEdition):
            found.table(key)


def test_a_row_that_a_thin_table_lacks_is_refused() -> None:
    depths = edition("nfpa70", "2020").table("working_depth")
    assert depths.pick("d", "depth", condition=2, volts_to_ground=600).quantity == 3.5
    with pytest.raises(OutsideTable, match="ends before"):
        depths.pick("d", "depth", condition=2, volts_to_ground=1000)
    full = edition("nfpa70", "2023").table("working_depth")
    assert full.pick("d", "depth", condition=2, volts_to_ground=1000).quantity == 4


def test_the_older_edition_has_its_own_clause_numbers_and_its_own_values() -> None:
    old, new = edition("nfpa70", "2020"), edition("nfpa70", "2023")
    assert (old.clause("source_busbar_120").clause, new.clause("source_busbar_120").clause) == (
        "705.12(B)(3)(2)",
        "705.12(B)(2)",
    )
    assert (old.clause("dwelling_unit_load").clause, new.clause("dwelling_unit_load").clause) == (
        "220.14(J)",
        "220.41",
    )
    assert old.number("roof_height").quantity == 0.875
    assert new.number("roof_height").quantity == 0.75


def test_a_job_under_a_thin_edition_names_its_clauses_and_cannot_tell_the_rest(house: Path) -> None:
    plan = under(house, "us-2020")
    nec = [check for check in plan.ledger if check.clause.book == "NEC"]
    assert {check.clause.edition for check in nec} == {"2020"}
    assert plan.ledger["siting.handle-height/battery-1"].verdict == "pass"
    busbars = [check for check in nec if check.clause.clause.startswith("705.12(B)(3)")]
    assert busbars
    unstated = [check for check in plan.ledger if check.clause.clause == NOT_HELD]
    assert unstated
    assert {check.verdict for check in unstated} == {"cannot tell"}
    labels = plan.ledger["labels.unstated"]
    assert "NEC 2020: no table is held for 'marking'" in labels.reason
    assert plan.design.labels == ()


def test_no_number_of_another_edition_of_the_book_is_in_the_trail(house: Path) -> None:
    for name, book, year in (("us-2020", "NEC", "2020"), ("us-irc2024", "IRC", "2024")):
        clauses = [value.clause for check in under(house, name).ledger for value in check.values()]
        found = {clause.edition for clause in clauses if clause is not None and clause.book == book}
        assert found <= {year}


def test_rules_of_siting_that_a_thin_edition_does_not_state_are_told_and_not_left_out(house: Path) -> None:
    checks = {check.id: check for check in under(house, "us-irc2024").ledger}
    stated = checks["siting.garage-separation/battery-1"]
    assert (stated.verdict, str(stated.clause)) == ("pass", "IRC 2024 R330.4(2) and R302.6")
    told = checks["siting.fire-detection/battery-1"]
    assert (told.verdict, told.clause.edition, told.clause.clause) == ("cannot tell", "2024", NOT_HELD)
    assert "no clause is held for 'fire_detection'" in told.reason
    full = {check.id: check for check in under(house, "us-2021").ledger}
    assert not [check for check in full.values() if check.clause.clause == NOT_HELD]


def test_an_adoption_like_another_holds_its_books_but_those_it_names() -> None:
    like, own = adoption("us-2021"), adoption("us-2020")
    assert dict(own.books) == {**like.books, "nfpa70": "2020"}
    assert "us-2020" in adoptions()
