"""How many units a job installs: the count it states, one where it does not speak of it, and never a guess."""

from standfast.survey.joined import installed
from standfast.survey.read import read

HEAD = """schema = 1
[job]
name = "A"
date = 2026-05-04
adoption = "us-2021"
[equipment]
battery = "demo-wall-10"
"""


def count(line: str) -> tuple[bool, object]:
    survey, faults = read(HEAD + line, "job.toml")
    assert survey is not None and not faults
    found = installed(survey, "n_units")
    return found.missing, found.number


def test_the_count_is_what_the_job_states() -> None:
    assert count("quantity = 3") == (False, 3)


def test_a_job_that_does_not_speak_of_it_has_one() -> None:
    assert count("") == (False, 1)


def test_a_count_that_is_not_known_is_missing_and_not_one() -> None:
    """The weight of a pad and the ports of an inverter are shared: one unit would pass what two fail."""
    assert count('quantity = "not known"')[0]
