"""Lengths of remedies are written as the job writes them, and lose nothing on the way to the tape."""

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from standfast.foreman.demo import job_text, write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies.tape import said, texts
from standfast.survey.write import put
from standfast.units import read

LEFT = ("wishes", "left")


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return make_plan(write_demo("one-wall", tmp_path_factory.mktemp("tape")))


@pytest.fixture(scope="module")
def metric(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    folder = write_demo("one-wall", tmp_path_factory.mktemp("metric"))
    (folder / "job.toml").write_text(put(job_text("one-wall"), ("wishes", "left"), "3100 mm"), "utf-8")
    return make_plan(folder)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(tenths=st.integers(0, 70000), away=st.sampled_from((-1, 0, 1)))
def test_what_is_tried_is_the_length_itself_or_a_sixteenth_on_the_safe_side(
    plan: JobPlan, tenths: int, away: int
) -> None:
    mm = Fraction(tenths, 10)
    first, *exact = (read(each) for each in texts(plan, LEFT, float(mm), away))
    assert "mm" not in first.text
    off = first.number - mm
    if not exact:
        assert -Fraction("0.05") <= off <= Fraction("0.05")
    else:
        assert exact[0].number == mm
        assert off * away >= 0
        assert -Fraction("25.4") / 16 < off < Fraction("25.4") / 16


def test_a_length_that_the_tape_has_is_written_so_and_no_other_way(plan: JobPlan) -> None:
    assert texts(plan, LEFT, 3962.4) == ["13 ft"]
    assert texts(plan, LEFT, 88.9) == ["3-1/2 in"]
    assert texts(plan, LEFT, 3963.0, 1) == ["13 ft 1/16 in", "3963 mm"]
    assert texts(plan, LEFT, 3963.0, -1) == ["13 ft", "3963 mm"]


def test_the_unit_is_that_of_the_word_else_of_the_words_beside_it(plan: JobPlan, metric: JobPlan) -> None:
    assert texts(metric, LEFT, 3962.4) == ["3962.4 mm"]
    assert texts(metric, ("walls", 0, "length"), 3962.4) == ["13 ft"]
    assert texts(plan, ("walls", 0, "footing", "left"), 304.8) == ["1 ft"]
    assert said("13 ft", 127.0) == "5 in"
    assert said("3963 mm", 127.04) == "127 mm"
