"""Material of a new pad, and of the runs from a battery through its fuse block to the inverter."""

from pathlib import Path

import pytest

from standfast.fieldwork.materials import materials
from standfast.fieldwork.plan import Plan
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


def changed(folder: Path, demo: str, *swaps: tuple[str, str]) -> Plan:
    job = write_demo(demo, folder) / "job.toml"
    text = job.read_text("utf-8")
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    job.write_text(text, "utf-8")
    return sitework(make_plan(job.parent))


def test_the_concrete_of_a_new_pad_is_ordered_and_that_of_one_that_is_there_is_not(tmp_path: Path) -> None:
    new = materials(changed(tmp_path / "new", "stack_outdoors")).of("fixing")
    concrete = next(row for row in new if row.what.startswith("Concrete of 2500 psi"))
    # 7 ft × 3-1/2 ft × 8 in of at least 135 lb/ft3.
    assert concrete.quantity.quantity == pytest.approx(135 * 7 * 3.5 * 8 / 12)
    assert any(row.amount == "by the drawing of the pad" for row in new)
    there = changed(
        tmp_path / "old", "stack_outdoors", ('doweled = false\nstate = "new"', 'doweled = false\nstate = "existing"')
    )
    assert not any("Concrete of" in row.what or "Bars" in row.what for row in materials(there).rows)


def test_both_ends_of_every_run_through_the_fuse_block_are_counted(tmp_path: Path) -> None:
    plan = changed(tmp_path, "cabinet")
    runs = {run.id: run for run in plan.runs}
    assert runs["dc-battery"].ends == ("unit", "disconnect")
    assert runs["dc-fuse"].ends == ("disconnect", "disconnect")
    assert runs["dc-inverter"].ends == ("disconnect", "unit")
    assert runs["dc-battery"].name == "Battery 1 – Battery 1 DC fuse"
    rows = materials(plan).of("raceway")
    for id in ("dc-battery", "dc-fuse", "dc-inverter"):
        (row,) = [row for row in rows if "onnector" in row.what and row.use == runs[id].name]
        assert row.quantity.quantity == 2
    blocks = [row for row in materials(plan).of("switchgear") if "block for two poles" in row.what]
    assert [row.quantity.quantity for row in blocks] == [1]
