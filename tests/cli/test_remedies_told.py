"""What would clear a check, as the commands tell it: in lines, and as words that a program can write into the file."""

import json
from pathlib import Path
from typing import Any

import pytest
from calling import Call, change
from jsonschema import Draft202012Validator

from standfast.survey.write import put

SCHEMA = json.loads((Path(__file__).parents[2] / "src/standfast/cli/schemas/check.json").read_text("utf-8"))
ID = "wiring.device-rating/battery-1"


@pytest.fixture
def spoilt(job: Path) -> Path:
    own = '"\npoles = 2\nphases = "line to line"\nsource_output'
    change(job / "job.toml", f'breaker = "30 A{own}', f'breaker = "20 A{own}')
    return job


def data_of(call: Call, *words: object) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(call("check", *words, "--json").out)
    Draft202012Validator(SCHEMA).validate(data)
    return data


def test_check_and_explain_tell_what_would_clear_a_failure(call: Call, spoilt: Path) -> None:
    told = 'what would clear it: put in a breaker of 30 A (job.toml: panels.backup.circuits.battery.breaker = "30 A")'
    for words in (("check", spoilt), ("explain", spoilt, ID)):
        assert told in call(*words).out
        found = call(*words, "--no-remedies")
        assert "FAIL" in found.out and "what would clear it" not in found.out


def test_a_remedy_is_data_that_mends_the_file(call: Call, spoilt: Path) -> None:
    data = data_of(call, spoilt)
    (remedy, *_) = [each for each in data["remedies"] if ID in each["clears"]]
    text = (spoilt / "job.toml").read_text("utf-8")
    for each in remedy["changes"]:
        text = put(text, tuple(each["path"]), each["value"])
    (spoilt / "job.toml").write_text(text, "utf-8")
    assert data["summary"]["fail"] == 1
    assert data_of(call, spoilt)["summary"]["fail"] == 0
    assert data_of(call, spoilt)["remedies"] == []


def test_without_remedies_the_data_has_none(call: Call, spoilt: Path) -> None:
    data = data_of(call, spoilt, "--no-remedies")
    assert data["remedies"] == []
    assert not any(check["remedies"] for check in data["checks"])


def test_the_set_of_a_job_that_fails_says_what_would_clear_it(call: Call, spoilt: Path) -> None:
    assert call("pack", spoilt).code == 1
    checks = json.loads((spoilt / "out" / "checks.json").read_text("utf-8"))
    assert checks["remedies"][0]["clears"] == [ID]
