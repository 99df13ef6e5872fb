"""The house with many sources as a whole: what was approved of it, and what becomes of it with a word changed."""

from pathlib import Path
from typing import Any

import pytest
from approved import as_approved

from standfast.design.wiring.feeds import Feed, Side
from standfast.foreman.answers import answer
from standfast.foreman.demo import job_text, write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Check


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return make_plan(write_demo("many-sources", tmp_path_factory.mktemp("job")))


def changed(folder: Path, *changes: tuple[str, str]) -> JobPlan:
    text = job_text("many-sources")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    write_demo("many-sources", folder)
    (folder / "job.toml").write_text(text, "utf-8")
    return make_plan(folder)


def of(plan: JobPlan, id: str) -> Check:
    return next(check for check in plan.ledger if check.id == id)


def side(found: Side) -> str:
    state = "" if found.state is None else f" ({found.state.id})"
    amps = "no limit" if found.current is None else f"{found.current.quantity:.4g} A"
    return f"{', '.join(found.sources)}: {amps}{state}" if found.sources else "nothing"


def line(feed: Feed) -> str:
    cleared = ", ".join(f"{each.source} by {each.device or 'nothing'}" for each in feed.clearing)
    through = "no limit" if feed.through is None else f"{feed.through.quantity:.4g} A"
    parts = (feed.id, side(feed.from_utility), side(feed.from_other), f"through {through}", f"cleared: {cleared}")
    return " | ".join(parts)


def test_who_can_feed_what(plan: JobPlan) -> None:
    """A change detector, like every approved output; the numbers are asked for in the tests of `feeds`."""
    as_approved("many_sources/feeds.txt", "\n".join(line(each) for each in plan.design.wiring.feeds) + "\n")


def test_the_checks_of_the_wiring(plan: JobPlan) -> None:
    data: Any = answer(plan)
    own = (
        "wiring.source",
        "wiring.feed",
        "wiring.panel-protection",
        "wiring.generator",
        "load.",
        "wiring.neutral-bond",
    )
    lines = [
        f"{each['id']} | {each['verdict']} | {each['clause']}" for each in data["checks"] if each["id"].startswith(own)
    ]
    as_approved("many_sources/checks.txt", "\n".join(lines) + "\n")


def test_nobody_said_whether_the_generator_is_interlocked(tmp_path: Path) -> None:
    found = changed(tmp_path, ("interlocked = true\n", ""))
    assert of(found, "wiring.generator-interlock/generator").verdict == "cannot tell"
    assert of(found, "wiring.source-busbar/meter-main").verdict == "cannot tell"
    assert {check.verdict for check in found.ledger.open} == {"cannot tell"}


def test_a_generator_that_is_not_interlocked(tmp_path: Path) -> None:
    found = changed(tmp_path, ("interlocked = true\n", "interlocked = false\n"))
    assert of(found, "wiring.generator-interlock/generator").verdict == "fail"
    assert of(found, "wiring.source-busbar/meter-main").verdict == "fail"


def test_a_control_without_listing(plan: JobPlan, tmp_path: Path) -> None:
    found = changed(tmp_path, ('listing = "UL 916, file INVENTED-916 (invented)"\n', ""))
    assert of(found, "load.control/load-manager").verdict == "cannot tell"
    assert found.design.load is not None and plan.design.load is not None
    assert found.design.load.house.quantity > plan.design.load.house.quantity


def test_pv_and_battery_overload_a_busbar_and_a_control_is_a_way_out(tmp_path: Path) -> None:
    larger = ('main = "150 A"', 'main = "175 A"')
    assert of(changed(tmp_path, larger), "wiring.source-busbar/main").verdict == "fail"
    control = (
        "[[controls]]",
        '[[controls]]\nid = "limiter"\nlimits = "main"\nsetting = "160 A"\nsources = ["battery-1", "sun"]\n'
        'listing = "UL 3141, file INVENTED-3141 (invented)"\naccess = "qualified people"\n\n[[controls]]',
    )
    assert of(changed(tmp_path, larger, control), "wiring.source-busbar/main").verdict == "pass"


def test_the_panel_on_feed_through_lugs_is_not_forgotten(tmp_path: Path) -> None:
    """Its main is the device at the far end: without it, both busbars and the conductors carry one sum."""
    found = changed(tmp_path, ('main = "150 A"', "main_lugs = true"))
    assert of(found, "wiring.source-busbar/main").verdict == "fail"
    beyond = next(each for each in found.design.wiring.busbars if each.panel == "main")
    assert beyond.sources.quantity == 50


def test_a_source_that_is_not_connected(tmp_path: Path) -> None:
    found = changed(tmp_path, ('feeds = "generator", ', 'load = "0 VA", '))
    needs = [check.reason for check in found.ledger.open if check.id.startswith("wiring.reachable-states")]
    assert needs == ['panels.circuits: the breaker that it feeds, with feeds = "generator"']


def test_a_panel_that_says_not_what_feeds_it_is_found_by_the_breaker_that_does(plan: JobPlan, tmp_path: Path) -> None:
    """Else its PV would be missing on every busbar above it."""
    found = changed(tmp_path, ('fed_from = "main"\nfed_by = "breaker"\n', 'fed_by = "breaker"\n'))
    sums = {each.panel: each.sources.quantity for each in found.design.wiring.busbars}
    assert sums == {each.panel: each.sources.quantity for each in plan.design.wiring.busbars}
    lost = changed(
        tmp_path, ('fed_from = "main"\nfed_by = "breaker"\n', ""), ('id = "workshop-feeder"\nname', 'id = "w"\nname'),
        ('feeds = "workshop"\n', 'load = "0 VA"\n'),
    )  # fmt: skip
    assert of(lost, "wiring.supply-way/workshop").verdict == "cannot tell"


def test_the_ground_of_a_feeder_that_is_there_suits_its_device(plan: JobPlan, tmp_path: Path) -> None:
    """Of aluminium 4 AWG for 200 A, of copper 10 AWG for 60 A; never larger than the lines (250.122(A))."""
    house, workshop = "wiring.equipment-ground/main", "wiring.equipment-ground/workshop-feeder"
    assert of(plan, house).verdict == of(plan, workshop).verdict == "pass"
    small = changed(tmp_path, ('insulation = "xhhw", ground = "4"', 'insulation = "xhhw", ground = "6"'))
    assert of(small, house).verdict == "fail"
    assert of(small, workshop).verdict == "pass"
    unknown = changed(tmp_path, ('insulation = "xhhw", ground = "4", ', 'insulation = "xhhw", '))
    assert house not in {check.id for check in unknown.ledger}  # a metal raceway may serve as one
