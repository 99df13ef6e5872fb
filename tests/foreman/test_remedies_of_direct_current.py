"""Remedies of DC circuits and arrays: each is written into an invented job, clears its check and opens no other."""

from importlib import resources
from pathlib import Path

import pytest

from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import remedied
from standfast.survey.read import read
from standfast.survey.write import put

DEMOS = {
    name: resources.files("standfast.foreman").joinpath("demos", name, "job.toml").read_text("utf-8")
    for name in ("stack_outdoors", "cabinet")
}
Value = str | int | bool | None


def planned(folder: Path, demo: str, *changes: tuple[tuple[str | int, ...], Value]) -> JobPlan:
    text = DEMOS[demo]
    for path, value in changes:
        text = put(text, path, value)
    (folder / "job.toml").write_text(text, "utf-8")
    return make_plan(folder)


def placed(demo: str, path: tuple[str | int, ...]) -> tuple[str | int, ...]:
    """A path with the number of a route in place of its id."""
    survey = read(DEMOS[demo]).survey
    assert survey is not None
    ids = [route.id for route in survey.job.routes]
    return tuple(ids.index(part) if part in ids else part for part in path)


ARRAY = ("arrays", 0)
CASES = [
    ("stack_outdoors", "dc-terminations/battery-1", ("routes", "dc-run", "conductors", "size"), "8", "let size and"),
    ("cabinet", "dc-terminations/battery-1", ("routes", "dc-battery", "conductors", "size"), "2", "let size and"),
    ("cabinet", "terminal-range/battery-1-dc/battery/dc", ("routes", "dc-battery", "conductors", "sets"), 1,
     "let size and"),
    ("cabinet", "dc-disconnect-rating/battery-1", ("equipment", "dc_disconnect"), "demo-dc-disconnect-60",
     "choose another DC disconnect, DC disconnect 250 A"),
    ("cabinet", "dc-overcurrent-rating/battery-1", ("equipment", "dc_overcurrent"), "demo-breaker",
     "choose another DC fuse or breaker, Fuse block"),
    ("stack_outdoors", "pv-voltage/roof-array", (*ARRAY, "modules"), 16, "put 13 modules"),
    ("stack_outdoors", "pv-input-strings/roof-array", (*ARRAY, "strings"), 2, "join the Array on the south roof to"),
]  # fmt: skip


@pytest.mark.parametrize(("demo", "id", "path", "value", "says"), CASES, ids=[f"{each[0]} {each[1]}" for each in CASES])
def test_what_does_not_fit_has_a_way_out_that_clears_it(
    demo: str, id: str, path: tuple[str | int, ...], value: Value, says: str, tmp_path: Path
) -> None:
    where = placed(demo, path)
    before = planned(tmp_path, demo, (where, value))
    check = before.ledger[f"wiring.{id}"]
    assert check.verdict == "fail"
    plan = remedied(before, {check.id})
    remedy = next(each for each in plan.remedies if check.id in each.clears)
    assert remedy.change.says.startswith(says)
    after = planned(tmp_path, demo, (where, value), *((word.path, word.plain) for word in remedy.change.words))  # type: ignore[misc]
    still = {each.id for each in after.ledger.open}
    assert check.id not in still
    assert still < {each.id for each in before.ledger.open}


@pytest.mark.parametrize("word", ["width", "height", "depth"])
def test_a_device_that_is_drawn_too_small_is_drawn_as_its_sheet_says(word: str, tmp_path: Path) -> None:
    survey = read(DEMOS["cabinet"]).survey
    assert survey is not None
    things = [each.id for each in survey.job.walls[0].obstacles]
    at = ("walls", 0, "obstacles", things.index("dc-disconnect"), word)
    plan = remedied(planned(tmp_path, "cabinet", (at, "6 in")), {"siting.drawn-size/dc-disconnect"})
    remedy = next(each for each in plan.remedies if "siting.drawn-size/dc-disconnect" in each.clears)
    own = {"width": "14 in", "height": "24 in", "depth": "7 in"}[word]
    assert [(each.path, each.value) for each in remedy.change.words] == [(at, own)]


def test_a_fuse_that_no_route_names_is_asked_for(tmp_path: Path) -> None:
    to = placed("cabinet", ("routes", "dc-battery", "to"))
    plan = planned(tmp_path, "cabinet", (to, "dc-disconnect"))
    assert plan.ledger["wiring.dc-overcurrent-place/battery-1"].verdict == "cannot tell"


def test_a_fuse_that_hangs_on_no_wall_is_asked_for(tmp_path: Path) -> None:
    survey = read(DEMOS["cabinet"]).survey
    assert survey is not None
    things = [each.id for each in survey.job.walls[0].obstacles]
    plan = planned(tmp_path, "cabinet", (("walls", 0, "obstacles", things.index("fuse"), "state"), "existing"))
    found = plan.ledger["siting.drawn-size/fuses"]
    assert found.verdict == "cannot tell" and 'kind "fuse"' in found.reason
