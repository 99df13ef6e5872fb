"""Service: safe in every order, everything that was opened closed again, nothing of the house opened."""

from collections.abc import Callable

import pytest
from demo_jobs import DEMOS

from standfast.aftercare.day import of_service
from standfast.aftercare.removal import built
from standfast.aftercare.service import WHATS, Service, What, possible, service
from standfast.faults import NotInEdition
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import work_order

PARTS: dict[What, tuple[str, ...]] = {
    "module": ("stack_outdoors", "cabinet"), "head": ("stack_outdoors",), "inverter": ("stack_outdoors", "cabinet"),
    "unit": DEMOS, "firmware": DEMOS,
}  # fmt: skip
CASES = [(name, what) for what in WHATS for name in PARTS[what]]


def left(made: Service) -> dict[str, tuple[bool, bool]]:
    """Every switch after the service: closed, locked."""
    found = {gate.id: (gate.closed, gate.locked) for gate in made.decided.house.site.gates}
    for each in made.steps:
        for turn in each.turns:
            closed, locked = found[turn.gate]
            closed = {"open": False, "close": True}.get(turn.change, closed)
            found[turn.gate] = (closed, {"lock": True, "unlock": False}.get(turn.change, locked))
    return found


@pytest.mark.parametrize(("name", "what"), CASES)
def test_every_order_is_safe_and_all_is_as_before(plan_of: Callable[[str], Plan], name: str, what: What) -> None:
    made = service(plan_of(name), what)
    assert made.decided.unsafe == ()
    assert set(left(made).values()) == {(True, False)}
    covers: dict[str, bool] = {}
    for each in made.steps:
        covers |= {each.takes_off: False} if each.takes_off else {}
        covers |= {each.puts_on: True} if each.puts_on else {}
    assert all(on for cover, on in covers.items() if cover not in made.decided.house.site.temporary)
    assert made.steps[-1].id == "in.end" and "in.live" in {each.id for each in made.steps}


@pytest.mark.parametrize(("name", "what"), [each for each in CASES if each[1] != "firmware"])
def test_no_panel_of_the_house_is_opened(plan_of: Callable[[str], Plan], name: str, what: What) -> None:
    plan = plan_of(name)
    own = {device.id for device in plan.devices} | {part.id for part in plan.installation.of_kind("array")}
    turned = {turn.gate.partition("/")[0] for each in service(plan, what).steps for turn in each.turns}
    assert turned and turned <= own


def test_what_comes_after_the_part_is_undone_and_done_again(plan_of: Callable[[str], Plan]) -> None:
    made = [each.id for each in service(plan_of("stack_outdoors"), "head").steps]
    assert made.index("undo.battery-1.head") < made.index("in.new") < made.index("battery-1.head")
    assert "undo.battery-1.stack-modules" not in made and "battery-1.stack-modules" not in made
    assert made.index("battery-1.close-cover") < made.index("in.tests") < made.index("battery-1.battery-on")


def test_only_one_of_two_units_is_switched_off(plan_of: Callable[[str], Plan]) -> None:
    turned = {turn.gate for each in service(plan_of("detached_pair"), "unit").steps for turn in each.turns}
    assert turned and all(gate.startswith("battery-1/") for gate in turned)


def test_firmware_opens_nothing_and_reads_back(plan_of: Callable[[str], Plan]) -> None:
    made = service(plan_of("one_wall"), "firmware")
    assert not any(each.turns or each.touches for each in made.steps)
    texts = [each.text for each in made.steps]
    assert texts.index(next(each for each in texts if each.startswith("Before the update"))) < texts.index(
        next(each for each in texts if each.startswith("Read every setting back"))
    )


def test_a_part_that_is_not_there_is_refused(plan_of: Callable[[str], Plan]) -> None:
    with pytest.raises(NotInEdition, match="head as a part of its own"):
        service(plan_of("one_wall"), "head")


@pytest.mark.parametrize("name", DEMOS)
def test_every_service_that_is_possible_is_safe_for_every_unit(plan_of: Callable[[str], Plan], name: str) -> None:
    plan = plan_of(name)
    found = possible(plan)
    assert {unit for what, unit in found if what == "unit"} == {each.id for each in plan.of_role("battery")}
    assert ("firmware", "") in found
    for what, unit in found:
        made = service(plan, what, unit)
        assert made.decided.unsafe == () and set(left(made).values()) == {(True, False)}, (what, unit)
        assert [each.id for each in made.units] == [unit] if unit else len(made.units) == len(plan.devices)


