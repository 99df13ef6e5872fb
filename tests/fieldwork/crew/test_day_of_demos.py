"""The crew's day of the demo jobs, for one and two people: every rule kept, and the time without power walked minute by
minute in another way."""

from collections.abc import Iterator

import pytest
from day_work import flaws

from standfast.fieldwork.crew.day import CrewDay, crew_day
from standfast.fieldwork.crew.notice import for_crew, for_owner
from standfast.fieldwork.crew.pace import electrical
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.reading.quantities import Table
from standfast.survey.firm import Firm, read
from standfast.survey.read import Survey

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet", "many_sources", "terrace", "verandah")
FIRM = """
schema = 1
[firm]
name = "Invented Electric"
invented = true
[[people]]
id = "ann"
name = "Ann"
role = "helper"
[[people]]
id = "ben"
name = "Ben"
role = "licensed electrician"
[[people]]
id = "cleo"
name = "Cleo"
role = "apprentice"
electrical = true
"""

Made = tuple[Plan, WorkOrder]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Made]:
    found = {}
    for name in DEMOS:
        site = sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name)), runner_up=False))
        found[name] = (site, work_order(site))
    return found


def with_words(plan: Plan, **tables: Table) -> Plan:
    """The plan of a job with some tables of its file replaced."""
    old = plan.survey
    content = old.content.model_copy(update=tables)
    return plan._replace(survey=Survey(old.file, content, old.index, old.unknown, old.raw))


def lifters(plan: Plan, count: int | None) -> Plan:
    return with_words(plan, handling=plan.survey.job.handling.model_copy(update={"crew": count}))


def named(plan: Plan, *people: str) -> Plan:
    return with_words(plan, contractor=plan.survey.job.contractor.model_copy(update={"people": people}))


def sensitive(plan: Plan, circuit: str, *what: str) -> Plan:
    panels = tuple(
        panel.model_copy(update={"circuits": tuple(
            each.model_copy(update={"sensitive": what}) if each.id == circuit else each for each in panel.circuits
        )}) for panel in plan.survey.job.panels
    )  # fmt: skip
    assert any(each.sensitive for panel in panels for each in panel.circuits)
    old = plan.survey
    content = old.content.model_copy(update={"panels": panels})
    return plan._replace(survey=Survey(old.file, content, old.index, old.unknown, old.raw))


def firm(*more: str) -> Firm:
    found = read(FIRM + "\n".join(more), "firm.toml")
    assert found.firm is not None and found.faults == []
    return found.firm.firm


def dark(plan: Plan, order: WorkOrder, day: CrewDay) -> dict[str, set[int]]:
    """Minutes in which each circuit has no power, walked minute by minute over gates and zones."""
    assert day.schedule is not None
    site, slots = order.decided.house.site, day.schedule.slots
    utility = {part.id for part in plan.installation.of_kind("utility")}
    found: dict[str, set[int]] = {load.id: set() for load in day.loads}
    for minute in range(day.schedule.minutes):
        closed = {gate.id for gate in site.gates if gate.closed}
        for step in sorted(day.steps, key=lambda one: slots[one.id].start):
            begun, done = slots[step.id].start <= minute, slots[step.id].end <= minute
            for turn in step.turns:
                if turn.change == "open" and begun:
                    closed.discard(turn.gate)
                if turn.change == "close" and done:
                    closed.add(turn.gate)
        fed, grown = {site.sources[name] for name in site.sources if name in utility}, True
        while grown:
            more = {zone for gate in site.gates if gate.id in closed for zone in (gate.a, gate.b)
                    if {gate.a, gate.b} & fed} - fed  # fmt: skip
            fed, grown = fed | more, bool(more)
        for load in day.loads:
            moved = load.move and slots[load.move].end <= minute
            if (load.new if moved else load.home) not in fed:
                found[load.id].add(minute)
    return found


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("name", DEMOS)
def test_the_day_keeps_precedence_people_and_licences(made: dict[str, Made], name: str, count: int) -> None:
    plan, order = made[name]
    day = crew_day(lifters(plan, count), order)
    assert day.schedule is not None and set(day.schedule.slots) == {step.id for step in order.steps}
    tasks = [day.times[step.id].task for step in order.steps]
    assert flaws(tasks, day.hands.crew, day.schedule) == []
    assert [task.after for task in tasks] == [step.after for step in order.steps]
    assert day.schedule.least <= day.shortest == day.schedule.minutes
    assert day.schedule.minutes <= 1.1 * day.schedule.least


