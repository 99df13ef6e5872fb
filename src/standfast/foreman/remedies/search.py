"""The search for remedies: every open check, its ladders in turn, the least step that clears it and harms nothing."""

import itertools
from collections.abc import Iterator, Mapping, Sequence

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import ladders, ways_out
from standfast.foreman.remedies.bench import Bench, cleared, harms
from standfast.foreman.remedies.change import Change, Ladder, Remedy, apart, sentence, with_
from standfast.sheet import Check, Ledger

MOST = 3
"""Remedies that a check is told, at most."""
WAYS_OUT = 9
"""The same of a check that the code gives several ways out of."""
PAIRS = 12
"""Pairs of changes that are tried for a check, at most."""
HIGHER = 2
"""Steps beyond the least that clears a check, tried on the whole job where that one harms another."""
ANSWERED = ("siting.unit-spacing/", "siting.ignition-height/")
"""Checks that cannot be told until the authority has answered, and that can be kept out of its way."""
STEPS = 8
"""Steps of a ladder that are tried by one trade, where halving does not find the least."""


def told(plan: JobPlan, asked: Sequence[Check]) -> JobPlan:
    """A job with the remedies of its checks, each also as data: each was tried on the whole job.

    Args:
        plan: the job as worked out.
        asked: the open checks that are asked about.
    """
    found = search(plan, asked)
    by_check: dict[str, list[str]] = {}
    for remedy in ways_out.in_order(found):
        for id in remedy.clears:
            by_check.setdefault(id, []).append(remedy.text)
    checks = [check._replace(remedies=tuple(by_check.get(check.id, ())[: _most(check)])) for check in plan.ledger]
    return plan._replace(ledger=Ledger(checks), remedies=tuple(found))


def search(plan: JobPlan, asked: Sequence[Check]) -> list[Remedy]:
    """The remedies of open checks, as far as the budget of trials goes.

    First one for every check; then, where no single change is one, two together; then more for each.
    """
    bench, found = Bench(plan), dict[Change, Remedy]()
    ways = {check.id: list(_offered(plan, check)) for check in asked if _in_question(check)}
    _by_turns(bench, asked, ways, found, 1)
    for check in asked:
        if check.id in ways and not any(check.id in each.clears for each in found.values()):
            for remedy in _together(bench, check, ways[check.id], list(found.values())):
                found.setdefault(remedy.change, remedy)
    _by_turns(bench, asked, ways, found, MOST)
    return _without_needless(list(found.values()))


def _by_turns(
    bench: Bench, asked: Sequence[Check], ways: Mapping[str, Sequence[Ladder]], found: dict[Change, Remedy], most: int
) -> None:
    """Climb the first ladder of every check, then the second, until each check has so many remedies."""
    for turn in range(max(map(len, ways.values()), default=0)):
        for check in asked:
            having = sum(check.id in remedy.clears for remedy in found.values())
            if turn < len(ways.get(check.id, ())) and having < max(most, _most(check) if most > 1 else 1):
                for remedy in _climb(bench, check, ways[check.id][turn]):
                    found.setdefault(remedy.change, remedy)


def _together(bench: Bench, check: Check, ways: Sequence[Ladder], found: Sequence[Remedy]) -> Iterator[Remedy]:
    """Two changes where one is not enough: two that help others of its trade, or one and a step for this check."""
    trade = check.id.partition(".")[0]
    helping = [each.change for each in found if any(id.startswith(f"{trade}.") for id in each.clears)]
    steps = [change for way in ways for change in itertools.islice(_clearing(bench, check, way), 1)]
    both = (*itertools.combinations(helping, 2), *itertools.product(steps, helping))
    pairs = [with_(one, other) for one, other in both if apart(one, other)]
    for change in itertools.islice((each for each in pairs[:PAIRS] if bench.clears(each, check)), 1 + HIGHER):
        remedy = None if bench.spoils(change, check) else _remedy(bench, check, change)
        if remedy is not None:
            yield remedy
            return


def _without_needless(found: Sequence[Remedy]) -> list[Remedy]:
    """Each remedy for the checks that no part of its change clears by itself."""
    kept: list[Remedy] = []
    for remedy in found:
        smaller = [each for each in found if set(each.change.words) < set(remedy.change.words)]
        clears = tuple(id for id in remedy.clears if not any(id in each.clears for each in smaller))
        if clears:
            kept.append(remedy._replace(clears=clears))
    return kept


def _in_question(check: Check) -> bool:
    """A failure, or what would fail but for an assumption or an answer that nobody asked for. A missing fact has no
    remedy: it has to be found out."""
    if check.verdict == "fail" or check.id.startswith(ANSWERED):
        return True
    sides = [side for side in (check.demand, check.limit) if side is not None]
    return len(sides) == 2 and not any(side.missing for side in sides)


def _offered(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The ladders of a check. Nobody is told to buy something else for a fact that is not known: it is found out."""
    for way in ladders.of(plan, check):
        yield way._replace(changes=tuple(each for each in way.changes if _fits(each, check)))


def _fits(change: Change, check: Check) -> bool:
    """False for other equipment in place of a fact that is not known."""
    return check.verdict == "fail" or not any(
        word.path[0] == "equipment" and word.path[1] != "quantity" for word in change.words
    )


def _climb(bench: Bench, check: Check, ladder: Ladder) -> Iterator[Remedy]:
    """The least step of a ladder that is a remedy; nothing where none is."""
    clearing = itertools.islice(_clearing(bench, check, ladder), STEPS)
    for change in itertools.islice((each for each in clearing if not bench.spoils(each, check)), 1 + HIGHER):
        remedy = _remedy(bench, check, change)
        if remedy is not None:
            yield remedy
            return


def _clearing(bench: Bench, check: Check, ladder: Ladder) -> Iterator[Change]:
    """The steps that clear a check by its own trade, from the least.

    A rising ladder is halved between a step that does not and the last, where that does; else it is climbed.
    """
    changes = ladder.changes
    low, high = 0, len(changes) - 1
    if ladder.rising and high > STEPS and not bench.clears(changes[0], check) and bench.clears(changes[high], check):
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if bench.clears(changes[middle], check) else (middle, high)
        changes = changes[high:]
    yield from (change for change in itertools.islice(changes, STEPS) if bench.clears(change, check))


def _remedy(bench: Bench, check: Check, change: Change) -> Remedy | None:
    """A change as a remedy of a check, tried on the whole job; None where it is none."""
    plan, after = bench.plan, bench.whole(change)
    if after is None or not cleared(check, after) or harms(plan.ledger, after):
        return None
    clears = tuple(each.id for each in plan.ledger.open if _fits(change, each) and cleared(each, after))
    remedy = Remedy(change, sentence(plan.survey.file, plan.survey.raw, change), clears)
    return ways_out.priced(bench, check, remedy, after)


def _most(check: Check) -> int:
    """Remedies that a check is told, at most; of the ways out that the code gives all, so that they can be compared."""
    return WAYS_OUT if ways_out.asks(check) else MOST
