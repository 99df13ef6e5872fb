"""The one-line diagram of several units, of an inverter with its DC side, and of a panel in another building."""

from itertools import chain, combinations

import pytest
from one_line_job import texts, told

from standfast.handover.drawings.one_line import drawings
from standfast.handover.drawings.one_line_told import OneLine
from standfast.paper import symbols
from standfast.paper.drawing import Drawing

NAMES = ("detached_pair", "stack_outdoors", "cabinet")


@pytest.fixture(scope="module", params=NAMES)
def drawn(request: pytest.FixtureRequest) -> tuple[OneLine, dict[str, Drawing]]:
    facts = told(request.param)
    return facts, drawings(facts)


def test_a_draughtsman_would_sign_them(drawn: tuple[OneLine, dict[str, Drawing]]) -> None:
    _, made = drawn
    assert list(chain.from_iterable(each.flaws() for each in made.values())) == []
    assert min(mark.height for each in made.values() for _, mark in each.texts) >= 2.5


def test_every_new_device_and_every_run_is_on_one_of_the_sheets(drawn: tuple[OneLine, dict[str, Drawing]]) -> None:
    facts, made = drawn
    shown = texts(made)
    for part in facts.installation.parts.values():
        if not part.existing and part.kind not in ("load", "breaker", "shutdown switch"):
            for word in part.name.split():
                assert word in shown, part.name
    for run in facts.runs:
        assert run.title.split(" ")[-1] in shown
    assert "not known" not in " ".join(line for run in facts.runs for line in run.lines)


def test_a_diagram_for_two_sheets_is_cut_at_a_panel() -> None:
    made = drawings(told("detached_pair"))
    assert list(made) == ["one-line", "one-line continued", "one-line schedule"]
    first, second = (" ".join(mark.text for _, mark in made[name].texts) for name in ("one-line", "one-line continued"))
    assert "continued on sheet E1.2" in first and "Battery 1" not in first
    assert "Battery 2 disconnect" in second and "Grounding electrodes at the" in second
    assert "Garage panel feeder breaker" in first and "Garage panel feeder breaker" in second


def test_conductors_in_parallel_are_counted() -> None:
    runs = {run.ids[0]: run.lines for run in told("cabinet").runs}
    assert runs["dc-battery"][0].startswith("4 × 1/0 AWG Cu") or runs["dc-battery"][0].startswith("4 × 2/0 AWG Cu")


def test_no_busbar_sticks_out_of_its_panel(monkeypatch: pytest.MonkeyPatch) -> None:
    """A feeder at the feed-through lugs hangs from the far end of the busbar, which the panel still holds."""
    bars: list[tuple[Drawing, float, float, float]] = []
    panels: list[tuple[Drawing, float, float, float, float]] = []
    busbar, enclosure = symbols.busbar, symbols.enclosure

    def bar(drawing: Drawing, left: float, right: float, y: float) -> symbols.Ends:
        bars.append((drawing, left, right, y))
        return busbar(drawing, left, right, y)

    def panel(drawing: Drawing, left: float, bottom: float, right: float, top: float) -> symbols.Ends:
        panels.append((drawing, left, bottom, right, top))
        return enclosure(drawing, left, bottom, right, top)

    monkeypatch.setattr(symbols, "busbar", bar)
    monkeypatch.setattr(symbols, "enclosure", panel)
    drawings(told("many_sources"))
    assert len(bars) >= 4
    for sheet, left, right, y in bars:
        held = [(one, two) for on, one, low, two, high in panels if on is sheet and low <= y <= high]
        assert any(one < left and right < two for one, two in held), (left, right, held)


@pytest.mark.parametrize("name", [*NAMES, "many_sources"])
def test_no_outline_cuts_another(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    outlines: list[tuple[Drawing, tuple[float, float, float, float]]] = []
    enclosure = symbols.enclosure

    def outline(drawing: Drawing, left: float, bottom: float, right: float, top: float) -> symbols.Ends:
        outlines.append((drawing, (left, bottom, right, top)))
        return enclosure(drawing, left, bottom, right, top)

    monkeypatch.setattr(symbols, "enclosure", outline)
    drawings(told(name))
    assert len(outlines) >= 2
    for (one, first), (two, second) in combinations(outlines, 2):
        beside = first[2] < second[0] or second[2] < first[0]
        below = first[3] < second[1] or second[3] < first[1]
        assert one is not two or beside or below, (first, second)
