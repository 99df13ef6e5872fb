"""Every published case that ships must come out, within the digits that were printed."""

from collections.abc import Mapping
from typing import Any

import pytest

from standfast.proof.run import prove, shipped

CASES = [(file, case) for file, cases in shipped() for case in cases]


@pytest.mark.parametrize(("file", "case"), CASES, ids=[f"{file}:{case['id']}" for file, case in CASES])
def test_case_agrees(file: str, case: Mapping[str, Any]) -> None:
    (outcome,) = prove(file, [case])
    assert outcome.verdict == "agrees", f"{outcome.reason}: ours {outcome.ours}, published {outcome.expected}"


def test_a_wrong_answer_disagrees() -> None:
    for file, case in CASES[::10]:
        for key, right in case["expected"].items():
            if isinstance(right, bool):
                wrong: Any = not right
            elif isinstance(right, int | float):
                wrong = right + 1 + 3 * abs(right)
            else:
                continue
            (outcome,) = prove(file, [{**case, "expected": {**case["expected"], key: wrong}}])
            assert outcome.verdict == "disagrees", case["id"]
