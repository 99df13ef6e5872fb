"""Residual current devices in a row: the British demo house with one on the feeder of its backup board."""

from importlib.resources import files

import pytest

from standfast import shelf
from standfast.design.wiring.by_book import electrical
from standfast.equipment.read import DataSheet, shipped
from standfast.equipment.read import read as read_sheet
from standfast.sheet import Check
from standfast.survey.read import read

TERRACE = (files("standfast.foreman") / "demos" / "terrace" / "job.toml").read_text("utf-8")
FEEDER = 'spaces = [10, 11], breaker = "40 A", poles = 2, device = "breaker",'
GOOD = 'type = "A", rated = "100 mA", delayed = true'


def checks(words: str, asked: str = "A") -> dict[str, Check]:
    """Every electrical check of the house with a residual device on the feeder, and a battery that asks for one."""
    assert FEEDER in TERRACE
    reading = read(TERRACE.replace(FEEDER, f'{FEEDER[:-2]} with residual current device", residual = {{ {words} }},'))
    assert reading.survey is not None, reading.faults
    sheets: dict[str, DataSheet] = {}
    for role, id in dict(reading.survey.job.equipment).items():
        text = shipped().get(id) if isinstance(id, str) else None
        if text is not None:
            said = text.replace('residual_device = "A"', f'residual_device = "{asked}"' if asked else "")
            sheet = read_sheet(said, f"{id}.toml").sheet
            assert sheet is not None
            sheets[role] = sheet
    wiring = electrical(shelf.adoption("uk-2024"), sheets).wire(reading.survey, {})
    return {check.id.removeprefix("wiring."): check for check in wiring.checks}


def test_a_delayed_device_of_three_times_the_rating_lets_the_one_beyond_it_trip() -> None:
    found = checks(GOOD)["residual-selective/backup-feeder"]
    assert (found.verdict, found.clause.clause) == ("pass", "536.4.1.4")
    assert checks(GOOD.replace("100", "80"))["residual-selective/backup-feeder"].verdict == "fail"
    assert checks(GOOD.replace("true", "false"))["residual-selective/backup-feeder"].verdict == "fail"
    unsaid = checks(GOOD.replace(", delayed = true", ""))["residual-selective/backup-feeder"]
    assert unsaid.verdict == "cannot tell"
    assert "residual.delayed" in unsaid.reason


@pytest.mark.parametrize(
    ("kind", "asked", "verdict"),
    [
        ("A", "A", "not applicable"),
        ("A", "B", "fail"),
        ("F", "B", "fail"),
        ("B", "B", "pass"),
        ("A", "", "cannot tell"),
    ],
)
def test_pitfall_64_a_feeder_that_smooth_direct_current_passes_has_a_device_that_sees_it(
    kind: str, asked: str, verdict: str
) -> None:
    found = checks(GOOD.replace('"A"', f'"{kind}"'), asked)["residual-upstream/backup-feeder"]
    assert found.verdict == verdict


@pytest.mark.parametrize(("said", "verdict"), [("true", "pass"), ("false", "fail"), ("", "pass")])
def test_pitfall_65_a_residual_device_that_the_battery_feeds_backwards_is_made_for_it(said: str, verdict: str) -> None:
    """What the job does not say the sheet of the new device does: it may be fed from either side."""
    words = f"{GOOD}, bidirectional = {said}" if said else GOOD
    assert checks(words)["residual-direction/backup-feeder"].verdict == verdict
