"""What is said before anybody drills, also where no hole was worked out."""

from pathlib import Path

from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


def test_dust_of_a_brick_wall_is_told_where_the_makers_template_places_the_holes(tmp_path: Path) -> None:
    plan = sitework(make_plan(write_demo("verandah", tmp_path)))
    order = work_order(plan)
    dust = next(step for step in order.steps if step.id == "job.dust")
    assert plan.held == () or not order.holes.holes
    assert any("silica" in each for each in dust.cautions)
    assert "smoke detector" in dust.text
    assert any("Children and animals" in rule for rule in order.rules)
    assert any("ladder" in rule for rule in order.rules)
