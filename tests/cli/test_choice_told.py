"""What was chosen and why, as the commands and the permit set tell it."""

from pathlib import Path

import pytest
from calling import Call
from test_answers import checked

ALONG = ('to = "disconnect"\nlength = "6 ft"', 'to = "disconnect"\nalong = "wall"\nextra = "20 in"')


def test_the_choice_of_the_demo_is_proven_with_its_rows_and_runner_up(call: Call, demo: Path) -> None:
    choice = checked("design", call("design", demo, "--json").out)["choice"]
    assert choice["proven"] and choice["open"] == choice["unpriced"] == 0 and choice["invented"]
    assert choice["price"] == pytest.approx(sum(row["sum"] for row in choice["rows"]))
    assert choice["bound"] == pytest.approx(choice["price"]) and choice["runner_up"]["more"] > 0
    assert {row["group"] for row in choice["rows"]} == {"conductors", "raceways", "breakers", "fixings", "work"}


def test_plain_text_and_explain_tell_it_alike(call: Call, demo: Path) -> None:
    choice = checked("design", call("design", demo, "--json").out)["choice"]
    shown, explained = call("design", demo), call("explain", demo, "choice")
    for text in choice["told"]:
        assert f"chosen    {text}" in shown.out and f"chosen    {text}" in explained.out
    assert "(invented)" in explained.out and explained.code == 0
    assert '"choice"' in call("explain", demo, "choice", "--json").out
