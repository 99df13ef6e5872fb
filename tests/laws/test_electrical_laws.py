"""Laws of whole electrical designs: what makes a job harder never makes a verdict better or a conductor smaller."""

from collections.abc import Callable

import pytest
from electrical_jobs import (
    DEMOS,
    METRIC,
    Design,
    as_it_is,
    demo,
    design,
    loads,
    never_better,
    routes,
    sections,
    with_words,
)

from standfast.reading.positions import Path
from standfast.survey import Survey
from standfast.units import OWN, Quantity

FAULTS = ("wiring.interrupting-rating", "wiring.short-circuit-rating")
"""A longer run lets less fault current through: of these a longer run may make a verdict better."""
EVERY = 3
"""Of many circuits every third is tried, each by itself."""


def times(quantity: Quantity, factor: float) -> str:
    """A quantity, larger, as the job file writes it."""
    return f"{float(quantity.number) * factor:.6f} {OWN[quantity.dimension]}"


def harder(name: str, changes: list[tuple[Path, object]], but: tuple[str, ...] = ()) -> Design:
    """The design of a demo job with words changed, held against what it was."""
    before, after = as_it_is(name), design(with_words(demo(name), changes))
    assert never_better(before, after, but) == [], changes
    areas = after.areas()
    for id, area in before.areas().items():
        assert areas.get(id, area) >= area, (changes, id)
    return after


@pytest.mark.parametrize("name", [*DEMOS, *METRIC])
@pytest.mark.parametrize("factor", [1.3, 4.0])
def test_a_longer_run_needs_no_smaller_conductor(name: str, factor: float) -> None:
    for path, length in routes(demo(name), "length"):
        pieces = [((*path[:2], "sections", at, "length"), each.length) for at, each in sections(demo(name), path)]
        after = harder(name, [(at, times(long, factor)) for at, long in [(path, length), *pieces]], FAULTS)
        before = as_it_is(name).wiring.faults
        for part, fault in after.wiring.faults.items():
            assert fault.missing or fault.quantity <= before[part].quantity * (1 + 1e-12), (path, part)


@pytest.mark.parametrize("name", [*DEMOS, *METRIC])
@pytest.mark.parametrize("ambient", ["122 °F", "140 °F"])
def test_a_hotter_run_needs_no_smaller_conductor(name: str, ambient: str) -> None:
    for path, _ in routes(demo(name), "ambient"):
        harder(name, [(path, ambient)])


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("more", [2, 7])
def test_more_conductors_beside_need_no_smaller_conductor(name: str, more: int) -> None:
    for path, count in routes(demo(name), "other_current_carrying"):
        harder(name, [(path, count + more)])


@pytest.mark.parametrize("name", [*DEMOS, *METRIC])
@pytest.mark.parametrize("factor", [1.4, 5.0])
def test_more_load_makes_no_verdict_better(name: str, factor: float) -> None:
    found = list(loads(demo(name)))
    for path, load in found[::EVERY]:
        harder(name, [(path, times(load, factor))])
    everything = harder(name, [(path, times(load, factor)) for path, load in found])
    assert set(everything.verdicts) == set(as_it_is(name).verdicts)


@pytest.mark.parametrize("name", METRIC)
@pytest.mark.parametrize("more", [1, 4])
def test_more_circuits_together_need_no_smaller_cable(name: str, more: int) -> None:
    tried = 0
    for path, count in routes(demo(name), "circuits_together"):
        harder(name, [(path, count + more)])
        tried += 1
    assert tried


@pytest.mark.parametrize("name", DEMOS)
def test_a_stronger_supply_makes_no_fault_current_smaller(name: str) -> None:
    survey = demo(name)
    stated = survey.job.supply.fault_current
    if stated is None:
        pytest.skip("the job has a transformer instead")
    before, after = as_it_is(name), harder(name, [(("supply", "fault_current"), times(stated, 1.5))])
    for part, fault in after.wiring.faults.items():
        assert fault.quantity >= before.wiring.faults[part].quantity


def with_source(survey: Survey, panel: int, amps: float) -> Survey:
    """The job with a source more, that was there already, on a panel."""
    circuits = survey.raw["panels"][panel]["circuits"]
    more = {"id": "one-more", "breaker": f"{amps * 1.25:.0f} A", "poles": 2, "phases": "line to line",
            "source_output": f"{amps:g} A", "state": "existing"}  # fmt: skip
    free = ("panels", panel, "free_spaces")
    return with_words(survey, [(("panels", panel, "circuits"), [*circuits, more]), (free, None)])


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("amps", [12.0, 40.0])
def test_a_source_more_lowers_no_rating_that_is_needed(name: str, amps: float) -> None:
    before, grown = as_it_is(name), 0
    for panel in range(len(demo(name).job.panels)):
        after = design(with_source(demo(name), panel, amps))
        assert never_better(before, after, ("wiring.unstated", "wiring.room")) == []
        for was, now in zip(before.wiring.busbars, after.wiring.busbars, strict=True):
            assert was.panel == now.panel
            assert now.sources.missing or now.sources.quantity >= was.sources.quantity
            grown += not now.sources.missing and now.sources.quantity > was.sources.quantity
        for part, fault in after.wiring.faults.items():
            assert fault.missing or fault.quantity >= before.wiring.faults[part].quantity
        for was, now in zip(before.wiring.units, after.wiring.units, strict=True):
            assert now.rise.volts.missing or now.rise.volts.quantity >= was.rise.volts.quantity
            assert now.breaker.quantity == was.breaker.quantity
        grown += _feeds_grow(before, after)
    assert grown


def _feeds_grow(before: Design, after: Design) -> int:
    """What can feed each conductor and busbar is never less; on how many it is more."""
    now, more = {each.id: each for each in after.wiring.feeds}, 0
    for was in before.wiring.feeds:
        through = now[was.id].through
        assert set(was.from_other.sources) <= set(now[was.id].from_other.sources)
        if was.through is not None and not was.through.missing:  # None and missing: nothing limits it, or nobody knows
            assert through is None or through.missing or through.quantity >= was.through.quantity - 1e-9
            more += through is None or through.missing or through.quantity > was.through.quantity + 1e-9
    return more


def test_the_laws_can_be_broken() -> None:
    """What is compared is there: a failing verdict that becomes a pass is found."""
    held = as_it_is("one_wall")
    worse = Design(held.wiring, dict.fromkeys(held.verdicts, "fail"))
    better: Callable[[Design], int] = lambda before: len(never_better(before, held))  # noqa: E731
    assert better(worse) > 50
    assert better(held) == 0
