"""A switch on a side that the job joins to nothing is told where it is turned; one that is joined is not."""

from pathlib import Path

import pytest

from standfast.design.installation.graph import Installation
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.unjoined import joined
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


@pytest.fixture(scope="module")
def stack(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return sitework(make_plan(write_demo("stack_outdoors", Path(tmp_path_factory.mktemp("job")))))


def without_arrays(plan: Plan) -> Plan:
    graph = plan.installation
    gone = {part.id for part in graph.of_kind("array")}
    parts = [part for part in graph.parts.values() if part.id not in gone]
    links = [link for link in graph.links if link.a not in gone and link.b not in gone]
    runs = tuple(run for run in plan.runs if not gone & set(run.parts))
    return plan._replace(installation=Installation(parts, links), runs=runs)


def told(steps: tuple[WorkStep, ...]) -> set[str]:
    return {each.id for each in steps if any("joins nothing" in caution for caution in each.cautions)}


def test_every_side_of_the_demo_is_joined(stack: Plan) -> None:
    (inverter,), (battery,) = stack.of_role("inverter"), stack.of_role("battery")
    assert joined(stack, inverter) == {"ac", "dc", "pv"}
    assert joined(stack, battery) == {"cells", "dc"}
    assert told(work_order(stack).steps) == set()


def test_without_an_array_each_turn_of_the_pv_switch_tells_it(stack: Plan) -> None:
    dark = without_arrays(stack)
    (inverter,) = dark.of_role("inverter")
    assert joined(dark, inverter) == {"ac", "dc"}
    turned = {
        f"{inverter.id}.{step.id}"
        for step in inverter.sheet.steps
        if step.does is not None and step.does.to == "PV switch"
    }
    order = work_order(dark)
    assert turned and told(order.steps) == turned
    assert order.unsafe == ()


def test_a_unit_with_its_inverter_inside_has_an_ac_side(plan: Plan) -> None:
    (battery,) = plan.of_role("battery")
    assert joined(plan, battery) >= {"cells", "ac"}