@pytest.mark.parametrize("name", DEMOS)
def test_what_reaches_into_conductors_is_electrical_work(made: dict[str, Made], name: str) -> None:
    for step in made[name][1].steps:
        if step.hands or step.turns or step.proves:
            assert electrical(step), step.id


@pytest.mark.parametrize("name", DEMOS)
def test_the_time_without_power_is_that_of_the_walk(made: dict[str, Made], name: str) -> None:
    plan, order = made[name]
    day = crew_day(plan, order)
    told: dict[str, set[int]] = {load.id: set() for load in day.loads}
    for each in day.off:
        told[each.load] |= set(range(each.start, each.end))
    assert told == dark(plan, order, day)
    assert day.off and all(each.end - each.start >= day.least_off > 0 for each in day.off)


@pytest.mark.parametrize("name", DEMOS)
def test_the_house_is_off_no_longer_than_with_any_other_schedule_of_that_day(made: dict[str, Made], name: str) -> None:
    from standfast.fieldwork.crew.off import Outage, loads_of
    from standfast.fieldwork.crew.solve import schedule

    plan, order = made[name]
    day = crew_day(plan, order)
    utility = {part.id for part in plan.installation.of_kind("utility")}
    outage = Outage(order.decided.house, utility, order.steps, loads_of(plan, order.decided.house, order.steps))
    other = outage.windows(schedule([each.task for each in day.times.values()], day.hands.crew).slots)
    assert sum(each.end - each.start for each in day.off) <= sum(each.end - each.start for each in other)


