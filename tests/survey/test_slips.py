"""Slips of the pen that read well and mean something else: each is told where it stands."""

from importlib.resources import files

import pytest

from standfast.survey.read import read

DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def told(old: str, new: str) -> list[str]:
    assert old in DEMO
    return [str(fault) for fault in read(DEMO.replace(old, new, 1))[1]]


@pytest.mark.parametrize(
    ("spacing", "advice"), [("16 ft", 'did you mean "16 in"?'), ("3 in", "measure again"), ("9 ft", "measure again")]
)
def test_studs_stand_no_such_distance_apart(spacing: str, advice: str) -> None:
    (fault,) = told('stud_spacing = "16 in"', f'stud_spacing = "{spacing}"')
    assert f"stud_spacing is {spacing}" in fault
    assert advice in fault
    assert "common practice" in fault


@pytest.mark.parametrize("spacing", ["12 in", "16 in", "19.2 in", "24 in", "48 in", "600 mm"])
def test_studs_that_are_built_are_no_fault(spacing: str) -> None:
    assert told('stud_spacing = "16 in"', f'stud_spacing = "{spacing}"') == []


def test_a_label_names_a_family_and_no_data_sheet() -> None:
    (fault,) = told('accepts = ["W"]', 'accepts = ["demo-breaker"]')
    assert 'accepts of "main" names the data sheet "demo-breaker"' in fault
    assert told('accepts = ["W"]', 'accepts = ["W", "Q"]') == []


def test_a_nearest_word_among_many_is_told_alone() -> None:
    (fault,) = told('from = "battery"', 'from = "batery"')
    assert 'did you mean "battery"?' in fault
    assert "Known" not in fault
    (fault,) = told('moved_from = "main"', 'moved_from = "mian"')
    assert 'did you mean "main"? Known: "backup", "main"' in fault
