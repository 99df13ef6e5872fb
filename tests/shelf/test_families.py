"""The adoption of a country by the date of a job."""

from datetime import date

import pytest

from standfast import shelf
from standfast.faults import NotInEdition
from standfast.foreman.in_force import in_force


@pytest.mark.parametrize(("day", "name"), [
    ("2022-03-28", "uk-2022"), ("2024-07-30", "uk-2022"), ("2024-07-31", "uk-2024"),
    ("2026-05-01", "uk-2024"),  # two are in force, and the newer is held in part
    ("2026-10-14", "uk-2024"), ("2026-10-15", "uk-2026"), ("2030-01-01", "uk-2026"),
])  # fmt: skip
def test_a_job_gets_the_adoption_of_its_date(day: str, name: str) -> None:
    assert shelf.adopted_on("uk", date.fromisoformat(day)).name == name


def test_before_the_first_of_a_family_the_first_is_taken_and_told_not_to_be_in_force() -> None:
    day = date(2019, 1, 1)
    found = shelf.adopted_on("uk", day)
    assert found.name == "uk-2022"
    assert [each.verdict for each in in_force(found, day)] == ["cannot tell"]


def test_a_name_of_its_own_is_taken_whatever_the_date() -> None:
    assert shelf.adopted_on("uk-2022", date(2030, 1, 1)).name == "uk-2022"
    assert "uk" in shelf.families()
    with pytest.raises(NotInEdition, match="uk-2024"):
        shelf.adopted_on("nowhere", date(2026, 1, 1))
