"""Checks: one question of one clause, answered pass, fail, cannot tell or not applicable.

A check never raises for a missing fact or a rule that cannot be applied: it answers *cannot tell* and says why.
"""

from collections.abc import Callable
from typing import Literal, NamedTuple

from standfast.faults import BadFormula, Refusal, UnitMismatch
from standfast.sheet.steps import needs
from standfast.sheet.value import Clause, Value
from standfast.terms import Verdict

Relation = Literal["≤", "≥", "between", "is", "is not", "is one of", "exactly", ""]
Basis = Literal["print", "secondary", "memory", "common practice", "assumed", "survey"]
_WEAKNESS: dict[Basis, int] = {"survey": 0, "print": 1, "secondary": 2, "common practice": 3, "memory": 4, "assumed": 5}


class Check(NamedTuple):
    """One verdict with everything it rests on.

    Attributes:
        id: stable, in trade words: ``siting.opening-clearance/battery-1/window-2``.
        title: the question as a person asks it.
        clause: the clause that demands it; its edition is part of it.
        verdict: the answer.
        relation: how demand and limit are compared; empty where nothing was compared.
        demand: what is there, or asked of the part.
        limit: what the clause allows.
        margin: how far on the good side, in the unit of the demand; None where there is no number.
        condition: what must be provided or shown for the verdict to hold.
        reason: why it cannot be told or is not applicable; empty else, or a remark.
        remedies: smallest changes that clear a failure.
    """

    id: str
    title: str
    clause: Clause
    verdict: Verdict
    relation: Relation = ""
    demand: Value | None = None
    limit: Value | None = None
    margin: float | None = None
    condition: str = ""
    reason: str = ""
    remedies: tuple[str, ...] = ()

    @property
    def open(self) -> bool:
        """True where the job cannot go on because of this check."""
        return self.verdict in ("fail", "cannot tell")

    def _repr_html_(self) -> str:
        from standfast.sheet.shown import check_html

        return check_html(self)

    def values(self) -> list[Value]:
        """Every value of the trail, inputs before what uses them, each once."""
        found: dict[int, Value] = {}
        for side in (self.demand, self.limit):
            if side is not None:
                found.update((id(value), value) for value in side.trail())
        return list(found.values())

    @property
    def basis(self) -> Basis:
        """The weakest ground that the check rests on."""
        weakest: Basis = "survey"
        for value in self.values():
            ground: Basis = "assumed" if value.kind == "assumed" else (value.seen or "survey")
            if _WEAKNESS[ground] > _WEAKNESS[weakest]:
                weakest = ground
        return weakest

    def assumptions(self) -> list[Value]:
        """The assumed values it rests on: each becomes a step *verify on site*."""
        return [value for value in self.values() if value.kind == "assumed"]


class _Asked(NamedTuple):
    """A question before it is answered."""

    id: str
    title: str
    clause: Clause
    relation: Relation
    demand: Value
    limit: Value
    condition: str

    def answered(self, verdict: Verdict, margin: float | None, reason: str = "") -> Check:
        """The check with this answer; a condition stands only beside a pass."""
        condition = self.condition if verdict == "pass" else ""
        return Check(
            self.id, self.title, self.clause, verdict, self.relation, self.demand, self.limit, margin, condition, reason
        )


def at_most(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where the demand is not more than the limit; equal passes."""
    return _compare(_Asked(id, title, clause, "≤", demand, limit, condition), lambda d, m: m - d)


def at_least(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where the demand is not less than the limit; equal passes."""
    return _compare(_Asked(id, title, clause, "≥", demand, limit, condition), lambda d, m: d - m)


def exactly(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where the demand equals the limit: for counts and ratings."""
    asked = _Asked(id, title, clause, "exactly", demand, limit, condition)
    _one_unit(asked)
    return _judge(asked, lambda: demand.quantity == limit.quantity)


def is_(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where a word or yes/no is the one asked for."""
    asked = _Asked(id, title, clause, "is", demand, limit, condition)
    return _judge(asked, lambda: demand.number == limit.number)


def one_of(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where a word is one of a set."""
    asked = _Asked(id, title, clause, "is one of", demand, limit, condition)
    return _judge(asked, lambda: demand.word in _words(limit))


def none_of(id: str, title: str, clause: Clause, demand: Value, limit: Value, *, condition: str = "") -> Check:
    """Passes where a word is not one of a set."""
    asked = _Asked(id, title, clause, "is not", demand, limit, condition)
    return _judge(asked, lambda: demand.word not in _words(limit))


def cannot_tell(id: str, title: str, clause: Clause, reason: str, *values: Value) -> Check:
    """The fact or the rule is not there."""
    demand = values[0] if values else None
    return Check(id, title, clause, "cannot tell", demand=demand, reason=reason)


def not_applicable(id: str, title: str, clause: Clause, reason: str) -> Check:
    """The clause asks nothing here, for a reason that a tradesperson accepts."""
    return Check(id, title, clause, "not applicable", reason=reason)


def settle(id: str, title: str, clause: Clause, ask: Callable[[], Check]) -> Check:
    """Ask for a check; a refusal becomes *cannot tell* with its text as reason, so one gap never stops the others."""
    try:
        return ask()
    except Refusal as refusal:
        return cannot_tell(id, title, clause, str(refusal))


def _compare(asked: _Asked, margin_of: Callable[[float, float], float]) -> Check:
    _one_unit(asked)
    if asked.demand.missing or asked.limit.missing:
        return _unknown(asked)
    margin = margin_of(asked.demand.quantity, asked.limit.quantity)
    return _decided(asked, holds=margin >= 0, margin=margin)


def _judge(asked: _Asked, holds: Callable[[], bool]) -> Check:
    if asked.demand.missing or asked.limit.missing:
        return _unknown(asked)
    return _decided(asked, holds=holds(), margin=None)


def _decided(asked: _Asked, *, holds: bool, margin: float | None) -> Check:
    """The verdict, unless it rests on an assumption that may not decide it."""
    found = asked.answered("pass" if holds else "fail", margin)
    doubtful = [value for value in found.assumptions() if not (holds and value.bounding)]
    if not doubtful:
        return found
    ground = "; ".join(dict.fromkeys(value.how for value in doubtful))
    return asked.answered("cannot tell", margin, f"it would {found.verdict}, but this was assumed: {ground}")


def _unknown(asked: _Asked) -> Check:
    return asked.answered("cannot tell", None, "; ".join(dict.fromkeys(needs(asked.demand) + needs(asked.limit))))


def _one_unit(asked: _Asked) -> None:
    demand, limit = asked.demand, asked.limit
    if demand.unit != limit.unit:
        reason = f"{demand.symbol} is in {demand.unit}, but {limit.symbol} is in {limit.unit}"
        raise UnitMismatch(f"{asked.id}: {reason}")


def _words(limit: Value) -> tuple[str, ...]:
    if isinstance(limit.number, tuple):
        return limit.number
    raise BadFormula(f"{limit.symbol} is not a set of words")
