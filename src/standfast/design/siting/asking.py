"""A rule of siting, bound to the edition in force that states it.

A rule is a function from the bound rule and a layout to checks, entered under a trade word with the books that may
state it, the local overlay before the model code. Which numbers and words it uses is data of the edition.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Literal, NamedTuple

from standfast.design.siting.layout import Layout, Unit
from standfast.design.siting.solid import less, tenths
from standfast.faults import NotInEdition, Refusal
from standfast.sheet import Check, Clause, Value, at_least, cannot_tell, chosen, given, measured
from standfast.shelf import Adoption, Edition
from standfast.units import convert, show

PART = "siting."
_WORDED = re.compile(r"[a-z]\w*(\.[\w-]+)*: ")


class Ask(NamedTuple):
    """A rule, the edition and clause that state it, the rules applied beside it, and the placing tolerance."""

    rule: str
    book: Edition
    clause: Clause
    beside: Mapping[str, "Ask"] = {}
    placing: Value | None = None

    @property
    def slack(self) -> int:
        """The placing tolerance in tenths: every zone is larger by it."""
        return 0 if self.placing is None else tenths(self.placing.quantity)

    def id(self, *parts: str) -> str:
        """The stable id of one check of this rule."""
        return PART + "/".join((self.rule, *parts))

    def distance(self, key: str, limits_in: Literal["ft in", "mm"] = "ft in") -> Value:
        """A length of the edition in mm.

        Args:
            key: entry of the edition's numbers.
            limits_in: for a rule written in feet or inches, whether the exact conversion decides, or the whole
                millimetres that are printed beside it.
        """
        value = self.book.number(key)
        printed = None
        if limits_in == "mm" and value.unit in ("ft", "in"):
            printed = self.book.number(f"{key}_printed")
        return in_mm(value, limits_in, printed)

    def words(self, key: str) -> frozenset[str]:
        """A set of words of the edition."""
        number = self.book.number(key).number
        if not isinstance(number, tuple):
            raise NotInEdition(f"{self.clause} holds no set of words for {key}")
        return frozenset(number)

    def fails(self, title: str, reason: str, *parts: str) -> Check:
        """A refusal that has no number."""
        return Check(self.id(*parts), title, self.clause, "fail", reason=reason)

    def passes(
        self, title: str, *parts: str, condition: str = "", reason: str = "", seen: Value | None = None
    ) -> Check:
        """A pass that compares no numbers; `seen` is the fact that it rests on."""
        return Check(self.id(*parts), title, self.clause, "pass", demand=seen, condition=condition, reason=reason)

    def unknown(self, title: str, fact: str, *parts: str) -> Check:
        """A fact that decides is not known; where `fact` begins with the word that takes it, so does the reason."""
        reason = fact if _WORDED.match(fact) else f"not known: {fact}"
        return cannot_tell(self.id(*parts), title, self.clause, reason)

    def clear(self, title: str, actual_mm: float, how: str, limit: Value, *parts: str) -> Check:
        """A length that is there against the one asked for, taken at the bad end of the placing tolerance."""
        there = measured("clear_mm", actual_mm, "mm", how)
        if self.placing is not None:
            least = less(actual_mm, self.slack)
            there = measured("clear_least", least, "mm", "less the placing tolerance", there, self.placing)
        return at_least(self.id(*parts), title, self.clause, there, limit)


Judge = Callable[[Ask, Layout], Iterable[Check]]


class Rule(NamedTuple):
    """An entered rule: its id, the key of its clause, the books that may state it, the function that judges."""

    id: str
    key: str
    books: tuple[str, ...]
    judge: Judge


RULES: dict[str, Rule] = {}


def rule(id: str, *books: str, key: str = "") -> Callable[[Judge], Judge]:
    """Enter a rule under its id; `key` is that of its clause, where it is not the id itself."""

    def enter(judge: Judge) -> Judge:
        RULES[id] = Rule(id, key or id.replace("-", "_"), books, judge)
        return judge

    return enter


def bound(adoption: Adoption, id: str) -> Ask:
    """The rule in the first of its books that is in force and states it. NotInEdition where none does."""
    found = RULES[id]
    for name in found.books:
        if name in adoption.books:
            book = adoption.book(name)
            try:
                return Ask(id, book, book.clause(found.key))
            except NotInEdition:
                continue
    raise NotInEdition(f"no book of the adoption {adoption.name} states {id!r}")


def stated(adoption: Adoption) -> list[str]:
    """Ids of the rules that some book in force states, in the order in which they were entered."""
    found = []
    for id in RULES:
        try:
            bound(adoption, id)
        except NotInEdition:
            continue
        found.append(id)
    return found


def unstated(adoption: Adoption) -> list[tuple[str, Edition, str]]:
    """Rules that no book in force states though one that may state them is held in part only.

    Returns:
        For each the id of the rule, the thin edition, and the key of the clause that it lacks.
    """
    there, found = set(stated(adoption)), []
    for id, entered in RULES.items():
        thin = [each for name in entered.books if name in adoption.books and (each := adoption.book(name)).thin]
        if thin and id not in there:
            found.append((id, thin[0], entered.key))
    return found


def judge(adoption: Adoption, layout: Layout, ids: Iterable[str]) -> list[Check]:
    """The checks of some rules on a layout. A rule whose number is not held cannot be told.

    Raises:
        NotInEdition: where no book in force states one of the rules.
    """
    checks: list[Check] = []
    asked = {id: bound(adoption, id) for id in ids}
    for id, found in asked.items():
        ask = found._replace(beside=asked, placing=layout.facts.placing)
        try:
            checks.extend(RULES[id].judge(ask, layout))
        except Refusal as refusal:
            checks.append(cannot_tell(ask.id(), id, ask.clause, str(refusal)))
    return checks


def in_mm(value: Value, limits_in: Literal["ft in", "mm"], printed: Value | None = None) -> Value:
    """A length of a book in mm: exact, or in the whole millimetres that decide.

    Args:
        value: the length in the unit of the book.
        limits_in: what decides a length in feet or inches.
        printed: the millimetres that the book prints beside it; where none are held, the nearest whole ones.
    """
    if value.unit == "mm":
        return value
    symbol, exact = f"{value.symbol}_mm", convert(value.quantity, value.unit, "mm")
    if limits_in == "ft in" or value.unit == "m":
        return chosen(symbol, exact, "mm", f"{show(value.quantity, value.unit)} exactly", value.clause, value)
    if printed is None:
        return chosen(symbol, float(round(exact)), "mm", "whole millimetres decide", value.clause, value)
    return chosen(symbol, printed.quantity, "mm", "the printed millimetres decide", value.clause, value, printed)


def standing(unit: Unit) -> Value:
    """Where a unit stands, from the kind of the room or place from which its wall is seen."""
    return given("place", unit.place or "", "", "rooms: kind of the room, or place outdoors, of the wall")


def provided(check: Check, condition: str) -> Check:
    """A failure that something can make good: it passes on that condition."""
    return check._replace(verdict="pass", condition=condition) if check.verdict == "fail" else check


def held(adoption: Adoption, books: Iterable[str], key: str) -> Value:
    """A number of the first of some books that is in force and holds it. NotInEdition where none does."""
    for name in books:
        if name in adoption.books:
            try:
                return adoption.book(name).number(key)
            except NotInEdition:
                continue
    raise NotInEdition(f"no book of the adoption {adoption.name} holds {key!r}")
