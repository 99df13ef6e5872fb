"""The invented terraced house with words changed, worked out by the engine alone."""

from functools import cache
from importlib.resources import files

from standfast.design.wiring.metric.british import BRITISH
from standfast.design.wiring.metric.built import MetricCircuit, MetricWiring
from standfast.design.wiring.metric.question import Question, SheetFile
from standfast.design.wiring.metric.whole import wiring, work_out
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.sheet import Check
from standfast.shelf import adoption
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "terrace" / "job.toml").read_text("utf-8")
ROLES = {
    "battery": "demo-wall-5", "breaker": "demo-rcbo-b", "disconnect": "demo-isolator-63",
    "island_switch": "demo-gateway-63",
}  # fmt: skip
Swap = tuple[str, str]
BARE = (
    'breaker = "20 A", poles = 1, device = "breaker with residual current device", curve = "B", '
    'residual = { type = "A", rated = "30 mA", bidirectional = false }, load = "2.2 kVA"',
    'breaker = "20 A", poles = 1, device = "breaker", curve = "B", load = "2.2 kVA"',
)
"""The kitchen circuit without its residual current device."""


def sheets(*swaps: Swap) -> dict[str, SheetFile]:
    """The shipped sheets of the demo; a swap changes every sheet that holds its first text, and one has to."""
    texts = {role: shipped()[id] for role, id in ROLES.items()}
    for old, new in swaps:
        assert any(old in text for text in texts.values()), old
        texts = {role: text.replace(old, new) for role, text in texts.items()}
    return {role: _sheet(role, text) for role, text in texts.items()}


@cache
def _sheet(role: str, text: str) -> SheetFile:
    found, faults = read_sheet(text, f"{ROLES[role]}.toml")
    assert found is not None, faults
    return found


def question(*swaps: Swap, of_sheets: tuple[Swap, ...] = (), codes: str = "uk-2024") -> Question:
    """The question of the demo job with texts of it swapped."""
    text = TEXT
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    job, _ = read(text)
    assert job is not None
    return Question(adoption(codes), BRITISH, job, sheets(*of_sheets))


def built(*swaps: Swap, of_sheets: tuple[Swap, ...] = (), codes: str = "uk-2024") -> MetricWiring:
    """The wiring."""
    return work_out(question(*swaps, of_sheets=of_sheets, codes=codes))


def checks(*swaps: Swap, of_sheets: tuple[Swap, ...] = (), codes: str = "uk-2024") -> dict[str, Check]:
    """Every check on the wiring, those of the joints of neutral and earth too, by id."""
    return {each.id: each for each in wiring(question(*swaps, of_sheets=of_sheets, codes=codes)).checks}


def circuit(found: MetricWiring, id: str = "battery-1") -> MetricCircuit:
    """A circuit by its id."""
    return next(each for each in found.circuits if each.id == id)
