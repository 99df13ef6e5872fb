"""Remedies of what holds units: each is written into the invented job of the stack outdoors, and clears its check."""

from importlib import resources
from pathlib import Path

import pytest

from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import remedied
from standfast.survey.write import put

STACK = resources.files("standfast.foreman").joinpath("demos", "stack_outdoors", "job.toml").read_text("utf-8")
WALL = ("walls", 0)
FOOTING = (*WALL, "footing")
THING = (*WALL, "obstacles", 2)


def planned(folder: Path, *changes: tuple[tuple[str | int, ...], str | bool]) -> JobPlan:
    text = STACK
    for path, value in changes:
        text = put(text, path, value)
    (folder / "job.toml").write_text(text, "utf-8")
    return make_plan(folder)


@pytest.mark.parametrize(
    ("path", "value", "id", "says"),
    [
        ((*FOOTING, "kind"), "pavers", "footing-carries/battery-1/foot", "cast a concrete pad"),
        ((*FOOTING, "thickness"), "4 in", "pad-slides/battery-1/foot", "cast the pad 6 in thick"),
        ((*THING, "left"), "25 ft 6 in", "every-hole-in-a-stud/inverter-1", "hang the inverter 3-3/4 in left"),
        (("equipment", "base_anchor"), "demo-anchor-3-8", "maker-fastener/battery-1/foot", "choose another anchor"),
        (
            ("equipment", "inverter_fastener"),
            "demo-screw-10",
            "maker-fastener/inverter-1",
            "choose another fastener",
        ),
    ],
)
def test_what_does_not_hold_has_a_way_out_that_clears_it(
    path: tuple[str | int, ...], value: str | bool, id: str, says: str, tmp_path: Path
) -> None:
    before = planned(tmp_path, (path, value))
    check = before.ledger[f"anchorage.{id}"]
    assert check.open
    plan = remedied(before, {check.id})
    remedy = next(each for each in plan.remedies if check.id in each.clears)
    assert remedy.change.says.startswith(says)
    after = planned(tmp_path, (path, value), *((word.path, word.plain) for word in remedy.change.words))  # type: ignore[misc]
    assert not after.ledger[check.id].open
    assert {each.id for each in after.ledger.open} < {each.id for each in before.ledger.open}


def test_a_pad_that_is_there_is_tied_to_the_house(tmp_path: Path) -> None:
    there = (((*FOOTING, "thickness"), "4 in"), ((*FOOTING, "state"), "existing"))
    plan = remedied(planned(tmp_path, *there), {"anchorage.pad-slides/battery-1/foot"})
    (remedy,) = [each for each in plan.remedies if "anchorage.pad-slides/battery-1/foot" in each.clears]
    assert remedy.change.says.startswith("tie the pad")
