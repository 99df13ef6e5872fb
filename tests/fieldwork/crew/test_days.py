"""Work split over days: nothing left open, dark, hanging or untested in a night, walked in another way."""

from collections.abc import Iterator, Sequence
from functools import cache

import pytest

from standfast.aftercare.day import of_removal, of_service
from standfast.aftercare.making import ASSESSED
from standfast.aftercare.removal import built
from standfast.aftercare.service import possible, service
from standfast.fieldwork.crew.blocks import blocks
from standfast.fieldwork.crew.day import DAY_MIN, CrewDay, crew_day
from standfast.fieldwork.crew.notice import for_crew, for_owner, moment, numbered
from standfast.fieldwork.crew.off import loads_of
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.foreman.removals import planned
from standfast.survey.firm import Firm, read

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet", "many_sources", "terrace", "verandah")
Works = dict[str, tuple[Plan, WorkOrder]]


@cache
def firm(length: str, *more: str) -> Firm:
    words = ["schema = 1", "[firm]", 'name = "Invented Electric"', "[day]", f'length = "{length}"', *more]
    found = read("\n".join(words), "firm.toml")
    assert found.firm is not None and found.faults == []
    return found.firm.firm


@pytest.fixture(scope="module")
def works(tmp_path_factory: pytest.TempPathFactory) -> Works:
    """Installation, removal in each condition, and every service of every unit, of every demo job."""
    found = Works()
    for name in DEMOS:
        job = make_plan(write_demo(name, tmp_path_factory.mktemp(name)), runner_up=False)
        site = sitework(job)
        now = built(site)
        found[f"{name}, installation"] = (site, work_order(site))
        for condition, made in planned(job, site).items():
            found[f"{name}, {condition}"] = (now, of_removal(now, made))
        for what, unit in possible(site):
            found[f"{name}, {what} {unit}"] = (now, of_service(now, service(site, what, unit)))
    return found


def wrong(plan: Plan, order: WorkOrder, done: Sequence[WorkStep]) -> Iterator[str]:
    """What is wrong with a house after some steps, told by the steps alone."""
    ids, site = {step.id for step in done}, order.decided.house.site
    off = set[str]()
    for step in done:
        off = off | {step.takes_off} - {step.puts_on} if step.takes_off else off - {step.puts_on}
    yield from (f"{cover} is off" for cover in off - {""} - site.temporary)
    closed = {gate.id for gate in site.gates if gate.closed}
    lit = {
        load.id for load in loads_of(plan, order.decided.house, order.steps) if load.home in walked(plan, order, closed)
    }
    for step in done:
        for turn in step.turns:
            closed = {"open": closed - {turn.gate}, "close": closed | {turn.gate}}.get(turn.change, closed)
    fed = walked(plan, order, closed)
    for load in loads_of(plan, order.decided.house, order.steps):
        if load.id in lit and (load.new if load.move in ids else load.home) not in fed:
            yield f"{load.name} is dark"
    for step in order.steps:
        if step.id in ids or step.stage not in ("hang", "take down"):
            continue
        device = step.id.split(".")[1] if step.id.startswith("undo.") else step.id.partition(".")[0]
        lifted = [one for one in done if one.stage == step.stage and one.people not in ("", "1")
                  and (one.id.startswith(f"{device}.") or one.id.startswith(f"undo.{device}."))]  # fmt: skip
        yield from (f"{one.id} is done and {step.id} is not" for one in lifted)
    late = [step.id for step in order.steps if step.stage == "prove" and step.id not in ids]
    started = [step.id for step in done if step.stage == "power" and "supply" not in step.groups]
    if late and started:
        yield f"{started[0]} gives power and {late[0]} is not done"


def walked(plan: Plan, order: WorkOrder, closed: set[str]) -> set[str]:
    site = order.decided.house.site
    utility = {part.id for part in plan.installation.of_kind("utility")}
    fed = {zone for name, zone in site.sources.items() if name in utility}
    while True:
        more = {
            zone for gate in site.gates if gate.id in closed and {gate.a, gate.b} & fed for zone in (gate.a, gate.b)
        }
        if more <= fed:
            return fed
        fed |= more


def in_days(order: WorkOrder, day: CrewDay) -> Iterator[list[WorkStep]]:
    """Everything that is done at the end of each day but the last, in the order of its begins."""
    assert day.schedule is not None
    slots, done = day.schedule.slots, list[WorkStep]()
    steps = {step.id: step for step in order.steps}
    for visit in day.visits[:-1]:
        done = [*done, *(steps[id] for id in sorted(visit.steps, key=lambda one: slots[one].start))]
        yield done


