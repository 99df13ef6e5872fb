"""A list that is written, though empty, is told from an absent one, also after writing, trying and reading again."""

from importlib.resources import files

import pytest

from standfast.reading.engine import again
from standfast.reading.write import write
from standfast.survey.read import Survey, read

DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")


def survey(text: str = DEMO) -> Survey:
    document, faults = read(text)
    assert document is not None and not faults
    return document


def test_an_empty_list_is_stated_and_an_absent_one_is_not() -> None:
    assert survey().stated("walls.garage-east.openings")
    assert survey().count("walls.garage-east.openings", "n").quantity == 0
    assert survey().count("walls.garage-east.obstacles", "n").quantity == 5
    absent = survey(DEMO.replace("openings = []\n", ""))
    assert not absent.stated("walls.garage-east.openings")
    count = absent.count("walls.garage-east.openings", "n")
    assert count.missing
    assert count.how.startswith("walls.garage-east.openings: job.toml has no such list")
    assert "openings = []" in count.how


@pytest.mark.parametrize("path", ["arrays", "land.marks", "loads.appliances", "walls.nowhere.openings"])
def test_lists_of_tables_that_are_absent_themselves(path: str) -> None:
    bare, faults = read('schema = 1\n[job]\nname = "x"\ndate = 2026-05-04\nadoption = "us-2021"\n')
    assert bare is not None and not faults
    assert not bare.stated(path)
    assert bare.count(path, "n").missing


def test_a_list_that_says_not_known_is_not_stated() -> None:
    unknown = survey(DEMO.replace("openings = []\n", 'openings = "not known"\n'))
    assert not unknown.stated("walls.garage-east.openings")


def test_no_word_of_the_format_is_a_fault_of_the_program() -> None:
    with pytest.raises(KeyError):
        survey().stated("walls.garage-east.windows")


def test_an_empty_list_outlives_writing_and_trying() -> None:
    written = read(write(survey()))[0]
    assert written is not None and written.stated("walls.garage-east.openings")
    tried = again(survey(), [(("walls", 1, "openings"), [])])
    assert tried is not None and tried.stated("walls.garage-north.openings")
    taken = again(survey(), [(("walls", 0, "openings"), None)])
    assert taken is not None and not taken.stated("walls.garage-east.openings")
