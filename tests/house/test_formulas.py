"""Every formula text that was used is worked out again with units.

Formulas that hold only in their clause's own units stand in ``own_units.toml``, each with the reason; an entry that is
no longer needed is a fault too.
"""

import math
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
import tomli
from dimensions import NoDimension, again

from standfast.fieldwork.derive import plan_of
from standfast.fieldwork.materials import materials
from standfast.fieldwork.work_order import work_order
from standfast.foreman.plan import make_plan
from standfast.proof.run import prove, shipped
from standfast.sheet import Value, steps

APPROVED = tomli.loads((Path(__file__).parent / "own_units.toml").read_text("utf-8"))["formula"]


@pytest.fixture(scope="module")
def used() -> Iterator[list[Value]]:
    """Every worked value of the shipped cases and of five demo jobs, once for each text with its units."""
    made: dict[tuple[object, ...], Value] = {}

    def remember(*facts: Any, **named: Any) -> Value:
        value = Value(*facts, **named)
        if value.kind == "worked" and value.how != "sum":
            made.setdefault((value.how, tuple(each.unit for each in value.inputs), value.unit), value)
        return value

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(steps, "Value", remember)
        for name, cases in shipped():
            prove(name, cases)
        for demo in ("one_wall", "stack_outdoors", "cabinet"):
            job = make_plan(Path(str(files("standfast.foreman") / "demos" / demo)))
            work = plan_of(job.survey, job.sheets, job.design, job.lifting, job.adoption)
            assert materials(work).rows
            assert work_order(work).holes.holes
        for demo in ("terrace", "verandah"):
            job = make_plan(Path(str(files("standfast.foreman") / "demos" / demo)))
            assert job.design.wiring.metric is not None
            assert materials(plan_of(job.survey, job.sheets, job.design, job.lifting, job.adoption)).rows
    yield list(made.values())


def holds(value: Value) -> bool:
    """True where the formula gives the same number when its units are worked out too."""
    units = [each.unit for each in value.inputs]
    try:
        number = again(value.how, value.names, [each.quantity for each in value.inputs], units, value.unit)
    except NoDimension:
        return False
    return math.isclose(number, value.quantity, rel_tol=1e-9, abs_tol=1e-12)


def test_units_of_every_formula_agree_or_are_approved(used: list[Value]) -> None:
    approved = {entry["text"] for entry in APPROVED}
    assert len(used) > 100
    wrong = sorted({f"{value.clause}: {value.symbol} = {value.how}" for value in used if not holds(value)})
    unknown = [line for line in wrong if line.partition(" = ")[2] not in approved]
    assert not unknown, "\n".join(unknown)


def test_every_approved_formula_still_needs_its_approval(used: list[Value]) -> None:
    needed = {value.how for value in used if not holds(value)}
    assert {entry["text"] for entry in APPROVED} <= needed
    for entry in APPROVED:
        assert entry["why"].strip(), entry["text"]
        assert entry["units"].strip(), entry["text"]


def test_a_wrong_unit_would_be_seen() -> None:
    assert again("a * b", ("a", "b"), (2.0, 3.0), ("V", "A"), "VA") == pytest.approx(6)
    assert again("a * b", ("a", "b"), (2.0, 3.0), ("V", "A"), "kW") == pytest.approx(0.006)
    with pytest.raises(NoDimension):
        again("a + b", ("a", "b"), (2.0, 3.0), ("V", "A"), "V")
    with pytest.raises(NoDimension):
        again("a * b", ("a", "b"), (2.0, 3.0), ("V", "A"), "V")
