"""What has to be known of a wall before it is drilled; and motors that nobody looked for."""

from importlib.resources import files

import pytest

from standfast.design.anchorage.drilling import LEAD_SAFE, SCAN_FIRST, checks
from standfast.sheet import Check
from standfast.shelf import adoption
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def drilling(old: str, new: str) -> dict[str, Check]:
    survey, _ = read(TEXT.replace(old, new))
    assert survey is not None
    found = checks(survey, adoption("us-2021"), "battery-1")
    return {check.id.split("/")[0].removeprefix("anchorage.drilling-"): check for check in found}


@pytest.mark.parametrize("fact", ["asbestos", "lead", "hidden_services"])
def test_a_survey_that_was_not_made_is_never_a_pass(fact: str) -> None:
    line = next(line for line in TEXT.split("\n") if line.startswith(f"{fact} = "))
    for new in ("", f'{fact} = "not known"'):
        check = drilling(line, new)[fact.replace("_", "-")]
        assert check.verdict == "cannot tell"
        assert f"conditions.{fact}" in check.reason


def test_asbestos_that_was_found_fails_and_lead_asks_for_lead_safe_work() -> None:
    assert drilling('asbestos = "not found"', 'asbestos = "found"')["asbestos"].verdict == "fail"
    lead = drilling('lead = "not found"', 'lead = "found"')["lead"]
    assert (lead.verdict, lead.condition) == ("pass", LEAD_SAFE)
    scan = drilling('hidden_services = "scanned"', 'hidden_services = "not scanned"')["hidden-services"]
    assert (scan.verdict, scan.condition) == ("pass", SCAN_FIRST)
