"""Who has power while a damaged unit waits for its assessment: nobody of the house goes dark who need not."""

from collections.abc import Callable
from pathlib import Path

import pytest
from demo_jobs import DEMOS, Removed

from standfast.aftercare.making import ASSESSED, SUPPLY
from standfast.aftercare.supply import for_owner, supply_of, supply_step
from standfast.fieldwork.order.acts import Gate
from standfast.fieldwork.order.house import as_built
from standfast.fieldwork.plan import Plan
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


@pytest.mark.parametrize("name", DEMOS)
def test_every_circuit_keeps_its_power_while_the_unit_waits(removed: Removed, name: str) -> None:
    """Only the breakers of the unit are open then: what the grid feeds without it stays on."""
    made = removed(name, "damaged")
    assert made.supply is not None and made.supply.kept and made.supply.dark == ()
    ids = [each.id for each in made.steps]
    before = made.steps[: ids.index(ASSESSED)]
    turned = {turn.gate for each in before for turn in each.turns}
    parts = made.decided.house.site.gates
    assert turned and all(gate.endswith("/breaker") for gate in turned) and turned < {each.id for each in parts}
    assert {made.decided.house.called(gate) for gate in turned} == set(made.supply.opened)
    assert ids.index(SUPPLY) < ids.index(ASSESSED)
    assert removed(name, "sound").supply is None


def test_circuits_behind_the_island_switch_are_looked_at_and_told_to_be_without_reserve(removed: Removed) -> None:
    made = removed("one_wall", "damaged")
    assert made.supply is not None
    assert {each.panel for each in made.supply.backed} == {"Backup panel"} and made.supply.through == ("Island switch",)
    step = next(each for each in made.steps if each.id == SUPPLY)
    assert "Island switch" in step.text and "Refrigerator" in step.text and "No circuit of the house stays" in step.text
    assert step.readings[0].what == "Backup panel: its circuits have power"
    alone = removed("stack_outdoors", "damaged").supply
    assert alone is not None and alone.backed == () and alone.through == ()


def test_what_hangs_behind_the_unit_is_dark_and_told(plan_of: Callable[[str], Plan]) -> None:
    """A house whose island switch joins nothing without the unit's breaker: its circuits are dark, and say so."""
    plan = plan_of("one_wall")
    house = as_built(plan)
    through = "backup/island-switch"
    gates = tuple(each._replace(closed=False) if each.id == through else each for each in house.site.gates)
    assert any(isinstance(each, Gate) and each.id == through for each in gates)
    supply = supply_of(plan, house._replace(site=house.site._replace(gates=gates)))
    assert {each.panel for each in supply.dark} == {"Backup panel"} and supply.backed == ()
    step = supply_step(plan, supply)
    assert (
        "Dark until the supply comes back" in step.text
        and "nothing is plugged in to feed a panel backwards" in step.text
    )
    told = for_owner(plan, supply)
    assert any(each.startswith("Without power until the work is done") and "Refrigerator" in each for each in told)


def test_a_generator_of_the_house_is_told_to_stay_apart(removed: Removed) -> None:
    step = next(each for each in removed("many_sources", "damaged").steps if each.id == SUPPLY)
    assert "Generator inlet breaker" in step.text


def test_circuits_that_somebody_depends_on_are_settled_now(tmp_path: Path) -> None:
    from standfast.foreman.demo import write_demo

    folder = write_demo("one_wall", tmp_path / "house")
    text = (folder / "job.toml").read_text("utf-8")
    circuit = 'id = "refrigerator"\n'
    assert text.count(circuit) == 1
    (folder / "job.toml").write_text(text.replace(circuit, f'{circuit}sensitive = ["medical equipment"]\n'), "utf-8")
    plan = sitework(make_plan(folder, runner_up=False))
    step = supply_step(plan, supply_of(plan, as_built(plan)))
    assert any("Somebody depends on these" in each and "Refrigerator" in each for each in step.cautions)