def test_minutes_are_counted_by_what_there_is_to_do(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    times = crew_day(plan, order).times
    assert times["job.scan"].task.minutes == 6 * 3
    assert times["battery-1.drill"].task.minutes == 6 * 8
    assert times["job.labels"].task.minutes == 3 * len(plan.labels)
    assert times["job.labels"].ground == "common practice"
    assert times["battery-1.ac-on"].task.wait >= 1  # an indication takes its time and nobody's hands
    ours = firm("[minutes]", 'label = "90 s"', 'scan = "1 min"')
    faster = crew_day(named(plan, "ben", "ann"), order, ours).times
    assert faster["job.labels"].task.minutes == -(-3 * len(plan.labels) // 2)
    assert (faster["job.scan"].task.minutes, faster["job.scan"].ground) == (6, "firm file")


def test_a_missing_length_is_told_and_not_counted(made: dict[str, Made]) -> None:
    from standfast.sheet import missing

    plan, order = made["one_wall"]
    runs = [run._replace(length=missing("L", "ft", "measure it")) for run in plan.runs]
    day = crew_day(plan._replace(runs=runs), order)
    assert {id for id, each in day.times.items() if each.unknown} == {
        "job.pull",
        *(f"job.run-{run.id}" for run in runs),
    }
    told = for_crew(plan, order, day)
    assert sum("whose amount is not known" in each for each in told) == 1 + len(runs)


def test_people_are_those_of_the_firm_file(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    day = crew_day(named(plan, "ann", "ben"), order, firm())
    assert (day.hands.names, day.hands.crew, day.hands.told) == (("Ben", "Ann"), (1, 1), ())
    assert crew_day(named(plan, "cleo"), order, firm()).hands.crew == (1, 0)
    unable = crew_day(named(plan, "ann"), order, firm())
    assert unable.schedule is None and "electrical work" in for_crew(plan, order, unable)[0]
    unknown = lifters(plan, None)
    assert "handling.crew" in for_crew(unknown, order, crew_day(unknown, order))[0]


def test_one_person_is_told_when_a_second_has_to_come(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    alone = lifters(plan, 1)
    told = for_crew(alone, order, crew_day(alone, order))
    lift = order.numbers["battery-1.hang"]
    assert any(each.startswith(f"Step {lift} takes 2 people and the crew has 1") for each in told)
    assert any(each.startswith("Nobody works alone with a panel open.") for each in told)
    both = for_crew(plan, order, crew_day(plan, order))
    assert not any("has to come" in each or "works alone" in each or "comes to help" in each for each in both)


def test_each_person_locks_and_takes_part_where_locks_go_on_and_off(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    day = crew_day(plan, order)
    assert day.schedule is not None
    for step in order.steps:
        if any(turn.change in ("lock", "unlock") for turn in step.turns):
            assert len(day.schedule.slots[step.id].people) == 2, step.id


def test_a_break_moves_everything_behind_it(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    rules = ("[day]", 'start = "08:00"', "[[day.breaks]]", 'after = "4 h"', 'length = "30 min"')
    people = named(plan, "ben", "ann")
    bare, ours = crew_day(people, order, firm()), crew_day(people, order, firm(*rules))
    assert (ours.schedule, ours.minutes) == (bare.schedule, bare.minutes + 30)
    assert [ours.at(minute) for minute in (239, 240, 241)] == [239, 270, 271]
    assert ours.at(240, end=True) == 240
    told = for_crew(people, order, ours)
    assert any(each.startswith("How many days the work takes cannot be told") for each in told)
    assert any("A break begins" in each for each in told)
    assert any(each.startswith("12:45 to ") for each in for_owner(people, order, ours))


def test_the_owner_is_told_of_what_somebody_depends_on(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    asked = for_owner(plan, order, crew_day(plan, order))
    assert asked[0].startswith("Ask before the day whether anybody in the house depends on medical equipment")
    known = sensitive(plan, "bedrooms", "medical equipment", "internet")
    told = for_owner(known, order, crew_day(known, order))
    assert "Nothing is switched off before" in told[0]
    assert any("mobile telephone" in each for each in told)
    assert not any(each.startswith("Ask before the day") for each in told)
    assert any("no power in the whole house" in each for each in told)
    assert any("The utility is not needed" in each for each in told)


def test_the_utility_is_asked_where_no_switch_of_the_house_parts_it(made: dict[str, Made]) -> None:
    plan, order = made["one_wall"]
    name = next(part.name for part in plan.installation.of_kind("utility"))
    live = order._replace(isolations=tuple(each._replace(live=(name,)) for each in order.isolations))
    told = for_owner(plan, live, crew_day(plan, live))
    assert any(each.startswith("The utility has to part the house") for each in told)
    assert "Ask it how long ahead it wants to know." in told
    visit = plan.survey.job.visit.model_copy(update={"utility_notice": "three working days"})
    noticed = with_words(plan, visit=visit)
    assert any("three working days" in each for each in for_owner(noticed, live, crew_day(noticed, live)))


def test_a_circuit_is_off_for_less_where_the_day_may_grow(made: dict[str, Made]) -> None:
    for name in DEMOS:
        plan, order = made[name]
        alone = named(plan, "ben")
        short = crew_day(alone, order, firm())
        long = crew_day(alone, order, firm("[day]", 'longer = "2 h"'))
        assert short.schedule is not None and long.schedule is not None
        assert long.schedule.minutes <= short.schedule.minutes + 120
        assert _off(long) <= _off(short)


def _off(day: CrewDay) -> int:
    return sum(each.end - each.start for each in day.off)


def steps_between(day: CrewDay) -> Iterator[str]:
    """Steps that lie between the first switch and power."""
    assert day.schedule is not None
    start, end = min(each.start for each in day.off), max(each.end for each in day.off)
    yield from (id for id, slot in day.schedule.slots.items() if start <= slot.start and slot.end <= end)


def test_what_can_be_done_before_the_switch_is_done_before_it(made: dict[str, Made]) -> None:
    """For one person nothing is done while the house is off that could be done before or after."""
    plan, order = made["terrace"]
    day = crew_day(named(plan, "ben"), order, firm("[day]", 'longer = "60 min"'))
    assert "job.labels" not in set(steps_between(day))
    assert max(each.end - each.start for each in day.off) <= 1.05 * day.least_off
