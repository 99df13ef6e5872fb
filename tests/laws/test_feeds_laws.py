"""Laws of what can feed a conductor: a source added, or a state more, never lowers a worst sum."""

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.states import State
from standfast.design.wiring.feeds import Feed, feeds
from standfast.sheet import given as stated

GRID = State("grid", "grid", frozenset(), frozenset())
AMPS = st.integers(5, 200)


def amps(number: float) -> dict[str, object]:
    return {"output_current": stated("I_out", float(number), "A", "test")}


def rated(number: float, word: str = "rating") -> dict[str, object]:
    return {word: stated("I_n", float(number), "A", "test")}


def house(levels: list[tuple[int, list[tuple[int, int]]]], service: int) -> Installation:
    """Panels in a row, each with a feeder breaker and sources (breaker, output) on it."""
    parts = [Part("utility", "utility", "", {}, True), Part("service", "breaker", "", rated(service), True)]  # type: ignore[arg-type]
    links, above = [Link("entrance", "utility", "service", "conductor")], "service"
    for number, (feeder, sources) in enumerate(levels):
        panel = f"panel-{number}"
        if number:
            parts.append(Part(f"{panel}/feeder", "breaker", "", rated(feeder), True))  # type: ignore[arg-type]
            links.append(Link(f"{panel}/bus", above, f"{panel}/feeder", "busbar"))
            above = f"{panel}/feeder"
        parts.append(Part(panel, "busbar", "", {}, True))
        links.append(Link(f"{panel}/feed", above, panel, "conductor" if number else "internal"))
        for nth, (breaker, output) in enumerate(sources):
            at = f"{panel}/{nth}"
            parts.append(Part(at, "breaker", "", rated(breaker), True))  # type: ignore[arg-type]
            parts.append(Part(f"{at}/source", "inverter", "", amps(output), True))  # type: ignore[arg-type]
            links += [Link(f"{at}/bus", panel, at, "busbar"), Link(f"{at}/run", at, f"{at}/source", "conductor")]
        above = panel
    return Installation(parts, links)


def number(feed: Feed) -> float:
    return float("inf") if feed.through is None else feed.through.quantity


def worst(levels: list[tuple[int, list[tuple[int, int]]]], service: int, *states: State) -> dict[str, float]:
    return {each.id: number(each) for each in feeds(house(levels, service), states or (GRID,), {})}


LEVELS = st.lists(st.tuples(AMPS, st.lists(st.tuples(AMPS, AMPS), max_size=3)), min_size=1, max_size=4)


@settings(max_examples=60)
@given(LEVELS, AMPS, AMPS, AMPS, st.data())
def test_a_source_more_lowers_no_sum(levels, service, breaker, output, data) -> None:  # type: ignore[no-untyped-def]
    at = data.draw(st.integers(0, len(levels) - 1))
    more = [(feeder, [*found, (breaker, output)] if n == at else found) for n, (feeder, found) in enumerate(levels)]
    before, after = worst(levels, service), worst(more, service)
    assert all(after[id] >= before[id] for id in before)


@settings(max_examples=60)
@given(LEVELS, AMPS, st.data())
def test_a_state_more_lowers_no_sum(levels, service, data) -> None:  # type: ignore[no-untyped-def]
    graph = house(levels, service)
    ids = sorted(each.id for each in graph.of_kind("inverter", "utility"))
    other = State("other", "other", frozenset(), frozenset(data.draw(st.sets(st.sampled_from(ids)))))
    one, both = worst(levels, service, other), worst(levels, service, other, GRID)
    assert all(both[id] >= one[id] for id in one if one[id] != float("inf") or both[id] == float("inf"))


@settings(max_examples=60)
@given(LEVELS, AMPS)
def test_a_busbar_carries_its_device_and_every_source_beyond_within_their_breakers(levels, service) -> None:  # type: ignore[no-untyped-def]
    """The sum worked out by hand from the far panel up: each feeder lets through no more than its rating."""
    back = 0.0
    for number, (feeder, sources) in reversed(list(enumerate(levels))):
        back += sum(min(breaker, output) for breaker, output in sources)
        if number:
            back = min(back, feeder)
    assert worst(levels, service)["panel-0"] == service + back
