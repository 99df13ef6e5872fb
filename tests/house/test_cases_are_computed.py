"""Nothing in an adapter is an answer: where an input of a computed case is moved, some answer moves.

A case is asked again with one input changed at a time, until an answer differs from its own. A refusal is no answer.
"""

import copy
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from standfast.faults import Refusal
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import adapter_of
from standfast.proof.run import NOT_UNASKED, shipped

FACTORS = (1.37, 0.61, 2.0, 0.25, 10.0, 0.05)
STEPS = (-600.0, 600.0, -3000.0, 3000.0, 1.0, -1.0)
CASES = [case for _, cases in shipped() for case in cases if case.get("kind", "computation") == "computation"]


def leaves(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any]]:
    """Every number, word and yes or no of some inputs, with its path."""
    if isinstance(data, Mapping):
        for key, value in data.items():
            yield from leaves(value, (*path, key))
    elif isinstance(data, list):
        for place, value in enumerate(data):
            yield from leaves(value, (*path, place))
    else:
        yield path, data


WORDS: dict[tuple[str, Any], set[str]] = {}
"""The words that the cases of a method use for an input of one name."""
for _case in CASES:
    for _path, _value in leaves(_case["inputs"]):
        if isinstance(_value, str):
            WORDS.setdefault((_case["method"], _path[-1]), set()).add(_value)


def others(method: str, path: tuple[Any, ...], value: Any) -> Iterator[Any]:
    """What may stand in place of an input."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, int | float):
        for factor in FACTORS:
            new = (value or 1) * factor
            yield max(round(new), 0) if isinstance(value, int) and new > 3 else new
        yield from (value + step for step in STEPS)
    elif isinstance(value, str):
        yield from sorted(WORDS[method, path[-1]] - {value})


def moved(case: Mapping[str, Any], path: tuple[Any, ...], new: Any) -> dict[str, Any]:
    """The case with one input changed."""
    inputs = copy.deepcopy(case["inputs"])
    at = inputs
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = new
    return {**case, "inputs": inputs}


def answer(case: Mapping[str, Any]) -> dict[str, Any]:
    """The answers that are judged: those that the case asks for, and those that must not be given unasked."""
    adapter = adapter_of(case["method"])
    if adapter is None:
        return {}
    try:
        found = adapter(Inputs(case["inputs"]))
    except (BadCase, Refusal):
        return {}
    judged = {*case["expected"], *NOT_UNASKED.get(case["method"], ())}
    return {key: value for key, value in found.items() if key in judged and value is not None}


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_an_answer_moves_with_an_input(case: Mapping[str, Any]) -> None:
    here = answer(case)
    if not here:
        pytest.skip("no calculator answers this case yet")
    for path, value in leaves(case["inputs"]):
        for new in others(case["method"], path, value):
            there = answer(moved(case, path, new))
            if there and there != here:
                return
    pytest.fail(f"{case['id']}: no input moves its answer {here}")