def test_the_second_unit_is_served_and_the_first_left_alone(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("detached_pair")
    made = service(plan, "unit", "battery-2")
    turned = {turn.gate for each in made.steps for turn in each.turns}
    assert turned and all(gate.startswith("battery-2/") for gate in turned)
    assert [each.name for each in service(plan, "firmware", "battery-2").units] == ["Battery 2"]


def test_a_unit_that_is_not_there_or_of_another_kind_is_refused_by_name(plan_of: Callable[[str], Plan]) -> None:
    with pytest.raises(NotInEdition, match="units of this job are battery-1, battery-2"):
        service(plan_of("detached_pair"), "unit", "battery-3")
    with pytest.raises(NotInEdition, match="inverter-1 is another kind of unit; it can be of battery-1"):
        service(plan_of("stack_outdoors"), "module", "inverter-1")


def test_groups_of_a_service_come_in_their_order(plan_of: Callable[[str], Plan]) -> None:
    """Dead tests, then power, settings, functional tests, the end: told where the plan is turned round."""
    from standfast.fieldwork.order.from_steps import acts_of
    from standfast.fieldwork.order.sequence import out_of_sequence

    made = service(plan_of("stack_outdoors"), "head")
    site = made.decided.house.site
    assert out_of_sequence(site, made.decided.acts) == []
    early = [each._replace(after=()) if each.id == "in.live" else each for each in made.steps]
    assert "before its turn" in {each.why for each in out_of_sequence(site, acts_of(early))}


@pytest.mark.parametrize("what", ["module", "head", "unit"])
def test_the_battery_is_read_before_anything_behind_it_closes(plan_of: Callable[[str], Plan], what: What) -> None:
    plan = plan_of("stack_outdoors")
    made, order = service(plan, what), of_service(built(plan), service(plan, what))
    assert order.done_at["T7"] == "in.closed"
    closed, numbers = made.numbers["in.closed"], made.numbers
    assert numbers["battery-1.battery-on"] < closed < numbers["back.ac-inverter-1"]
    assert "T7" in made.steps[closed - 1].text


def test_strings_are_read_where_they_are_joined_and_what_shows_is_timed_there(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("stack_outdoors")
    order = of_service(built(plan), service(plan, "inverter"))
    assert (order.done_at["T7"], order.done_at["T8"]) == ("in.closed", "back.strings-roof-array")
    assert order.numbers["back.battery-1"] < order.numbers["in.closed"] < order.numbers["back.strings-roof-array"]
    module = of_service(built(plan), service(plan, "module"))
    timed = next(each for each in module.steps if each.id == "back.ac-inverter-1")
    assert module.done_at["T11"] == timed.id and "T11" in timed.indication


@pytest.mark.parametrize("name", ["stack_outdoors", "cabinet"])
def test_a_fuse_closes_on_a_battery_that_was_read(plan_of: Callable[[str], Plan], name: str) -> None:
    numbers = service(plan_of(name), "inverter").numbers
    behind = [numbers[id] for id in numbers if id.startswith(("back.dc-", "back.strings-"))]
    assert behind and numbers["back.battery-1"] < numbers["in.closed"] < min(behind)


def test_a_brace_stays_on_its_wall_unless_the_whole_unit_goes(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("stack_outdoors")
    module, unit = ({each.id: each for each in service(plan, what).steps} for what in ("module", "unit"))
    assert "undo.battery-1.brace.off" not in module and "undo.battery-1.brace" in module
    assert module["battery-1.brace"].cautions[0].endswith("look at its screws and leave them.")
    off = unit["undo.battery-1.brace.off"]
    assert "close its holes" not in off.text and off.tools == ("1/2 in hex socket",)
    assert "leave them" not in " ".join(unit["battery-1.brace"].cautions)


@pytest.mark.parametrize("name", ["detached_pair", "stack_outdoors", "cabinet"])
def test_what_the_job_did_behind_the_covers_is_done_again(plan_of: Callable[[str], Plan], name: str) -> None:
    plan = plan_of(name)
    asked = {f"job.{word}-battery-1" for word in ("join-shutdown", "link", "seal")} & set(work_order(plan).numbers)
    made = service(plan, "unit", "battery-1")
    cover = min(made.numbers[each.id] for each in made.steps if each.puts_on and each.source == "data sheet")
    assert {"job.link-battery-1", "job.seal-battery-1"} <= asked
    assert all(made.numbers["in.new"] < made.numbers[id] < cover for id in asked)


@pytest.mark.parametrize("name", ["stack_outdoors", "cabinet"])
def test_whoever_handles_a_transformer_on_live_conductors_is_told(plan_of: Callable[[str], Plan], name: str) -> None:
    steps = {each.id: each for each in service(plan_of(name), "inverter").steps}
    told = "this order leaves live"
    for id in ("undo.inverter-1.fit-meter", "inverter-1.fit-meter"):
        assert any(told in each for each in steps[id].cautions), id
    assert not any(told in each for each in steps["inverter-1.join-meter"].cautions)
