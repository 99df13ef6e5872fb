"""One job under two adoptions: which verdicts, limits and clauses differ."""

from typing import NamedTuple

from standfast.foreman.plan import JobPlan
from standfast.sheet import Check, Ledger
from standfast.sheet.printed import side


class Change(NamedTuple):
    """A check that comes out otherwise.

    Attributes:
        id: of the check.
        what: what differs: verdict, limit, clause; or "asked", where only one of the two asks it.
        under: the check under the adoption; None where it does not ask it.
        against: the check under the other adoption; None where that does not ask it.
    """

    id: str
    what: tuple[str, ...]
    under: Check | None
    against: Check | None

    @property
    def title(self) -> str:
        """The question."""
        return next(check.title for check in (self.under, self.against) if check is not None)


def changes(under: Ledger, against: Ledger) -> list[Change]:
    """The checks that differ, in the order of the ledgers.

    A clause that has the same number in another edition of the same book does not count as changed.
    """
    mine, other = ({check.id: check for check in ledger} for ledger in (under, against))
    pairs = [(id, mine.get(id), other.get(id)) for id in {**mine, **other}]
    return [Change(id, what, *pair) for id, *pair in pairs if (what := _differs(*pair))]


def _differs(under: Check | None, against: Check | None) -> tuple[str, ...]:
    if under is None or against is None:
        return ("asked",)
    found = {
        "verdict": under.verdict != against.verdict,
        "limit": _limit(under) != _limit(against),
        "clause": (under.clause.book, under.clause.clause) != (against.clause.book, against.clause.clause),
    }
    return tuple(word for word, differs in found.items() if differs)


def _limit(check: Check) -> tuple[object, str] | None:
    return None if check.limit is None else (check.limit.number, check.limit.unit)


def answer(under: JobPlan, against: JobPlan) -> dict[str, object]:
    """The differences as plain data; the form of ``schemas/check-against.json``."""
    found = changes(under.ledger, against.ledger)
    counted = {word: sum(word in each.what for each in found) for word in ("verdict", "limit", "clause", "asked")}
    asked = {check.id for plan in (under, against) for check in plan.ledger}
    return {
        "schema": 1,
        "job": under.title,
        "adoption": under.adoption.name,
        "against": against.adoption.name,
        "changes": [
            {
                "id": each.id,
                "title": each.title,
                "what": list(each.what),
                "under": _data(each.under),
                "against": _data(each.against),
            }
            for each in found
        ],
        "summary": {"checks": len(asked), "alike": len(asked) - len(found), **counted},
    }


def _data(check: Check | None) -> dict[str, object] | None:
    if check is None:
        return None
    return {
        "book": check.clause.book,
        "edition": check.clause.edition,
        "clause": check.clause.clause,
        "verdict": check.verdict,
        "relation": check.relation,
        "limit": side(check.limit),
        "reason": check.reason,
    }
