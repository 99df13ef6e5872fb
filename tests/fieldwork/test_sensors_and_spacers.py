"""A unit with a meter and a transport lock: safe as its steps stand, and each wait taken away is told."""

import pytest

from standfast.equipment.read import read, shipped
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

TABLES = """[[sensors]]
name = "meter transformers"
output = "current"
measures = "service"

[[temporary]]
name = "cell block lock"

"""
STEPS = """[[steps]]
id = "lock-out"
text = "Take the lock of the cell block out."
after = ["prove-dead"]
does = { change = "take out", to = "cell block lock" }

[[steps]]
id = "join-meter"
text = "Join the secondary of the transformers."
after = ["prove-dead"]
does = { change = "plug in", to = "meter transformers" }
touches = ["ac terminals"]

[[steps]]
id = "fit-meter"
text = "Fit the transformers round the conductors."
after = ["join-meter"]
does = { change = "put in", to = "meter transformers" }

"""


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return sitework(make_plan(write_demo("one_wall", tmp_path_factory.mktemp("job"))))


def ordered(plan: Plan, old: str = "", new: str = "", steps: str = STEPS) -> WorkOrder:
    text = shipped()["demo-wall-10"]
    text = text.replace("[[gates]]", f"{TABLES}[[gates]]", 1).replace("[[steps]]", f"{steps}[[steps]]", 1)
    text = text.replace('after = ["wire-lines"]', 'after = ["wire-lines", "join-meter", "lock-out"]')
    assert not old or text.count(old) == 1
    found = read(text.replace(old, new) if old else text, "x.toml")
    assert found.faults == [] and found.sheet is not None
    return work_order(plan._replace(sheets={**plan.sheets, "battery": found.sheet}))


def test_as_its_steps_stand_every_order_is_safe(plan: Plan) -> None:
    order = ordered(plan)
    assert order.unsafe == ()
    assert order.decided.house.site.sensors and order.decided.house.site.temporary


def test_a_secondary_that_may_be_joined_last_is_told(plan: Plan) -> None:
    join, fit = STEPS.index('id = "join-meter"'), STEPS.index('id = "fit-meter"')
    late = STEPS[join:fit].replace('after = ["prove-dead"]', 'after = ["fit-meter"]')
    early = STEPS[fit:].replace('after = ["join-meter"]', 'after = ["prove-dead"]')
    (told,) = ordered(plan, steps=STEPS[:join] + late + early).unsafe
    assert "open secondary of a current transformer" in told and "meter transformers" in told


@pytest.fixture(scope="module")
def cabinet(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return sitework(make_plan(write_demo("cabinet", tmp_path_factory.mktemp("cabinet"))))


def of_inverter(plan: Plan, *changes: tuple[str, str]) -> WorkOrder:
    text = shipped()["demo-inverter-48"]
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    found = read(text, "x.toml")
    assert found.faults == [] and found.sheet is not None
    return work_order(plan._replace(sheets={**plan.sheets, "inverter": found.sheet}))


def test_a_current_transformer_keeps_its_shorting_link_until_its_secondary_is_joined(cabinet: Plan) -> None:
    order = work_order(cabinet)
    (sensor,) = order.decided.house.site.sensors
    assert sensor.shorting in order.decided.house.site.temporary and order.unsafe == ()
    place = order.numbers
    assert place["inverter-1.join-meter"] < place["inverter-1.links-out"] < place["inverter-1.close-cover"]


def test_a_link_that_may_be_out_before_the_secondary_is_joined_is_told(cabinet: Plan) -> None:
    joined = 'after = ["wire-battery"]\ntools = ["small screwdriver"]'
    late = of_inverter(
        cabinet,
        (joined, joined.replace("wire-battery", "fit-meter")),
        ('after = ["join-meter"]', 'after = ["wire-ac-lines"]'),
        ('after = ["links-out"]', 'after = ["links-out", "join-meter"]'),
    )
    assert any("open secondary of a current transformer" in each for each in late.unsafe)


def test_a_shorting_link_that_is_no_part_of_the_sheet_is_a_fault() -> None:
    text = shipped()["demo-inverter-48"].replace('shorting = "shorting links"', 'shorting = "bridge"')
    assert ['"bridge" shorts' in each.what for each in read(text, "x.toml").faults] == [True]


def test_where_it_gives_voltage_any_order_will_do(plan: Plan) -> None:
    order = ordered(plan, 'output = "current"', 'output = "voltage"')
    assert order.unsafe == () and order.decided.house.site.sensors == ()


def test_what_is_opened_again_is_listed_with_steps_that_come_later_or_prove(plan: Plan) -> None:
    order = ordered(plan)
    opened = "battery-1.wire-lines"
    again = order.redo[opened]
    assert {"battery-1.prove-dead", "battery-1.close-cover", "job.closed-tests", "job.check", "job.live-tests",
            "job.handover"} <= set(again)  # fmt: skip
    assert all(step in order.numbers for step in again) and opened not in again


@pytest.mark.parametrize(
    ("step", "before", "why"),
    [
        ("job.check", "job.closed-tests", "before its turn"),
        ("job.restore", "job.check", "fed before its test"),
        ("job.live-tests", "battery-1.battery-on", "before its turn"),
        ("job.live-tests", "job.settings", "before its turn"),
        ("job.handover", "job.live-tests", "before its turn"),
        ("battery-1.close-cover", "battery-1.wire-lines", "joint not tight"),
    ],
)
def test_waits_of_the_job_itself_are_missed_where_they_are_taken_away(
    plan: Plan, step: str, before: str, why: str
) -> None:
    order = work_order(plan)
    weak = [
        each._replace(after=("job.dead", *(id for id in each.after if id != before and not _alive(step, id))))
        if each.id == step
        else each
        for each in order.steps
    ]
    assert before in next(each.after for each in order.steps if each.id == step)
    assert why in {each.why for each in proven(order.decided.house.site, acts_of(weak))}


def _alive(step: str, id: str) -> bool:
    """Every step that starts the unit, of which the last waits for the others; and fronts, which wait for the tests."""
    begins = {"job.live-tests": ("battery-1.", "job.settings"), "job.check": ("job.front-on-",)}
    return step in begins and id.startswith(begins[step])
