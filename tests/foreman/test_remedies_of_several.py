"""Remedies that change two places together, and those of several units."""

from importlib import resources
from pathlib import Path

import pytest

from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import Remedy, remedied
from standfast.survey.read import read
from standfast.survey.write import put

DEMOS = resources.files("standfast.foreman").joinpath("demos")
ONE, PAIR = (DEMOS.joinpath(name, "job.toml").read_text("utf-8") for name in ("one_wall", "detached_pair"))


def planned(folder: Path, text: str) -> JobPlan:
    (folder / "job.toml").write_text(text, "utf-8")
    return remedied(make_plan(folder))


def written(text: str, remedy: Remedy) -> str:
    for word in remedy.change.words:
        text = put(text, word.path, word.plain)
    return text


def proven(folder: Path, text: str, check: str) -> list[str]:
    """What is told for a failing check; each remedy is written into the file and judged again."""
    plan = planned(folder, text)
    assert plan.ledger[check].verdict == "fail"
    found = [each for each in plan.remedies if check in each.clears]
    before = {each.id for each in plan.ledger if each.open}
    for remedy in found:
        (folder / "job.toml").write_text(written(text, remedy), "utf-8")
        after = {each.id for each in make_plan(folder).ledger if each.open}
        assert after < before and check not in after
    return [each.text for each in found]


def test_a_panel_of_the_service_is_exchanged_in_both_places(tmp_path: Path) -> None:
    small = put(put(ONE, ("panels", 0, "busbar"), "125 A"), ("supply", "busbar"), "125 A")
    told = proven(tmp_path, small, "wiring.panel-protection/main")
    assert any("panels.main.busbar" in each and "supply.busbar" in each for each in told)
    assert any("panels.main.main" in each and "supply.main" in each for each in told)


def test_breakers_are_brought_to_the_end_in_exchange_with_what_sits_there(tmp_path: Path) -> None:
    text = ONE.replace("spaces = [27, 29]", "spaces = [13, 15]")
    for id, space in (("dining-room", 27), ("family-room", 29)):
        text = text.replace(f"spaces = [{13 if space == 27 else 15}]", f"spaces = [{space}]", 1)
        assert id in text
    assert read(text).faults[0].why.endswith("these are at no end")
    told = proven(tmp_path, text.replace('source_position = "opposite end"', 'source_position = "elsewhere"', 1),
                  "wiring.source-busbar/main")  # fmt: skip
    assert any("source_position" in each and "panels.main.circuits.backup-feeder.spaces" in each for each in told)


def test_too_many_units_for_a_busbar_are_made_fewer(tmp_path: Path) -> None:
    panel = PAIR.index('id = "garage"\nname')
    small = PAIR[:panel] + PAIR[panel:].replace('busbar = "200 A"', 'busbar = "125 A"', 1)
    assert small != PAIR
    told = proven(tmp_path, small, "wiring.source-busbar/garage")
    assert any(each.startswith("leave battery 2 out (") and "equipment.quantity = 1" in each for each in told)


@pytest.mark.parametrize(
    ("old", "new", "check"),
    [
        ("neutral_bonded = false", "neutral_bonded = true", "wiring.building-neutral/garage"),
        ('building_disconnect = "in the panel"', 'building_disconnect = "none"', "wiring.building-disconnect/garage"),
        ('electrode_conductor = { size = "6"', 'electrode_conductor = { size = "10"',
         "wiring.building-electrode-conductor/garage"),
    ],
)  # fmt: skip
def test_what_another_building_lacks_is_mended(tmp_path: Path, old: str, new: str, check: str) -> None:
    assert old in PAIR
    assert proven(tmp_path, PAIR.replace(old, new, 1), check)
