"""The work order and the van of British and Australian jobs speak the trade of their country, in its units."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from test_work_order_languages import texts

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import Papers, papers
from standfast.foreman.plan import make_plan

AMERICAN = re.compile(
    r"\b(grounding|ground bar|grounded|panel(board)?s?|raceway|utility|permit set|AWG|lbf|gypsum|lockout|disconnect|"
    r"service (disconnect|equipment)|receptacles?)\b|\d (ft|in|lb)\b", re.I,
)  # fmt: skip


@pytest.fixture(scope="module", params=["terrace", "verandah"])
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Papers:
    folder: Path = tmp_path_factory.mktemp(request.param)
    return papers(make_plan(write_demo(request.param, folder)))


def told(made: Papers) -> Iterator[tuple[str, str]]:
    for sheet in made.work.sheets:
        yield from ((sheet.code, text) for text in texts(sheet.blocks))


def test_no_american_word_and_no_inch_is_on_the_work_order(made: Papers) -> None:
    drives = re.compile(r"\d/\d in drive")  # of square drives everywhere
    found = [(code, text) for code, text in told(made) if AMERICAN.search(drives.sub("", text))]
    assert found == []


def test_torque_tools_and_torques_are_in_newton_metres(made: Papers) -> None:
    every = [text for _, text in told(made)]
    assert any(text.startswith("Torque screwdriver, 1.2 N·m to 6 N·m") for text in every)
    assert any(re.search(r"\d N·m", text) for text in every)


def test_breakers_boards_and_bits_have_the_names_of_the_trade(made: Papers) -> None:
    rows = made.materials
    assert re.search(r"MCB 2-pole 40 A, curve [BC]", rows)
    assert re.search(r"RCBO 2-pole 32 A, curve [BC], type A 30 mA", rows)
    assert "Distribution board Backup board" in rows and "Blanking modules" in rows and "Earth bar" in rows
    assert any("SDS" in text for code, text in told(made) if code == "V1")
