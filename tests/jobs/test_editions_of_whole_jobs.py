"""Every whole demo under every adoption that can judge a house: a book speaks for the adopted edition or not at all."""

import re
from collections.abc import Iterator

import pytest
from damaged_demos import WHOLE

from standfast.foreman.demo import job_text
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Clause
from standfast.shelf import adoption, adoptions, edition
from standfast.shelf.editions import NOT_HELD

ADOPTIONS = [name for name in adoptions() if {"nfpa70", "irc", "asce7"} <= set(adoption(name).books)]
THIN = [name for name in ADOPTIONS if any(edition(*each).thin for each in adoption(name).books.items())]
LACKS = re.compile(r"no (?:clause|number|table) is held for '\w+'")


@pytest.fixture(scope="module", params=[(demo, name) for demo in WHOLE for name in ADOPTIONS], ids="/".join)
def plan(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    demo, name = request.param
    folder = tmp_path_factory.mktemp("job")
    (folder / "job.toml").write_text(job_text(demo), "utf-8")
    return make_plan(folder, codes=name)


def in_force(plan: JobPlan) -> dict[str, str]:
    """Printed name of each adopted book, and the edition adopted."""
    return {edition(book, year).short: year for book, year in plan.adoption.books.items()}


def cited(plan: JobPlan) -> Iterator[tuple[str, Clause]]:
    """Every clause of verdicts, workings, labels and of what the work brings of the house, with where it is cited."""
    for check in plan.ledger:
        yield check.id, check.clause
        for value in check.values():
            if value.clause is not None:
                yield check.id, value.clause
    yield from ((label.id, label.clause) for label in plan.design.labels)
    for row in plan.design.existing.rows:
        yield row.check.id, row.check.clause
        if row.trigger is not None and row.trigger.clause is not None:
            yield row.check.id, row.trigger.clause


def told(plan: JobPlan) -> Iterator[str]:
    """Every text that a verdict or a value says."""
    for check in plan.ledger:
        yield from (check.title, check.reason, check.condition)
        yield from (value.how for value in check.values())


def test_no_clause_of_another_edition_than_the_adopted_one_is_cited(plan: JobPlan) -> None:
    adopted = in_force(plan)
    clauses = [(at, clause) for at, clause in cited(plan) if clause.book in adopted]
    assert {clause.book for _, clause in clauses} >= {"NEC", "IRC"}
    assert [(at, str(clause)) for at, clause in clauses if clause.edition != adopted[clause.book]] == []


def test_no_text_names_another_edition_than_the_adopted_one(plan: JobPlan) -> None:
    adopted = in_force(plan)
    years = re.compile(rf"\b({'|'.join(map(re.escape, sorted(adopted, key=len, reverse=True)))})[ -]((?:19|20)\d\d)\b")
    named = {(short, year, text) for text in told(plan) for short, year in years.findall(text)}
    assert {each for each in named if not adopted[each[0]].startswith(each[1])} == set()


def test_what_the_edition_does_not_hold_is_not_told_and_names_the_edition(plan: JobPlan) -> None:
    adopted = in_force(plan)
    lacking = [check for check in plan.ledger if check.clause.clause == NOT_HELD]
    assert {check.verdict for check in lacking} <= {"cannot tell"}
    for check in lacking:
        assert check.clause.edition == adopted[check.clause.book], check.id
        assert f"{check.clause.book} {check.clause.edition}" in check.reason, check.id
    for check in plan.ledger:
        if LACKS.search(check.reason):
            assert check.verdict == "cannot tell", check.id
    assert bool(lacking) == (plan.adoption.name in THIN)


def test_a_whole_demo_comes_to_verdicts_of_every_trade(plan: JobPlan) -> None:
    trades = {check.id.partition(".")[0] for check in plan.ledger}
    assert {"siting", "anchorage", "load", "wiring", "lifting"} <= trades
    assert not [check.id for check in plan.ledger if check.verdict == "fail" and check.clause.clause == NOT_HELD]
    assert {"pass", "not applicable"} <= {check.verdict for check in plan.ledger}
