"""What is still to be found out: every verdict that cannot be told hangs on something, and nothing else is listed."""

from hypothesis import given as drawn
from hypothesis import strategies as st

from standfast.sheet import Check, Clause, at_most, cannot_tell, missing, total
from standfast.sheet import assumed as assume
from standfast.sheet import given as fact
from standfast.sheet.wanted import Wanted, wanted

HERE = Clause("Code", "2000", "1.2")


def check(id: str, needs: tuple[str, ...]) -> Check:
    """A check whose demand is the sum of facts that are missing, or of one that is there."""
    parts = [missing(f"x_{number}", "A", need) for number, need in enumerate(needs)] or [fact("x", 1.0, "A", "here")]
    return at_most(id, id, HERE, total("x_sum", parts, "A"), fact("limit", 2.0, "A", "here"))


def test_what_most_hangs_on_comes_first_and_what_settles_by_itself_is_told() -> None:
    found = wanted([check("a", ("p", "q")), check("b", ("q",)), check("c", ("r",)), check("d", ())])
    assert found == [
        Wanted("q", "missing", ("a", "b"), ("b",)),
        Wanted("r", "missing", ("c",), ("c",)),
        Wanted("p", "missing", ("a",), ()),
    ]


def test_only_the_roots_are_asked_for() -> None:
    inner = total("y", [missing("x", "A", "measure x")], "A")
    outer = at_most("a", "a", HERE, total("z", [inner, inner], "A"), fact("limit", 2.0, "A", "here"))
    assert [row.need for row in wanted([outer])] == ["measure x"]


def assumption(number: float, *, bounding: bool) -> Check:
    value = assume("G", number, "A", "nobody read the stamp", None, bounding=bounding)
    return at_most("a", "a", HERE, value, fact("limit", 2.0, "A", "here"))


def test_an_assumption_that_may_not_decide_is_to_be_found_out() -> None:
    for loose in (assumption(1.0, bounding=False), assumption(3.0, bounding=False), assumption(3.0, bounding=True)):
        assert wanted([loose]) == [Wanted("G was assumed: nobody read the stamp", "assumed", ("a",), ("a",))]
    assert wanted([assumption(1.0, bounding=True)]) == []


def test_a_reason_without_a_value_stands_for_itself() -> None:
    lone = cannot_tell("a", "a", HERE, "the code says nothing of two units")
    assert wanted([lone]) == [Wanted("the code says nothing of two units", "other", ("a",), ("a",))]


NEEDS = st.lists(st.sampled_from("pqrst"), max_size=4, unique=True).map(tuple)


@drawn(st.lists(NEEDS, max_size=12))
def test_every_open_verdict_hangs_on_something_and_the_order_never_rises(needs: list[tuple[str, ...]]) -> None:
    checks = [check(f"c{number}", each) for number, each in enumerate(needs)]
    rows = wanted(checks)
    untold = {each.id for each in checks if each.verdict == "cannot tell"}
    assert {id for row in rows for id in row.checks} == untold
    counts = [len(row.checks) for row in rows]
    assert counts == sorted(counts, reverse=True)
    assert all(set(row.alone) <= set(row.checks) for row in rows)
    assert {row.need: len(row.checks) for row in rows} == {
        need: sum(need in each for each in needs) for each_ in needs for need in each_
    }


STUD = "walls.east.build_up.first_stud: job.toml says that it is not known. Find out and write there: Found on site."
LEAD = 'conditions.lead: job.toml does not say. Find out and write there: Lead paint; "not needed" where new.'


def test_a_fact_that_only_the_reason_names_is_found_and_joins_its_word() -> None:
    lone = cannot_tell("a", "a", HERE, f"not known: {STUD}; have it looked for")
    both = cannot_tell("b", "b", HERE, f"{STUD}; {LEAD}")
    rows = wanted([check("c", (STUD,)), lone, both])
    assert rows == [
        Wanted(STUD, "missing", ("c", "a", "b"), ("c", "a"), "walls.east.build_up.first_stud", "job.toml"),
        Wanted(LEAD, "missing", ("b",), (), "conditions.lead", "job.toml"),
    ]


def test_an_assumption_that_bounds_is_no_want_where_something_else_holds_the_check_up() -> None:
    waits = assumption(1.0, bounding=True)._replace(verdict="cannot tell", reason=STUD)
    (row,) = wanted([waits])
    assert (row.need, row.why, row.checks, row.alone) == (STUD, "missing", ("a",), ())
