"""The invented demo job with a design written down by hand, so that these tests hang on no other room's numbers."""

from importlib.resources import files

from standfast.design.installation.build import build
from standfast.design.labels.schedule import schedule
from standfast.equipment.read import DataSheet, find
from standfast.fieldwork.plan import End, Held, Lift, Plan, Run, Spot, Wire
from standfast.sheet import Value, given
from standfast.shelf import adoption
from standfast.survey.read import Survey, read

ROLES = {
    "battery": "demo-wall-10",
    "breaker": "demo-breaker",
    "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
    "disconnect_fastener": "demo-screw-10",
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


def word(symbol: str, text: str) -> Value:
    return given(symbol, text, "", "test")


def wires(size: str, *uses: tuple[str, int]) -> tuple[Wire, ...]:
    kind = (word("size", size), word("material", "cu"), word("insulation", "thhn"))
    return tuple(Wire(use, *kind, number) for use, number in uses)  # type: ignore[arg-type]


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
    feet: dict[str, tuple[float, tuple[End, End]]] = {
        "battery-run": (6.6, ("disconnect", "unit")),
        "disconnect-run": (5.5, ("panel", "disconnect")),
    }
    tube = {"raceway": word("raceway", "emt"), "trade_size": word("trade_size", "3/4"), "wet": False}
    inside = wires("10", ("line", 2), ("neutral", 1), ("ground", 1))
    runs = [
        Run(id, id, ends, v("L_max", length, "ft"), wires=inside, **tube)  # type: ignore[arg-type]
        for id, (length, ends) in feet.items()
    ]
    spots = tuple(Spot(inch(100 + x), inch(20 + y)) for x, y in HOLES)
    lag, plate, lining = sheet_of("demo-lag-5-16"), inch(0.125), inch(0.5)
    held = (Held("battery-1", "Battery 1", "garage-east", "wood", lag, plate, lining, False, spots),)
    labels = schedule(law.book("nfpa70"), installation, {"backup": 2}, backup=True)
    lift = Lift(2, "Hand-cranked wall lift 160", "One person alone: lifting index 4.1.")
    breaker = v("I_n", 30.0, "A")
    return Plan(survey, sheets, installation, runs, held, labels, lift, {"battery-1": breaker}, law.book("practice"))
