"""Ways out for a busbar with too many sources: each tried and proven, with its clause and price, the least first."""

import os
import tomllib
from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import Remedy, ladders, remedied, ways_out
from standfast.foreman.remedies.bench import Bench, cleared, harms
from standfast.handover import chosen
from standfast.paper.document import Bullets
from standfast.survey.write import put

PACKAGE = resources.files("standfast.foreman").joinpath("demos")
SHEETS = resources.files("standfast.equipment").joinpath("sheets")
ALL_OF_THEM = "STANDFAST_CASES" in os.environ
MAIN = "wiring.source-busbar/main"
Words = dict[str, Any]


def demo(name: str) -> Words:
    return tomllib.loads(PACKAGE.joinpath(name, "job.toml").read_text("utf-8"))


def anywhere() -> Words:
    """The demo house with its new breaker somewhere on the busbar."""
    words = demo("one_wall")
    words["panels"][0]["source_position"] = "elsewhere"
    return words


def with_sun() -> Words:
    """The demo house with an array that was there, at the same end: 200 A and 125 % of 40 A are above 240 A."""
    words = demo("one_wall")
    main = words["panels"][0]
    main["circuits"] = [each for each in main["circuits"] if 30 not in each["spaces"] and 28 not in each["spaces"]]
    main["circuits"].append({"id": "sun", "spaces": [28, 30], "breaker": "20 A", "poles": 2, "phases": "line to line",
                             "source_output": "16 A", "state": "existing"})  # fmt: skip
    main["free_spaces"] -= 2
    return words


def in_the_service(distance: str = "14 ft") -> Words:
    """One unit on the panel of the service, nothing backed up, its breaker somewhere on the busbar."""
    words = demo("detached_pair")
    main, garage = words["panels"]
    own = next(each for each in garage["circuits"] if each["id"] == "battery-1")
    garage["circuits"] = [each for each in garage["circuits"] if "feeds" not in each]
    main["circuits"].append({**own, "spaces": [18, 20]})
    main["busbar"] = words["supply"]["busbar"] = "200 A"
    main["source_position"], words["equipment"]["quantity"] = "elsewhere", 1
    words["routes"] = [each for each in words["routes"] if "2" not in each["id"]]
    run = next(each for each in words["routes"] if each["id"] == "disconnect-1-run")
    run["to"], run["length"] = "main", distance
    for wall in words["walls"]:
        wall["obstacles"] = [each for each in wall["obstacles"] if each["id"] != "disconnect-2"]
    garage["free_spaces"] = 8
    return words


def on_a_small_panel() -> Words:
    """One unit on a small panel beside that of the garage; its run follows the wall."""
    words = in_the_service()
    main, garage = words["panels"]
    own = main["circuits"].pop()
    main["busbar"] = words["supply"]["busbar"] = "225 A"
    main["source_position"], garage["free_spaces"] = "opposite end", 6
    tools = [{"id": f"tool-{at}", "spaces": [at, at + 2], "breaker": "20 A", "poles": 2, "load": "1500 VA",
              "phases": "line to line", "state": "existing"} for at in (1, 2)]  # fmt: skip
    bench = {**garage, "id": "bench", "name": "Bench panel", "busbar": "60 A", "main": "60 A", "fed_from": "garage",
             "circuits": [*tools, {**own, "spaces": [10, 12]}], "free_spaces": 8}  # fmt: skip
    for word in ("building", "electrodes", "electrode_conductor", "building_disconnect"):
        del bench[word]
    feeder = {
        "id": "bench-feeder",
        "feeds": "bench",
        "spaces": [10, 12],
        "breaker": "60 A",
        "poles": 2,
        "phases": "both",
    }
    garage["circuits"].append({**feeder, "state": "existing"})
    words["panels"].append(bench)
    wall = next(each for each in words["walls"] if each["id"] == "garage-west")
    hung = next(each for each in wall["obstacles"] if each["id"] == "garage-panel")
    wall["obstacles"].append({**hung, "id": "bench-panel", "panel": "bench", "left": "15 ft"})
    run = next(each for each in words["routes"] if each["id"] == "disconnect-1-run")
    del run["length"]
    run |= {"to": "bench", "along": "wall", "extra": "12 in"}
    long = next(each for each in words["routes"] if each["id"] == "garage-feeder")
    words["routes"].append({**long, "id": "bench-feeder", "from": "garage", "to": "bench", "length": "20 ft"})
    words["routes"][-1]["conductors"] = {**long["conductors"], "size": "6", "ground": "10", "neutral": "6"}
    return words


def planned(folder: Path, words: Words, **sheets: str) -> JobPlan:
    (folder / "sheets").mkdir(exist_ok=True)
    for id, text in sheets.items():
        (folder / "sheets" / f"{id}.toml").write_text(text, "utf-8")
    (folder / "job.toml").write_text(tomlkit.dumps(words), "utf-8")
    return make_plan(folder)


def told(plan: JobPlan, check: str = MAIN) -> list[Remedy]:
    """The ways out in the order in which they are told."""
    found = remedied(plan, {check})
    by_text = {each.text: each for each in found.remedies}
    return [by_text[text] for text in found.ledger[check].remedies]


def proven(folder: Path, plan: JobPlan, found: list[Remedy], check: str = MAIN) -> None:
    """Each way out is written into the file and judged again: it clears the check and opens nothing."""
    text, before = (folder / "job.toml").read_text("utf-8"), {each.id for each in plan.ledger if each.open}
    for remedy in found:
        changed = text
        for word in remedy.change.words:
            changed = put(changed, word.path, word.plain)
        (folder / "job.toml").write_text(changed, "utf-8")
        after = {each.id for each in make_plan(folder).ledger if each.open}
        assert after < before, remedy.text
        assert check not in after
    (folder / "job.toml").write_text(text, "utf-8")


