"""A job file with picks: they stand where the file leaves a fact open, and say how they were made."""

from importlib.resources import files

import pytest

from standfast.faults import UnitMismatch
from standfast.sheet import chosen, measured, missing
from standfast.survey.picked import Picked
from standfast.survey.read import Survey, read

PATH = "routes.battery-run.trade_size"


def survey() -> Survey:
    """The demo job, which leaves the trade size of the battery's run open."""
    found = read((files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")).survey
    assert found is not None
    return found


def test_a_pick_is_read_as_a_fact_and_everything_else_as_before() -> None:
    job = survey()
    picked = Picked(job, {PATH: chosen("trade_size", "1", "", "test", None)})
    assert not job.has(PATH) and picked.has(PATH)
    assert picked.fact(PATH, "trade_size").word == "1"
    assert picked.fact("routes.battery-run.length", "L", "ft").quantity == 6


def test_under_another_symbol_a_pick_keeps_its_trail() -> None:
    pick = measured("L", 4.0, "ft", "tape")
    value = Picked(survey(), {"routes.battery-run.length": pick}).fact("routes.battery-run.length", "L_run", "ft")
    assert (value.symbol, value.quantity, value.inputs) == ("L_run", 4.0, (pick,))


def test_a_missing_pick_is_missing_and_not_had() -> None:
    picked = Picked(survey(), {PATH: missing("trade_size", "", "ask")})
    assert not picked.has(PATH)
    assert picked.fact(PATH, "t").missing and picked.fact(PATH, "t").how == "ask"


def test_a_pick_has_one_unit() -> None:
    picked = Picked(survey(), {"routes.battery-run.length": measured("L", 4.0, "ft", "tape")})
    with pytest.raises(UnitMismatch, match="was picked in ft"):
        picked.fact("routes.battery-run.length", "L", "mm")


def test_later_picks_go_before_earlier_ones() -> None:
    first = Picked(survey(), {PATH: chosen("trade_size", "1", "", "test", None)})
    assert Picked(first, {PATH: chosen("trade_size", "2", "", "test", None)}).fact(PATH, "trade_size").word == "2"
    assert Picked(first, {}).fact(PATH, "trade_size").word == "1"
