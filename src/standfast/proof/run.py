"""Runs cases and compares: agrees, disagrees, or no calculator."""

import json
import math
from collections.abc import Iterable, Mapping
from importlib.resources import files
from typing import Any, Literal, NamedTuple

from standfast.faults import Fault, FaultsFound, Refusal, Unanswered
from standfast.proof.inputs import BadCase, Inputs, finite
from standfast.proof.methods import adapter_of

Agreement = Literal["agrees", "disagrees", "no calculator"]
SHIPPED = "cases"
NOT_UNASKED: dict[str, tuple[str, ...]] = {
    "siting.layout": ("condition", "binding_rule"),
    "energy.clock.labels": ("condition", "reason"),
}
"""Answers that must not be given where the case holds none."""
ALONE_OR_LISTED = ("nec.ess.disconnect_location",)
"""Methods that ask about one position or a list of them: the answer on one may stand alone or in a list of one."""
OR_REFUSAL = "or_refusal"
"""Key of `expected` for the word with which the program may refuse to answer the rest."""


class Outcome(NamedTuple):
    """What came of one case; `reason` says why where it does not agree."""

    file: str
    id: str
    method: str
    verdict: Agreement
    ours: dict[str, Any]
    expected: dict[str, Any]
    source: str
    reason: str


def shipped() -> list[tuple[str, list[Mapping[str, Any]]]]:
    """The cases in the package: file name and cases."""
    folder = files("standfast.proof") / SHIPPED
    paths = sorted((path for path in folder.iterdir() if path.name.endswith(".json")), key=lambda path: path.name)
    return [(path.name, read(path.name, path.read_text("utf-8"))) for path in paths]


def read(file: str, text: str) -> list[Mapping[str, Any]]:
    """Read a file of cases.

    Raises:
        FaultsFound: where it is no list of cases, with the place.
    """
    try:
        cases = json.loads(text)
    except json.JSONDecodeError as error:
        raise FaultsFound([Fault(file, error.lineno, error.colno, error.msg, "", "write valid JSON")]) from error
    except (ValueError, RecursionError) as error:
        raise FaultsFound([Fault(file, 1, 1, f"it cannot be read: {error}", "", "write valid JSON")]) from error
    if not isinstance(cases, list):
        raise FaultsFound([Fault(file, 1, 1, "not a list of cases", "", "write a JSON list of objects")])
    faults = [
        Fault(file, 0, 0, f"case {number} has no {key!r}", "", "see the format of published cases")
        for number, case in enumerate(cases, 1)
        for key, kind in (("id", str), ("method", str), ("inputs", dict), ("expected", dict))
        if not isinstance(case, dict) or not isinstance(case.get(key), kind)
    ]
    faults += [
        Fault(file, 0, 0, f"case {number}: {what}", "", "give for each answer a number of at least 0, or one per item")
        for number, case in enumerate(cases, 1)
        if isinstance(case, dict) and isinstance(case.get("expected"), dict)
        for what in _spread_faults(case.get("tolerance"), case["expected"])
    ]
    if faults:
        raise FaultsFound(faults)
    return cases


def prove(file: str, cases: Iterable[Mapping[str, Any]]) -> list[Outcome]:
    """Run cases, each against the calculator of its method."""
    return [_one(file, case) for case in cases]


def _one(file: str, case: Mapping[str, Any]) -> Outcome:
    source = case.get("source", "")
    title = source.get("title", "") if isinstance(source, Mapping) else str(source)
    expected = dict(case["expected"])

    def outcome(verdict: Agreement, ours: dict[str, Any], reason: str = "") -> Outcome:
        return Outcome(file, case["id"], case["method"], verdict, ours, expected, title, reason)

    adapter = adapter_of(case["method"])
    if adapter is None:
        return outcome("no calculator", {}, "no calculator answers this method")
    inputs = Inputs(case["inputs"])
    try:
        ours = adapter(inputs)
    except BadCase as error:
        return outcome("disagrees", {}, str(error))
    except Unanswered as error:
        allowed = error.word == expected.get(OR_REFUSAL)
        return outcome("agrees" if allowed else "disagrees", {OR_REFUSAL: error.word}, f"refused: {error}")
    except Refusal as error:
        return outcome("disagrees", {}, f"refused: {error}")
    except ArithmeticError as error:
        return outcome("disagrees", {}, f"its numbers cannot be worked with: {error}")
    unused = inputs.unused()
    if unused:
        return outcome("disagrees", ours, f"the calculator does not use {', '.join(unused)}")
    tolerance = case.get("tolerance") or {}
    asked = {key: right for key, right in expected.items() if key != OR_REFUSAL} or expected
    if case["method"] in ALONE_OR_LISTED:
        ours = {key: _shaped(each, asked.get(key)) for key, each in ours.items()}
    wrong = [key for key, right in asked.items() if not _agrees(ours.get(key), right, tolerance.get(key, 0))]
    wrong += [key for key in NOT_UNASKED.get(case["method"], ()) if ours.get(key) and key not in expected]
    shown = {key: ours[key] for key in expected if key in ours}
    return outcome("disagrees" if wrong else "agrees", shown, f"differs in {', '.join(wrong)}" if wrong else "")


def _spread_faults(tolerance: Any, expected: Mapping[str, Any]) -> list[str]:
    if tolerance is None:
        return []
    if not isinstance(tolerance, dict):
        return [f"the tolerance is not an object: {tolerance!r}"]
    return [
        f"the tolerance of {key!r} does not fit: {spread!r}"
        for key, spread in tolerance.items()
        if not _fits(spread, expected.get(key))
    ]


def _fits(spread: Any, right: Any) -> bool:
    if isinstance(spread, list):
        return isinstance(right, list) and len(spread) == len(right) and all(_fits(each, None) for each in spread)
    number = finite(spread)
    return spread is None or (number is not None and number >= 0)


def _agrees(ours: Any, right: Any, tolerance: Any) -> bool:
    if isinstance(right, list):
        if not isinstance(ours, list) or len(ours) != len(right):
            return False
        spread = tolerance if isinstance(tolerance, list) else [tolerance] * len(right)
        return all(_agrees(*each) for each in zip(ours, right, spread, strict=True))
    if isinstance(right, (bool, str)) or right is None:
        return type(ours) is type(right) and bool(ours == right)
    found, printed = finite(ours), finite(right)
    if found is None or printed is None:
        return False
    slack = max(float(tolerance or 0), 1e-9 * max(1.0, math.fabs(printed)))
    return math.fabs(found - printed) <= slack * (1 + 1e-9)


def _shaped(ours: Any, right: Any) -> Any:
    """An answer that stands alone as a list of one, where one is expected."""
    return [ours] if isinstance(right, list) and not isinstance(ours, list) else ours
