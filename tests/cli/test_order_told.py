"""The order of the work as data and as text: safe for every demo, and told where a data sheet lets hands meet power."""

from pathlib import Path

import pytest
from calling import Call
from test_answers import checked

from standfast.equipment.read import shipped
from standfast.foreman.demo import write_demo

DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet", "many_sources", "terrace", "verandah")


@pytest.mark.parametrize("name", DEMOS)
def test_every_demo_is_safe_in_every_order_and_follows_the_schema(call: Call, tmp_path: Path, name: str) -> None:
    found = call("order", write_demo(name, tmp_path / name), "--json")
    assert (found.code, found.err) == (0, "")
    data = checked("order", found.out)
    assert data["unsafe"] == [] and len(data["steps"]) > 40
    assert all(before < step["number"] for step in data["steps"] for before in step["after"])
    turned = {turn["switch"] for step in data["steps"] for turn in step["turns"]}
    assert turned <= {each["name"] for each in data["switches"]} and len(turned) > 3


def test_terminals_that_no_step_proves_dead_are_told_with_the_order(call: Call, demo: Path) -> None:
    sheet = shipped()["demo-wall-10"]
    proof = 'does = { change = "prove dead", to = "ac terminals" }'
    assert sheet.count(proof) == 1
    (demo / "sheets").mkdir(exist_ok=True)
    (demo / "sheets" / "demo-wall-10.toml").write_text(sheet.replace(proof, ""), "utf-8")
    told = call("order", demo, "--json")
    data = checked("order", told.out)
    assert told.code == 1
    texts = {each["text"] for each in data["unsafe"]}
    wired = ("Connect the equipment grounding conductor.", "Connect the neutral.", "Connect L1 and L2.")
    assert {f"Battery 1: {each}" for each in wired} <= texts
    for each in data["unsafe"]:
        assert (each["why"], each["order"][-1], each["mended_by"]) == ("not proved dead", each["step"], [])
    text = call("order", demo)
    assert text.code == 1 and "UNSAFE" in text.out and "no extra wait mends it" in text.out
