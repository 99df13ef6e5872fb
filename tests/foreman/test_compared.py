"""What a firm compared with its own printed books: the ground changes for that firm, a number never does."""

from pathlib import Path

import pytest

from standfast.faults import FaultsFound
from standfast.foreman.compared import read
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet.printed import ground
from standfast.shelf import adoption

HEAD = '[[compared]]\nbook = "nfpa70"\nedition = "2023"\n'
BY = 'name = "A. Tester"\ndate = 2026-03-01\npage = "70-59"\n'
NUMBER = HEAD + 'key = "continuous_factor"\n' + BY
CELL = HEAD + 'key = "ampacity"\nrow = { material = "cu", insulation_c = 75, size = "10" }\ncolumn = "ampacity"\n' + BY


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return write_demo("one-wall", tmp_path / "house")


def plan(job: Path, text: str | None) -> JobPlan:
    if text is None:
        return make_plan(job)
    firm = job.parent / "firm"
    firm.mkdir(exist_ok=True)
    (firm / "compared.toml").write_text(text, "utf-8")
    return make_plan(job, firm)


def test_a_number_is_grounded_in_print_for_the_firm_that_compared_it() -> None:
    nec = adoption("us-2021").read_in_print(read(NUMBER, "compared.toml").compared).book("nfpa70")
    mine, plain = nec.number("continuous_factor"), adoption("us-2021").book("nfpa70").number("continuous_factor")
    assert (mine.number, mine.clause) == (plain.number, plain.clause)
    assert (mine.seen, plain.seen) == ("print", "secondary")
    assert "own copy read by A. Tester on 2026-03-01, page 70-59; compared with print" in ground(mine)
    assert nec.number("roof_adder").seen == "secondary"


def test_a_cell_is_grounded_in_print_and_its_neighbours_are_not() -> None:
    table = adoption("us-2021").book("nfpa70").table("ampacity")
    found = read(CELL, "compared.toml")
    assert found.faults == []
    mine = adoption("us-2021").read_in_print(found.compared).book("nfpa70").table("ampacity")
    for size, seen in (("10", "print"), ("8", "secondary")):
        picked = mine.pick("I", "ampacity", material="cu", insulation_c=75, size=size)
        assert picked.seen == seen
        assert ("A. Tester" in picked.how) == (seen == "print")
        assert picked.number == table.pick("I", "ampacity", material="cu", insulation_c=75, size=size).number


def test_every_verdict_stays_and_only_grounds_change(job: Path) -> None:
    without, mine = plan(job, None), plan(job, NUMBER)
    assert [check.verdict for check in mine.ledger] == [check.verdict for check in without.ledger]
    assert [check.margin for check in mine.ledger] == [check.margin for check in without.ledger]
    seen = {
        value.seen
        for check in mine.ledger
        for value in check.values()
        if value.symbol == "k_cont" and value.kind == "table"
    }
    assert seen == {"print"}


def test_an_entry_for_an_edition_that_is_not_in_force_changes_nothing(job: Path) -> None:
    other = NUMBER.replace("2023", "2020")
    assert {value.seen for check in plan(job, other).ledger for value in check.values()} == {
        value.seen for check in plan(job, None).ledger for value in check.values()
    }


@pytest.mark.parametrize(
    ("old", "new", "line", "what"),
    [
        ('"nfpa70"', '"nothing"', 2, "nothing 2023 is not on the shelf"),
        ('"2023"', '"1999"', 2, "nfpa70 1999 is not on the shelf"),
        ('"continuous_factor"', '"no_such"', 4, "no number is held for 'no_such'"),
        ('page = "70-59"\n', "", 1, "has no page"),
        ("date = 2026-03-01\n", "", 1, "has no date"),
        ('name = "A. Tester"', "name = 3", 5, "3 is not text"),
        ("date = 2026-03-01", 'when = "today"', 6, '"when" is not a word that is known here'),
        ("page =", 'column = "x"\npage =', 4, "has only one of row and column"),
    ],
)
def test_an_entry_that_names_nothing_is_a_fault_with_its_place(
    job: Path, old: str, new: str, line: int, what: str
) -> None:
    with pytest.raises(FaultsFound) as found:
        plan(job, NUMBER.replace(old, new))
    told = [fault for fault in found.value.faults if what in fault.what]
    assert told, found.value.faults
    assert told[0].line == line
    assert told[0].file == str(job.parent / "firm" / "compared.toml")


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ('size = "10"', 'size = "11"', "has no row material cu"),
        (', size = "10"', "", "finds a row by material, insulation_c, size"),
        ('column = "ampacity"', 'column = "no_such"', "holds no column 'no_such'"),
        ('key = "ampacity"', 'key = "no_such"', "no table is held for 'no_such'"),
    ],
)
def test_a_cell_that_is_not_there_is_a_fault(old: str, new: str, what: str) -> None:
    faults = read(CELL.replace(old, new), "compared.toml").faults
    assert [fault.line for fault in faults] == [4]
    assert what in faults[0].what
