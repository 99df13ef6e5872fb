"""What the replay tells, in each language: the number and text of the step, the part, what feeds it."""

import pytest
from tablet import Tablet

from standfast.fieldwork.record.causal import known
from standfast.fieldwork.record.told_now import WORDS, Orders, told_now
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


@pytest.fixture(scope="module")
def orders(tmp_path_factory: pytest.TempPathFactory) -> Orders:
    site = sitework(make_plan(write_demo("one_wall", tmp_path_factory.mktemp("job"))))
    plans = {language: site.in_language(language) for language in ("en", "es")}
    return {language: (plan, work_order(plan)) for language, plan in plans.items()}


def done(*steps: str) -> Tablet:
    one = Tablet("a")
    for each in steps:
        one.tell("done", each)
    return one


def test_a_day_as_planned_tells_nothing(orders: Orders) -> None:
    ids = [step.id for step in orders["en"][1].steps]
    assert told_now(known(done(*ids).log), orders) == []
    assert told_now(known(done(*ids[:20]).log), orders) == []


def test_hands_on_a_live_conductor_are_told_in_each_language(orders: Orders) -> None:
    order = orders["en"][1]
    step = next(each for each in order.steps if each.touches and each.hands and not each.proves)
    rows = told_now(known(done(step.id).log), orders)
    row = next(row for row in rows if row["kind"] == "was" and "live from" in row["text"]["en"])
    assert f"Step {order.numbers[step.id]} was done while" in row["text"]["en"] and step.text in row["text"]["en"]
    assert row["text"]["es"].startswith(f"El paso {order.numbers[step.id]} se hizo")
    assert row["step"] == step.id


def test_a_test_left_out_and_one_that_counts_no_longer(orders: Orders) -> None:
    order = orders["en"][1]
    ids = [step.id for step in order.steps]
    tested = next(step.id for step in order.steps if step.clears)
    rows = told_now(known(done(*(id for id in ids if id != tested)).log), orders)
    assert {row["step"] for row in rows if row["kind"] == "untested"} == {tested}
    assert {row["kind"] for row in rows} == {"untested", "now"}  # nobody may test it now: it is live
    opened = next(id for id, redo in order.redo.items() if tested in redo)
    rows = told_now(known(done(*ids, opened).log), orders)
    assert {"again", "untested"} <= {row["kind"] for row in rows}
    assert any("counts no longer" in row["text"]["en"] for row in rows)


def test_what_two_tablets_did_at_one_time_is_told_where_it_matters(orders: Orders) -> None:
    order = orders["en"][1]
    turning = next(step for step in order.steps if step.turns)
    touching = next(step for step in order.steps if step.touches and step.hands and not step.turns)
    plain = [step for step in order.steps if not any((
        step.turns, step.touches, step.proves, step.clears, step.takes_off, step.puts_on, step.behind, step.shut,
    ))]  # fmt: skip
    a, b = done(turning.id), Tablet("b")
    b.tell("done", touching.id)
    rows = told_now(known([*a.log, *b.log]), orders)
    assert [row for row in rows if row["kind"] == "unsure"]
    a, b = done(plain[0].id), Tablet("b")
    b.tell("done", plain[1].id)
    assert told_now(known([*a.log, *b.log]), orders) == []


def test_every_danger_has_its_words() -> None:
    from standfast.words import has

    for word in set(WORDS.values()) - {"sensor"}:
        for kind in ("now", "was"):
            assert has(f"replay.{kind}_{word}") and has(f"replay.{kind}_{word}", "es")
    assert all(
        has(f"replay.{key}", language) for key in ("sensor", "untested", "redo", "unsure") for language in ("en", "es")
    )
