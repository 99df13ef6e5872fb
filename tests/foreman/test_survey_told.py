"""What the survey list says settles checks by itself does settle them: the fact is given back, and they are told."""

import random
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
import tomli

from standfast.foreman.demo import job_text, write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies.change import dotted
from standfast.foreman.surveyed import listed
from standfast.reading.document import leaves
from standfast.reading.positions import Path as Path_
from standfast.survey.write import put

Planned = Callable[[str], JobPlan]
STAY = {
    "schema", "id", "name", "kind", "from", "to", "what", "date", "adoption", "invented", "document", "file", "title",
    "pages", "battery", "quantity", "wall", "room", "panel", "state", "fed_from", "feeds", "moved_from",
}  # fmt: skip
"""Words whose absence makes another job, or none."""
BODY = {"left", "bottom", "width", "height", "length"}
"""Words that a wall and what is on it cannot be without."""


@pytest.fixture
def planned(tmp_path: Path) -> Planned:
    write_demo("one-wall", tmp_path)

    def plan(text: str) -> JobPlan:
        (tmp_path / "job.toml").write_text(text, "utf-8")
        return make_plan(tmp_path, runner_up=False)

    return plan


def facts(text: str) -> Iterator[tuple[Path_, str, object]]:
    """The facts of a job that may be unknown: path, dotted word, value."""
    data = tomli.loads(text)
    for path, value in leaves(data):
        words = [part for part in path if isinstance(part, str)]
        stays = words[-1] in STAY or (words[0] == "walls" and words[-1] in BODY)
        if isinstance(path[-1], str) and not stays and words[0] not in ("documents", "job", "defects"):
            yield path, dotted(data, path), value


def settled(planned: Planned, whole: str, removed: Sequence[tuple[Path_, str, object]]) -> int:
    """Give back each removed fact by itself: what was said to hang on it alone is told. How many checks that were."""
    text = whole
    for path, _, _ in removed:
        text = put(text, path, "not known")
    count, by_word = 0, {word: (path, value) for path, word, value in removed}
    for row in listed(planned(text).ledger):
        if row.word in by_word and row.alone:
            path, value = by_word[row.word]
            assert isinstance(value, str | bool | int | float)
            now = {check.id: check for check in planned(put(text, path, value)).ledger}
            for id in row.alone:
                assert id not in now or now[id].verdict != "cannot tell", (row.word, id, now[id].reason)
            count += len(row.alone)
    return count


def test_each_row_of_the_half_surveyed_demo_settles_what_it_says(planned: Planned) -> None:
    whole, half = job_text("one-wall"), dict(leaves(tomli.loads(job_text("half-surveyed"))))
    removed = [each for each in facts(whole) if half[each[0]] == "not known"]
    assert len(removed) == 7
    assert settled(planned, whole, removed) >= 17


@pytest.mark.parametrize("seed", range(8))
def test_what_hangs_on_a_fact_alone_is_told_once_it_is_given_back(planned: Planned, seed: int) -> None:
    whole = job_text("one-wall")
    settled(planned, whole, random.Random(seed).sample(list(facts(whole)), 4))
