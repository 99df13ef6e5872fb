"""The comparison of readings gives what fractions give; `compare.json` is run in the browser too."""

from collections import Counter

from compare_cases import cases
from written import kept

from standfast.fieldwork.record.compare import compare

ROWS = kept("compare.json", {"schema": 1, "cases": cases()}, "cases")["cases"]


def test_every_reading_gets_the_verdict_of_the_oracle() -> None:
    for row in ROWS:
        found = compare(row["value"], row["unit"], row["limit"], row["uncertainty"])
        assert list(found) == row["expect"], row


def test_every_word_and_every_reason_is_among_them() -> None:
    words = Counter(tuple(row["expect"]) for row in ROWS)
    assert {word for word, _ in words} == {"pass", "fail", "cannot tell", "recorded"}
    assert {reason for _, reason in words} == {
        "", "no value", "limit not readable", "wrong unit", "over range", "not a number", "uncertainty not readable",
        "near the limit",
    }  # fmt: skip
    assert len(ROWS) >= 220
