"""Spaces of panels: found, moved and free must agree, and each contradiction is told where it stands."""

from importlib.resources import files

import pytest

from standfast.survey.read import read
from standfast.survey.spaces import as_built, as_found

DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def told(*changes: tuple[str, str]) -> list[str]:
    text = DEMO
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return [fault.what for fault in read(text)[1]]


def test_the_demo_panel_is_listed_whole() -> None:
    survey, faults = read(DEMO)
    assert not faults
    assert survey is not None
    found, built = as_found(survey.job, "main"), as_built(survey.job, "main")
    assert sorted(space for each in found for space in each.spaces) == list(range(1, 27))
    moved = {each.circuit.id for each in found} - {each.circuit.id for each in built}
    assert moved == {each.circuit.id for each in as_built(survey.job, "backup")} - {"battery"}
    assert as_found(survey.job, "backup") == []


@pytest.mark.parametrize(
    ("change", "what"),
    [
        (("free_spaces = 4", "free_spaces = 6"), 'free_spaces of "main" is 6, but the listed circuits leave 4'),
        (("moved_spaces = [21]", "moved_spaces = [9]"), 'space 9 is taken by "bedrooms" and by "refrigerator"'),
        (("moved_spaces = [21]", "moved_spaces = [31]"), '"refrigerator" is in space 31'),
        (("moved_spaces = [21]", "moved_spaces = [21, 28]"), '"refrigerator" has 1 poles and 2 moved_spaces'),
        (('moved_from = "main"\n', ""), '"refrigerator" has moved_spaces, but no panel that it is moved from'),
        (('moved_from = "main"', 'moved_from = "attic"'), 'there is no panel "attic"'),
    ],
)
def test_counts_that_cannot_be_true_are_told(change: tuple[str, str], what: str) -> None:
    assert what in told(change)


def test_a_new_circuit_comes_from_nowhere() -> None:
    battery = 'id = "battery"\nname = "Battery"\n'
    assert '"battery" is new and is moved from "main"' in told((battery, f'{battery}moved_from = "main"\n'))


def test_a_breaker_may_move_within_its_panel() -> None:
    bedroom = 'name = "Bedroom lights and receptacles"\nspaces = [9]'
    moved = bedroom.replace("spaces = [9]", 'moved_from = "main"\nmoved_spaces = [9]\nspaces = [21]')
    assert told((bedroom, moved)) == []


def test_a_panel_whose_spaces_nobody_counted_is_no_fault() -> None:
    assert told(("spaces = 30\nfree_spaces = 4\n", "")) == []


def test_a_panel_that_is_not_listed_whole_yet_is_no_fault() -> None:
    assert told(('moved_from = "main"\nmoved_spaces = [21]\n', "")) == []
    assert told(("free_spaces = 4", "free_spaces = 2")) == []