LENGTHS = [(name, length) for name in DEMOS for length in ("8 h" if name == "cabinet" else "6 h", "9 h")]
"""Days of a crew; of the cabinet no work can be parted into days of 6 h: its inverter is changed in nearly 8 h."""


@pytest.mark.parametrize(("name", "length"), LENGTHS)
def test_no_night_leaves_anything_open_dark_hanging_or_untested(works: Works, name: str, length: str) -> None:
    hours = int(length.split()[0])
    split = 0
    for what, (plan, order) in works.items():
        if not what.startswith(f"{name},"):
            continue
        day = crew_day(plan, order, firm(length))
        assert day.schedule is not None and set(day.schedule.slots) == {step.id for step in order.steps}
        if day.too_long:
            assert day.visits == () and len(day.too_long) > 1, what
            assert any("belong together over a night" in each for each in for_crew(plan, order, day))
            continue
        assert sorted(id for visit in day.visits for id in visit.steps) == sorted(order.numbers), what
        assert all(visit.minutes <= hours * 60 for visit in day.visits), what
        for done in in_days(order, day):
            assert list(wrong(plan, order, done)) == [], what
            split += 1
        number = {id: place for place, visit in enumerate(day.visits) for id in visit.steps}
        for step in order.steps:
            start = day.schedule.slots[step.id].start
            assert start // DAY_MIN == (number[step.id] if len(day.visits) > 1 else 0), what
            assert all(day.schedule.slots[before].end <= start for before in step.after), what
    assert split


def test_a_night_at_a_wrong_place_would_be_seen(works: Works) -> None:
    """The walk finds a cover off, a dark circuit, a load half down and untested power where a night parts a block."""
    plan, order = works["one_wall, sound"]
    found = {each for count in range(1, len(order.steps)) for each in wrong(plan, order, order.steps[:count])}
    assert any(each.endswith("is off") for each in found) and any(each.endswith("is dark") for each in found)
    assert any("is done and" in each for each in found)
    plan, order = works["one_wall, installation"]
    found = {each for count in range(1, len(order.steps)) for each in wrong(plan, order, order.steps[:count])}
    assert any("gives power" in each for each in found)


def test_without_the_length_of_a_day_nobody_is_told_how_many(works: Works) -> None:
    for plan, order in works.values():
        day = crew_day(plan, order)
        assert day.visits == ()
        told = for_crew(plan, order, day)
        assert sum("day.length" in each for each in told) == 1
        assert not any(each.startswith("The work takes") for each in told)


def test_what_stays_locked_over_the_night_is_told_with_the_steps_of_each_day(works: Works) -> None:
    plan, order = works["one_wall, sound"]
    day = crew_day(plan, order, firm("9 h", 'start = "08:00"'))
    told = for_crew(plan, order, day)
    assert len(day.visits) == 2
    assert any(each.startswith("The work takes 2 days of at most 9 h 0 min") for each in told)
    night = next(each for each in told if each.startswith("Night after day 1"))
    assert "Battery 1 breaker" in night and "Battery 1 disconnect" in night and "battery switch of Battery 1" in night
    assert any(" on day 2: no power at" in each for each in for_owner(plan, order, day))
    assert moment(plan, day, DAY_MIN + 90) == "09:30 on day 2"
    bare = crew_day(plan, order, firm("9 h"))
    assert moment(plan, bare, DAY_MIN + 90) == "1 h 30 min after arrival on day 2"


@pytest.mark.parametrize("name", DEMOS)
def test_an_assessment_begins_a_day_that_nobody_knows_yet(works: Works, name: str) -> None:
    plan, order = works[f"{name}, damaged"]
    day = crew_day(plan, order, firm("24 h"))
    first, second = day.visits[:2]
    assert first.waits and second.steps[0] == ASSESSED and ASSESSED not in first.steps
    assert any("waits for somebody who is not of the crew" in each for each in for_crew(plan, order, day))
    assert first.night is not None and first.night.dark == () and first.night.locked


def test_ties_with_precedence_make_blocks() -> None:
    def step(id: str, *after: str) -> WorkStep:
        return WorkStep(id, "hang", id, after, "job")

    steps = [step("a"), step("b", "a"), step("c", "b"), step("d", "c"), step("e", "a")]
    assert blocks(steps, []) == [("a",), ("b",), ("c",), ("d",), ("e",)]
    assert blocks(steps, [("b", "d")]) == [("a",), ("b", "c", "d"), ("e",)]
    assert blocks(steps, [("a", "b"), ("b", "d")]) == [("a", "b", "c", "d"), ("e",)]


def test_spans_of_numbers_are_short(works: Works) -> None:
    _, order = works["one_wall, sound"]
    ids = {number: id for id, number in order.numbers.items()}
    assert numbered(order, [ids[3], ids[1], ids[2], ids[7]]) == "1–3, 7"
