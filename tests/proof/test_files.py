"""A file of cases that cannot be used is refused with a sentence; a case that cannot be asked disagrees."""

import json
from typing import Any

import pytest

from standfast.faults import FaultsFound
from standfast.proof.run import prove, read

GOOD = {
    "id": "a",
    "method": "nec.service_83pct",
    "inputs": {"service_rating_a": 100},
    "expected": {"min_ampacity_a": 83},
}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Expecting value"),
        ("{}", "not a list"),
        ("[1]", "has no 'id'"),
        ("[" * 100_000, "cannot be read"),
        ("[1" + "0" * 5000 + "]", "cannot be read"),
        (json.dumps([{**GOOD, "tolerance": 1}]), "tolerance is not an object"),
        (json.dumps([{**GOOD, "tolerance": {"min_ampacity_a": "x"}}]), "tolerance of 'min_ampacity_a'"),
        (json.dumps([{**GOOD, "tolerance": {"min_ampacity_a": [1]}}]), "tolerance of 'min_ampacity_a'"),
        (json.dumps([{**GOOD, "tolerance": {"min_ampacity_a": -1}}]), "tolerance of 'min_ampacity_a'"),
        (json.dumps([{**GOOD, "tolerance": {"min_ampacity_a": 1e999}}]), "tolerance of 'min_ampacity_a'"),
    ],
    ids=["empty", "object", "number", "deep", "long", "no object", "word", "list", "negative", "endless"],
)
def test_a_broken_file_is_refused(text: str, words: str) -> None:
    with pytest.raises(FaultsFound, match=words):
        read("cases.json", text)


def test_a_tolerance_may_be_absent_or_null() -> None:
    for tolerance in (None, {}, {"min_ampacity_a": None}, {"min_ampacity_a": 0.5}):
        cases = read("cases.json", json.dumps([{**GOOD, "tolerance": tolerance}]))
        assert prove("cases.json", cases)[0].verdict == "agrees"


@pytest.mark.parametrize("wrong", [None, "x", True, [], {}, float("nan"), float("inf"), 10**400, [100]])
def test_an_input_that_is_no_number_disagrees(wrong: Any) -> None:
    (outcome,) = prove("cases.json", [{**GOOD, "inputs": {"service_rating_a": wrong}}])
    assert outcome.verdict == "disagrees"
    assert "service_rating_a" in outcome.reason


@pytest.mark.parametrize("right", ["83", [83], {"a": 83}, True, None, float("inf"), float("nan"), 10**400])
def test_another_kind_of_answer_disagrees(right: Any) -> None:
    (outcome,) = prove("cases.json", [{**GOOD, "expected": {"min_ampacity_a": right}}])
    assert outcome.verdict == "disagrees"
