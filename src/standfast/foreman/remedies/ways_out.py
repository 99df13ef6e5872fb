"""What a way out costs, and which clause allows it: the code gives several, and the owner pays for one."""

from collections.abc import Mapping, Sequence

from standfast.foreman.remedies.bench import Bench
from standfast.foreman.remedies.change import Remedy
from standfast.sheet import Check

ASKED = "wiring.source-busbar/"
"""Beginning of the ids of the checks that the code gives alternatives for."""
AHEAD = "wiring.supply-side-sum/"
"""The same of a source that is on no busbar any more, but on the service conductors."""


def asks(check: Check) -> bool:
    """Whether the code gives several ways out of a check, each with its clause."""
    return check.id.startswith(ASKED)


def priced(bench: Bench, check: Check, remedy: Remedy, after: Mapping[str, Check]) -> Remedy:
    """A remedy with the clause that allows it and what it costs more; any other than a way out as it is.

    What it costs is the work of the way itself by the price list, and the difference of everything that is chosen with
    it: conductors, raceways, breakers, fixings. Other equipment is priced by its seller and not here.

    Args:
        bench: on which it was tried.
        check: the one that it was tried for.
        remedy: the change with its text.
        after: every check with the change.
    """
    if not asks(check):
        return remedy
    clause, more = _allowing(check, after).clause, _more(bench, remedy)
    return remedy._replace(text=f"{remedy.text}: {clause}; {_told(bench, remedy, more)}", clause=clause, more=more)


def _allowing(check: Check, after: Mapping[str, Check]) -> Check:
    """The check that says why the way is allowed: of the busbar, else of the connection that the source has instead."""
    ahead = next((each for id, each in after.items() if id.startswith(AHEAD)), None)
    other = next((each for id, each in after.items() if id.startswith(ASKED)), check)
    return after.get(check.id) or ahead or other


def in_order(found: Sequence[Remedy]) -> list[Remedy]:
    """Remedies with the ways out by what they cost, those without a price last; all others where they stood."""
    ways = iter(sorted((each for each in found if each.clause is not None), key=_cost))
    return [each if each.clause is None else next(ways) for each in found]


def _cost(remedy: Remedy) -> tuple[bool, float]:
    return remedy.more is None, remedy.more or 0.0


def _more(bench: Bench, remedy: Remedy) -> float | None:
    before, after = bench.plan.design.choice.best, bench.choice(remedy.change)
    word = remedy.change.work
    work = bench.plan.prices.of("work", word) if word else None
    exchanged = any(each.path[0] == "equipment" for each in remedy.change.words)
    if after is None or exchanged or (word and work is None) or after.best.unpriced > before.unpriced:
        return None
    return round(after.best.price - before.price + (0.0 if work is None else work.amount), 2)


def _told(bench: Bench, remedy: Remedy, more: float | None) -> str:
    if more is None:
        return "without a price in the list"
    work = bench.plan.prices.of("work", remedy.change.work)
    made_up = bench.plan.design.choice.invented if work is None else work.invented
    told = f"{-more if more < 0 else more:,.2f} {bench.plan.prices.currency} {'less' if more < 0 else 'more'}"
    return f"{told}, an invented price" if made_up else told
