"""Steps, checks and the ledger: the trail is kept, a missing fact never passes."""

import pytest

from standfast.faults import BadFormula, NotInEdition, UnitMismatch
from standfast.sheet import (
    Check,
    Clause,
    Ledger,
    Value,
    assumed,
    at_least,
    at_most,
    attempt,
    chosen,
    exactly,
    given,
    is_,
    missing,
    none_of,
    one_of,
    settle,
    total,
    work,
    worst,
)
from standfast.sheet.printed import check_data, line, working

CLAUSE = Clause("Code", "2000", "1.2")


def amps(symbol: str, number: float) -> Value:
    return given(symbol, number, "A", "job.toml:1:1")


def factor(symbol: str, number: float) -> Value:
    return Value(symbol, number, "1", "table", "", CLAUSE, "secondary")


def test_a_value_has_no_arithmetic_and_cannot_be_changed() -> None:
    load = amps("I", 24)
    for wrong in (lambda: load + load, lambda: float(load), lambda: bool(load)):  # type: ignore[operator,arg-type]
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(AttributeError):
        load.number = 3


def test_the_printed_working_is_made_from_what_was_computed() -> None:
    need = work("I_req", "k * (I_1 + I_2) / 2", "A", CLAUSE, factor("k", 1.25), amps("I_1", 10), amps("I_2", 14))
    assert need.quantity == 15
    assert line(need) == "I_req = k × (I_1 + I_2) / 2 = 1.25 × (10 A + 14 A) / 2 = 15 A"
    assert [value.symbol for value in need.trail()] == ["k", "I_1", "I_2", "I_req"]


def test_brackets_are_printed_where_they_matter() -> None:
    a, b, c = factor("a", 8), factor("b", 4), factor("c", 2)
    assert line(work("x", "a / (b / c)", "1", None, a, b, c)).endswith("= a / (b / c) = 8 / (4 / 2) = 4")
    assert line(work("x", "a - (b - c)", "1", None, a, b, c)).endswith("= 8 − (4 − 2) = 6")
    assert line(work("x", "(a + b) ** c", "1", None, a, b, c)).endswith("= (8 + 4)^2 = 144")


@pytest.mark.parametrize(
    "text",
    ["k * J", "k", "k * I * I_2", "__import__('os')", "k.real * I", "k * I if k else I", "k *", "[k, I]", "abs(k) * I"],
)
def test_a_formula_names_exactly_its_inputs_and_holds_only_arithmetic(text: str) -> None:
    with pytest.raises(BadFormula):
        work("x", text, "A", None, factor("k", 2), amps("I", 3))


def test_no_finite_result_is_refused() -> None:
    with pytest.raises(BadFormula, match="no value"):
        work("x", "I / k", "A", None, amps("I", 1), factor("k", 0))
    with pytest.raises(BadFormula):
        work("x", "sqrt(I)", "A", None, amps("I", -1))
    with pytest.raises(BadFormula):
        work("x", "I ** 0.5", "A", None, amps("I", -1))


def test_a_missing_fact_stays_missing_and_says_what_is_needed() -> None:
    gap = missing("I_sc", "kA", "ask the utility for the fault current; put it under [supply]")
    later = work("I_2", "2 * I_sc", "kA", None, gap)
    found = at_most("fault/main", "breaker", CLAUSE, later, given("I_r", 10, "kA", "job.toml:2:1"))
    assert later.missing
    assert found.verdict == "cannot tell"
    assert "ask the utility" in found.reason
    assert total("s", [gap], "kA").missing
    assert worst("w", [gap], "max").missing
    assert chosen("c", 1.0, "1", "because", CLAUSE, gap).missing


def test_units_must_agree() -> None:
    with pytest.raises(UnitMismatch):
        at_most("a", "t", CLAUSE, amps("I", 1), given("I_k", 1, "kA", "x"))
    with pytest.raises(UnitMismatch):
        total("s", [amps("I", 1), given("I_k", 1, "kA", "x")], "A")


def test_a_bounding_assumption_may_pass_and_is_told() -> None:
    safe = assumed("G", 0.35, "1", "species not known", CLAUSE, bounding=True)
    loose = assumed("G", 0.42, "1", "a guess", None, bounding=False)
    limit = given("G_min", 0.3, "1", "x")
    high = given("G_min", 0.5, "1", "x")
    assert at_least("a", "t", CLAUSE, safe, limit).verdict == "pass"
    assert at_least("a", "t", CLAUSE, safe, limit).basis == "assumed"
    assert at_least("a", "t", CLAUSE, loose, limit).verdict == "cannot tell"
    failing = at_least("a", "t", CLAUSE, safe, high)
    assert failing.verdict == "cannot tell"
    assert "it would fail" in failing.reason


def test_each_relation() -> None:
    words = given("allowed", ("garage", "outdoors"), "", "x")
    assert at_most("a", "t", CLAUSE, amps("I", 30), amps("L", 30)).verdict == "pass"
    assert at_most("a", "t", CLAUSE, amps("I", 30.0001), amps("L", 30)).verdict == "fail"
    assert at_least("a", "t", CLAUSE, amps("I", 29.9999), amps("L", 30)).verdict == "fail"
    assert exactly("a", "t", CLAUSE, given("n", 1, "1", "x"), given("m", 1, "1", "x")).verdict == "pass"
    assert exactly("a", "t", CLAUSE, given("n", 2, "1", "x"), given("m", 1, "1", "x")).verdict == "fail"
    assert one_of("a", "t", CLAUSE, given("p", "garage", "", "x"), words).verdict == "pass"
    assert none_of("a", "t", CLAUSE, given("p", "garage", "", "x"), words).verdict == "fail"
    assert is_("a", "t", CLAUSE, given("p", True, "", "x"), given("q", True, "", "x")).verdict == "pass"
    assert is_("a", "t", CLAUSE, given("p", False, "", "x"), given("q", True, "", "x")).verdict == "fail"


def test_a_refusal_becomes_cannot_tell_and_stops_nothing() -> None:
    def ask() -> Check:
        raise NotInEdition("Code 2000 holds no row 999")

    found = settle("a", "t", CLAUSE, ask)
    assert (found.verdict, found.reason) == ("cannot tell", "Code 2000 holds no row 999")

    def value() -> Value:
        raise NotInEdition("no cell")

    assert attempt("x", "A", value).how == "no cell"


def test_the_ledger_counts_and_refuses_a_second_answer() -> None:
    ledger = Ledger([at_most("a", "t", CLAUSE, amps("I", 1), amps("L", 2))])
    ledger.add(at_most("b", "t", CLAUSE, amps("I", 3), amps("L", 2)))
    assert ledger.summary() == {"pass": 1, "fail": 1, "cannot_tell": 0, "not_applicable": 0}
    assert [check.id for check in ledger.open] == ["b"]
    with pytest.raises(BadFormula):
        ledger.add(ledger["a"])


def test_check_data_holds_the_whole_trail() -> None:
    need = work("I_req", "k * I", "A", CLAUSE, factor("k", 1.25), amps("I", 24))
    data = check_data(at_most("a", "t", CLAUSE, need, amps("I_n", 30)))
    assert data["margin"] == 0
    assert data["basis"] == "secondary"
    assert len(working(at_most("a", "t", CLAUSE, need, amps("I_n", 30)))) == 4
