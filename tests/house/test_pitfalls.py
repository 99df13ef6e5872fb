"""Seventy-three rules of the trade that calculation gets wrong: each is held by a test, a published case or a clause
of a coverage list that says why it is out of scope."""

import ast
import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import tomli

ROOT = Path(__file__).parents[2]
PATH = ROOT / "tests" / "design" / "wiring" / "pitfalls.toml"
BOOKS = ROOT / "src" / "standfast" / "rulebooks"
CASES = ROOT / "src" / "standfast" / "proof" / "cases"
COUNT = 73
RULES: list[dict[str, Any]] = tomli.loads(PATH.read_text("utf-8"))["rule"]


@cache
def functions_of(file: str) -> frozenset[str]:
    """Names of the test functions of a file; none where there is no such file."""
    path = ROOT / file
    if not path.is_file():
        return frozenset()
    tree = ast.parse(path.read_text("utf-8"))
    return frozenset(
        node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
    )


@cache
def cases() -> frozenset[str]:
    """Ids of the published cases that ship; each is worked out by the tests of published cases."""
    found = [json.loads(path.read_text("utf-8")) for path in sorted(CASES.glob("*.json"))]
    return frozenset(case["id"] for each in found for case in each)


@cache
def covered(book: str, edition: str) -> dict[str, dict[str, str]]:
    """Entries of a coverage list by their clauses."""
    path = BOOKS / book / "editions" / edition / "coverage.toml"
    entries = tomli.loads(path.read_text("utf-8"))["clause"] if path.is_file() else []
    return {each["clause"]: each for each in entries}


def test_all_rules_are_there_once_and_in_order() -> None:
    assert [each["number"] for each in RULES] == list(range(1, COUNT + 1))
    assert all(len(each["rule"]) > 20 for each in RULES)


@pytest.mark.parametrize("rule", RULES, ids=[str(each["number"]) for each in RULES])
def test_a_rule_is_held_by_something(rule: dict[str, Any]) -> None:
    tests, published, clauses = (rule.get(word, []) for word in ("tests", "cases", "coverage"))
    assert tests or published or clauses, "nothing holds this rule"
    for node in tests:
        file, _, name = node.partition("::")
        assert name in functions_of(file), f"there is no test {node}"
    assert set(published) <= cases()
    for each in clauses:
        entry = covered(each["book"], each["edition"]).get(each["clause"])
        assert entry is not None, f"no coverage entry {each}"
        assert entry["state"] != "done", f"{each['clause']} is said to be done: name the test that holds the rule"
        assert entry["reason"].strip()
