"""Nobody is told to buy other equipment for a fact that is not known."""

from pathlib import Path

import tomli
import tomlkit

from standfast.equipment.read import shipped
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import make_plan
from standfast.foreman.remedies import remedied


def test_a_silent_sheet_is_asked_and_not_exchanged(tmp_path: Path) -> None:
    folder = write_demo("one-wall", tmp_path)
    sheet = tomli.loads(shipped()["demo-wall-10"])
    sheet["body"]["mass"] = "135 kg"  # six screws hold it, four would not: the maker must say which carry
    sheet["listing"] = [each for each in sheet["listing"] if each["standard"] != "UL 1741"]
    (folder / "sheets").mkdir()
    (folder / "sheets" / "demo-wall-10.toml").write_text(tomlkit.dumps(sheet), "utf-8")
    plan = remedied(make_plan(folder))
    untold = {check.id for check in plan.ledger if check.verdict == "cannot tell"}
    assert {"anchorage.wood-lateral/battery-1", "wiring.listing-interactive/battery-1"} <= untold
    for check in plan.ledger:
        if check.verdict == "cannot tell":
            assert not any("equipment." in remedy for remedy in check.remedies), check.id
    for remedy in plan.remedies:
        if any(word.path[0] == "equipment" and word.path[1] != "quantity" for word in remedy.change.words):
            assert not untold & set(remedy.clears)
