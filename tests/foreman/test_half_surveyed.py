"""A job of which much is not known yet is answered as far as it goes, and never refused as a whole."""

import re
from pathlib import Path

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import pack
from standfast.foreman.plan import make_plan

ROUTE = re.compile(r"\[\[routes\]\]\nid = \"(battery-run|disconnect-run)\"\n(?:[^\[\n].*\n|\n)*")


def test_without_routes_of_the_battery_the_rest_is_answered_and_printed(tmp_path: Path) -> None:
    job = write_demo("one-wall", tmp_path) / "job.toml"
    text, count = ROUTE.subn("", job.read_text("utf-8"))
    assert count == 2
    job.write_text(text, "utf-8")
    plan = make_plan(tmp_path)
    assert {check.verdict for check in plan.ledger.open} == {"cannot tell"}
    reasons = {check.id: check.reason for check in plan.ledger.open}
    assert "terminals.ac-lines.bending_space" in reasons.pop("wiring.bending-space/battery-1/battery")
    assert all(reason.startswith("routes: the runs ") for reason in reasons.values())
    assert "wiring.source-busbar/main" not in {check.id for check in plan.ledger.open}
    packed = pack(plan)
    assert packed.against == [f"{len(plan.ledger.open)} checks cannot be told"]
    assert (tmp_path / "out" / "permit-set.pdf").is_file()


def test_every_fact_line_taken_away_by_itself_is_answered(tmp_path: Path) -> None:
    """A sample of the lines here; the readers and rooms have their own full sweeps."""
    job = write_demo("one-wall", tmp_path) / "job.toml"
    lines = job.read_text("utf-8").split("\n")
    facts = [at for at, line in enumerate(lines) if re.match(r"(?!id|schema|name|kind|from|to)\w+ = ", line)]
    for at in facts[::25]:
        job.write_text("\n".join([*lines[:at], *lines[at + 1 :]]), "utf-8")
        try:
            plan = make_plan(tmp_path)
        except Exception as error:  # noqa: BLE001 - whatever it is, the line that brought it has to be told
            faults = getattr(error, "faults", None)
            assert faults, f"without {lines[at]!r}: {error!r}"
            continue
        assert not any(check.verdict == "fail" for check in plan.ledger), lines[at]


def test_a_unit_wished_onto_its_disconnect_is_told_in_papers_that_still_come(tmp_path: Path) -> None:
    job = write_demo("one-wall", tmp_path) / "job.toml"
    wished = 'handle_height = "6 ft 6 in"\nleft = "100 in"\nbottom = "50 in"'
    text = job.read_text("utf-8").replace('handle_height = "6 ft 6 in"', wished)
    job.write_text(text, "utf-8")
    plan = make_plan(tmp_path)
    assert any(check.id == "siting.overlap/battery-1/battery-disconnect" for check in plan.ledger.open)
    stale = tmp_path / "out" / "drawings" / "elevation.svg"
    stale.parent.mkdir(parents=True)
    stale.write_text("<svg/>", "utf-8")
    packed = pack(plan)
    assert packed.against
    assert not stale.exists()
    assert (tmp_path / "out" / "permit-set.pdf").is_file()


def test_a_panel_that_does_not_say_what_feeds_it_is_asked_for(tmp_path: Path) -> None:
    job = write_demo("one-wall", tmp_path) / "job.toml"
    text = job.read_text("utf-8").replace('fed_from = "main"\n', "")
    job.write_text(text, "utf-8")
    assert not make_plan(tmp_path).ledger.open, "the breaker that feeds it says so too"
    assert text.count('feeds = "backup"\n') == 1
    job.write_text(text.replace('feeds = "backup"\n', ""), "utf-8")
    plan = make_plan(tmp_path)
    assert any("fed_from" in check.reason for check in plan.ledger.open)
    assert pack(plan).against
