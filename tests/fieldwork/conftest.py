"""The invented demo job with a design written down by hand, so that these tests hang on no other room's numbers."""

from importlib.resources import files

import pytest

from standfast.design.installation.build import build
from standfast.design.labels.schedule import schedule
from standfast.equipment.read import DataSheet, find
from standfast.fieldwork.plan import Held, Lift, Plan, Run, Spot, Wire
from standfast.sheet import Value, given
from standfast.shelf import adoption
from standfast.survey.read import Survey, read

ROLES = {
    "battery": "demo-wall-10",
    "breaker": "demo-breaker",
    "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
    "aid": "demo-wall-lift",
}
HOLES = ((4, 37), (20, 37), (4, 34), (20, 34), (4, 6), (20, 6))


def sheet_of(id: str) -> DataSheet:
    found = find(id).sheet
    assert found is not None
    return found


def v(symbol: str, number: float, unit: str) -> Value:
    return given(symbol, number, unit, "test")


def inch(number: float) -> Value:
    return v("x", number * 25.4, "mm")


def wires(size: str, *uses: tuple[str, int]) -> tuple[Wire, ...]:
    return tuple(Wire(use, size, "cu", "thhn", number) for use, number in uses)  # type: ignore[arg-type]


def demo_text() -> str:
    return (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def survey_of(text: str) -> Survey:
    found = read(text).survey
    assert found is not None
    return found


def make_plan(text: str | None = None) -> Plan:
    survey = survey_of(text if text is not None else demo_text())
    sheets = {role: sheet_of(id) for role, id in ROLES.items()}
    installation = build(survey, sheets)
    law = adoption("us-2021")
    feet = {"battery-run": (6.0, ("disconnect", "unit")), "disconnect-run": (5.0, ("panel", "disconnect"))}
    runs = [
        Run(
            id, id.replace("-", " "), ends, v("L", length, "ft"), v("w", 10.0, "%"), False, "emt", "3/4",  # type: ignore[arg-type]
            wires("10", ("line", 2), ("neutral", 1), ("ground", 1)),
        )
        for id, (length, ends) in feet.items()
    ]  # fmt: skip
    plain = {"wall": "garage-east", "base": "wood", "lining": inch(0.5), "dense": False}
    spots = tuple(Spot(inch(100 + x), inch(20 + y)) for x, y in HOLES)
    few = tuple(Spot(inch(x), inch(60)) for x in (88, 92, 90))
    held = (
        Held("battery-1", "Battery 1", fastener=sheet_of("demo-lag-5-16"), plate=inch(0.125), spots=spots, **plain),  # type: ignore[arg-type]
        Held(
            "battery-1/disconnect",
            "Battery 1 disconnect",
            fastener=sheet_of("demo-screw-10"),
            plate=inch(0.0625),
            spots=few,
            **plain,
        ),  # type: ignore[arg-type]
    )
    labels = schedule(law.book("nfpa70"), installation, 2, backup=True)
    lift = Lift(2, "Hand-cranked wall lift 160", "One person alone: lifting index 4.1.")
    return Plan(
        survey, sheets, installation, runs, held, labels, lift, v("I_n", 30.0, "A"), law.book("practice"),
    )  # fmt: skip


@pytest.fixture(scope="session")
def plan() -> Plan:
    return make_plan()