def test_each_way_names_its_clause_and_its_price(tmp_path: Path) -> None:
    plan = planned(tmp_path, anywhere())
    assert plan.ledger[MAIN].verdict == "fail"
    found = told(plan)
    proven(tmp_path, plan, found)
    assert [(each.change.work, str(each.clause)) for each in found] == [
        ("moved breaker", "NEC 2023 705.12(B)(2)"),
        ("power control", "NEC 2023 705.13"),
        ("larger panel", "NEC 2023 705.12(B)(1)"),
    ]
    assert [each.more for each in found] == sorted(each.more for each in found if each.more is not None)
    assert "95.00 USD more, an invented price" in found[0].text
    assert 'setting = "160 A"' in found[1].text
    listed = [
        each for each in chosen.blocks(plan.design.choice, remedied(plan, {MAIN}).ledger) if isinstance(each, Bullets)
    ]
    assert list(listed[-1].items) == [each.text for each in found]
    assert len([each for each in chosen.blocks(plan.design.choice, plan.ledger) if isinstance(each, Bullets)]) == 1


def test_a_smaller_main_where_the_ends_are_opposite_already(tmp_path: Path) -> None:
    plan = planned(tmp_path, with_sun())
    assert plan.ledger[MAIN].verdict == "fail"
    found = told(plan)
    proven(tmp_path, plan, found)
    smaller = next(each for each in found if each.change.work == "smaller main")
    assert "a main of 175 A" in smaller.text
    assert "705.12(B)(2)" in smaller.text
    control = next(each for each in found if each.change.work == "power control")
    assert 'setting = "140 A"' in control.text  # the array is not held back by it: 125 % of 140 A and 16 A


def test_no_control_where_the_data_sheet_names_no_listing(tmp_path: Path) -> None:
    plain = SHEETS.joinpath("demo-wall-10.toml").read_text("utf-8").replace("demo-wall-10", "plain")
    kept = "\n".join(line for line in plain.split("\n") if not line.startswith("busbar_control"))
    assert kept != plain
    words = anywhere()
    words["equipment"]["battery"] = "plain"
    found = told(planned(tmp_path, words, plain=kept))
    assert found
    assert "power control" not in {each.change.work for each in found}


def rated() -> dict[str, str]:
    """A disconnect that is made for service equipment, and a unit whose terminals take size 6."""
    switch = SHEETS.joinpath("demo-disconnect-60.toml").read_text("utf-8").replace("demo-disconnect-60", "rated")
    unit = SHEETS.joinpath("demo-wall-10.toml").read_text("utf-8").replace("demo-wall-10", "wide")
    at = switch.index("lockable_open")
    return {
        "rated": f"{switch[:at]}service_rated = true\n{switch[at:]}",
        "wide": unit.replace('wire_max = "8"', 'wire_max = "6"\nbending_space = "6 in"'),
    }


def test_ahead_of_the_service_disconnect(tmp_path: Path) -> None:
    words = in_the_service()
    words["equipment"] |= {"disconnect": "rated", "battery": "wide"}
    plan = planned(tmp_path, words, **rated())
    found = told(plan)
    proven(tmp_path, plan, found)
    ahead = next(each for each in found if each.change.work == "supply-side connection")
    assert "in conductors of size 6" in ahead.text
    assert "705.11" in str(ahead.clause)
    assert ahead.more is not None and ahead.more > 860  # its conductors are larger too


def test_not_ahead_of_the_service_with_a_disconnect_that_is_not_made_for_it(tmp_path: Path) -> None:
    found = told(planned(tmp_path, in_the_service()))
    assert "supply-side connection" not in {each.change.work for each in found}
    assert "moved breaker" in {each.change.work for each in found}


@pytest.mark.oracle
@pytest.mark.parametrize("job", [with_sun, in_the_service, anywhere] if ALL_OF_THEM else [with_sun])
def test_the_cheapest_way_is_that_of_trying_everything(tmp_path: Path, job: Callable[[], Words]) -> None:
    plan = planned(tmp_path, job())
    bench, check, best = Bench(plan), plan.ledger[MAIN], dict[str, float]()
    bench.left = float("inf")
    for ladder in ladders.of(plan, check):
        for change in ladder.changes:
            after = bench.whole(change) if bench.clears(change, check) else None
            if after is not None and cleared(check, after) and not harms(plan.ledger, after):
                more = ways_out.priced(bench, check, Remedy(change, "", ()), after).more
                if more is not None:
                    best[change.work] = min(more, best.get(change.work, more))
    found = told(plan)
    assert found[0].more == min(best.values())
    for each in found:
        assert each.more is None or each.more == best[each.change.work]
    missed = set(best) - {each.change.work for each in found}
    assert all(best[work] > found[0].more for work in missed)  # that hold a cheaper one in them


def test_on_another_panel_where_the_run_follows_the_wall(tmp_path: Path) -> None:
    bench = "wiring.source-busbar/bench"
    plan = planned(tmp_path, on_a_small_panel())
    assert plan.ledger[bench].verdict == "fail"
    found = told(plan, bench)
    proven(tmp_path, plan, found, bench)
    (moved,) = [each for each in found if each.change.work == "other panel"]
    assert moved.text.startswith("join battery 1 to the Garage panel instead (")
    assert "705.12(B)" in str(moved.clause)
