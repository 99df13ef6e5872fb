"""Existing parts: whether the chosen work brings them under the adopted edition, and whether they are in order."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from standfast.design.installation.build import JobFile
from standfast.design.knock_on.parts import Asked, parts
from standfast.design.knock_on.work import brought
from standfast.equipment.prices import Price, Prices
from standfast.faults import NotInEdition
from standfast.sheet import (
    Check,
    Value,
    at_most,
    cannot_tell,
    chosen,
    is_,
    not_applicable,
    one_of,
)
from standfast.shelf import Adoption, Edition
from standfast.survey.existing import Adder, Defect
from standfast.words import say

State = Literal["in order", "done with this job", "lacking", "not known", "not asked"]
SPLICED = "the circuit is only spliced and made longer: no outlet or device is added to it"


class Row(NamedTuple):
    """One line of the knock-on list.

    Attributes:
        asked: the part.
        check: its verdict.
        trigger: which work brings it, with the clause; None where the edition states none.
        state: how it stands, in the words of the list.
        does: what is done to put it in order.
        price: of doing it, net, in the currency of the price list; None where the list holds none.
        adder: the offer in the job file, where there is one.
    """

    asked: Asked
    check: Check
    trigger: Value | None
    state: State
    does: str
    price: Price | None
    adder: Adder | None

    @property
    def brought(self) -> bool:
        """True where the work may bring the part under the edition."""
        return self.state != "not asked"

    @property
    def work(self) -> list[str]:
        """The kinds of work of this job that bring it."""
        words = self.trigger.number if self.trigger is not None and isinstance(self.trigger.number, tuple) else ()
        return [word for word in words if word in self.asked.works and self.asked.works[word].number is True]


class KnockOn(NamedTuple):
    """The knock-on list of a job, what its known defects ask, and the currency of its prices."""

    rows: tuple[Row, ...]
    dangers: tuple[Check, ...]
    currency: str

    @property
    def checks(self) -> list[Check]:
        """Every check, in the order of the list."""
        return [*(row.check for row in self.rows), *self.dangers]


def knock_on(job: JobFile, adoption: Adoption, prices: Prices) -> KnockOn:
    """The existing parts that the work of a job brings under the adopted editions.

    Args:
        job: the job file.
        adoption: the codes in force.
        prices: the price list, for its adders.

    Raises:
        NotInEdition: where the electrical code lacks what all of the list hangs on.
    """
    asked: list[Asked] = []
    if "nfpa70" in adoption.books:  # other rules ask what an alteration brings among their own checks of the wiring
        asked = [each for each in parts(job, adoption.book("nfpa70")) if each.book in adoption.books]
    rows = [_row(job, adoption.book(each.book), each, prices) for each in asked]
    dangers = _dangers(job, adoption.book("practice")) if job.content.defects else ()
    return KnockOn(tuple(rows), tuple(dangers), prices.currency)


def _row(job: JobFile, book: Edition, asked: Asked, prices: Prices) -> Row:
    adder, does = _adder(job, asked), say(f"existing.{asked.key}", where=asked.where)
    price = prices.of("adder", asked.part)
    try:
        trigger = book.number(f"brought_{asked.key}", "trigger")
        check = _judged(job, book, asked, brought(trigger, asked.works), adder, does)
    except NotInEdition as refusal:
        untold = cannot_tell(asked.id, asked.title, book.unheld(), str(refusal))
        return Row(asked, untold, None, "not known", does, price, adder)
    return Row(asked, check, trigger, _state(check, adder), does, price, adder)


def _judged(job: JobFile, book: Edition, asked: Asked, trigger: Value, adder: Adder | None, does: str) -> Check:
    """The verdict on one part: first whether it is asked, then whether it is there or is done with the job."""
    id, title, clause = asked.id, asked.title, book.clause(asked.key)
    if trigger.missing:
        return cannot_tell(id, title, clause, trigger.how, trigger)
    if not trigger.yes:
        return not_applicable(id, title, clause, trigger.how)
    if asked.short is not None:
        return at_most(id, title, clause, asked.short, book.number("extension_free"), condition=SPLICED)
    there = _there(book, asked, trigger)
    if there.verdict == "pass":
        return there
    if asked.free:
        return not_applicable(id, title, clause, asked.free)
    if adder is None or adder.accepted is False:
        return there
    agreed = job.fact(f"adders.{adder.id}.accepted", "accepted")
    done = chosen("done", True, "", f"adder {adder.id}: {does}", clause, agreed)
    return is_(id, title, clause, done, _asked(trigger), condition=say("existing.done", what=does))


def _there(book: Edition, asked: Asked, trigger: Value) -> Check:
    """Whether the part is there as surveyed."""
    id, title, clause = asked.id, asked.title, book.clause(asked.key)
    if not asked.accepted:
        return is_(id, title, clause, asked.found, _asked(trigger))
    enough = book.number(asked.accepted)
    words = enough.number if enough.number is not None else ()
    return one_of(id, title, clause, asked.found, chosen("enough", words, "", trigger.how, clause, trigger, enough))


def _asked(trigger: Value) -> Value:
    return chosen("asked", True, "", trigger.how, trigger.clause, trigger)


def _adder(job: JobFile, asked: Asked) -> Adder | None:
    """The offer for a part: the one at this place goes before one that holds everywhere."""
    offers = [each for each in job.content.adders if each.what == asked.part and each.at in (None, asked.at or None)]
    return max(offers, key=lambda each: each.at is not None, default=None)


def _state(check: Check, adder: Adder | None) -> State:
    match check.verdict:
        case "pass":
            by_job = adder is not None and check.demand is not None and check.demand.symbol == "done"
            return "done with this job" if by_job else "in order"
        case "fail":
            return "lacking"
        case "cannot tell":
            return "not known"
        case _:
            return "not asked"


def _dangers(job: JobFile, practice: Edition) -> Iterator[Check]:
    """What the survey found to be dangerous now is mended or made safe before a source is joined to it."""
    clause, answers = practice.clause("existing_defects"), practice.number("danger_answered")
    for defect in job.content.defects:
        id, title = f"existing.defect/{defect.id}", f"Known defect at {defect.where}: it is no danger to the work"
        danger = job.fact(f"defects.{defect.id}.danger", "danger")
        if danger.missing:
            yield cannot_tell(id, title, clause, danger.how, danger)
        elif danger.word == "immediate":
            answer = job.fact(f"defects.{defect.id}.action", "action")
            yield one_of(id, title, clause, answer, answers, condition=_condition(defect))
        else:
            yield not_applicable(id, title, clause, f"the survey says of it: {danger.word}")


def _condition(defect: Defect) -> str:
    key = "existing.safe" if defect.action == "made safe" else "existing.mend"
    return say(key, where=defect.where, what=defect.what)
