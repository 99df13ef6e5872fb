"""Which settings hold for a job: the book on the grid that its adoption names, its operator, its category or region."""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from standfast.design.settings.setting import Profile, Setting
from standfast.faults import NotInEdition
from standfast.reading import Document
from standfast.sheet import Check, Clause, Value, cannot_tell, is_, not_applicable, one_of
from standfast.shelf import Adoption, Edition, Overlay, as_asked, operator
from standfast.survey.model import Job

JobFile = Document[Job]
Rows = Callable[[Edition, Edition, Mapping[str, Value]], Iterator[Setting]]


class Kind(NamedTuple):
    """How one book tells its settings apart.

    Attributes:
        rules: what it tells them apart by: the word of ``[grid]``, and the number of the book with all that there are.
        rows: the settings.
        unasked: what may be sent into the grid in W without asking, by the phases of the supply; None where everybody
            asks first.
    """

    rules: Mapping[str, str]
    rows: Rows
    unasked: Callable[[Edition, Value], Value] | None = None


def _american(book: Edition, standard: Edition, rules: Mapping[str, Value]) -> Iterator[Setting]:
    from standfast.design.settings import american

    return american.rows(book, standard, rules["category"], rules["normal_category"])


def _british(book: Edition, standard: Edition, rules: Mapping[str, Value]) -> Iterator[Setting]:
    from standfast.design.settings import british

    return british.rows(book)


def _british_unasked(book: Edition, phases: Value) -> Value:
    from standfast.rulebooks.erec import route

    return route.limit(book, route.limit_per_phase(book, book.number("nominal_voltage")), phases)


def _australasian(book: Edition, standard: Edition, rules: Mapping[str, Value]) -> Iterator[Setting]:
    from standfast.design.settings import australasian

    return australasian.rows(book, rules["region"])


KINDS: dict[str, Kind] = {
    "ieee1547": Kind({"category": "categories", "normal_category": "normal_categories"}, _american),
    "erec": Kind({}, _british, _british_unasked),
    "asnzs4777_2": Kind({"region": "regions_known"}, _australasian),
}
"""The books on the grid; an adoption names one of them. Those of other places are not loaded."""


def profile(job: JobFile, adoption: Adoption) -> Profile | None:
    """The rules that hold for a job; None where its adoption names no book on the grid."""
    name = next((each for each in KINDS if each in adoption.books), None)
    if name is None:
        return None
    standard, asked = adoption.book(name), _operator(job)
    rules = {word: job.fact(f"grid.{word}", word) for word in KINDS[name].rules}
    return Profile(standard, as_asked(standard, asked), asked, rules)


def rows(found: Profile) -> Iterator[Setting]:
    """The settings of a profile, each with who asks for it."""
    make, standard = KINDS[found.standard.book].rows, found.standard
    own = list(make(found.book, standard, found.rules))
    if found.operator is None:
        yield from own
        return
    for asked, usual in zip(own, make(standard, standard, found.rules), strict=True):
        changed = any(
            each.clause is not None and each.clause.book == found.operator.short for each in asked.value.trail()
        )
        yield asked._replace(origin="operator", default=usual.value) if changed else asked


def checks(job: JobFile, found: Profile) -> Iterator[Check]:
    """Whether the operator's data hold on the day, and category or region are known and those that he asks."""
    yield _dated(job, found)
    for word, value in found.rules.items():
        name, key = word.replace("_", " "), word.replace("_", "-")
        title, clause = f"The {name} of the settings is one of the standard's", found.book.clause(word)
        yield one_of(f"settings.{key}", title, clause, value, found.book.number(KINDS[found.book.book].rules[word]))
        asked = _asked(found.book, word)
        if asked is not None and asked.clause is not None:
            title = f"The {name} is the one that the operator asks for"
            yield is_(f"settings.{key}-asked", title, asked.clause, value, asked)


def _operator(job: JobFile) -> Overlay | None:
    name = job.content.grid.operator
    try:
        return None if name is None else operator(name, job.content.job.date)
    except NotInEdition:  # told by the check
        return None


def _asked(book: Edition, word: str) -> Value | None:
    try:
        return book.number(f"asked_{word}")
    except NotInEdition:
        return None


def _dated(job: JobFile, found: Profile) -> Check:
    id, title = "settings.operator", "The settings of the grid operator hold on the date of the job"
    name, day = job.content.grid.operator, job.content.job.date
    if found.operator is not None:
        return Check(id, title, Clause(found.operator.short, found.operator.edition, found.operator.title), "pass")
    clause = Clause("Grid operator", "", "settings")
    if job.left_out("grid.operator"):
        reason = (
            "grid.operator is not stated: the sheet holds the standard's own settings. Ask the operator whether he has "
            "others before anything is set"
        )
        return not_applicable(id, title, clause, reason)
    if name is None:
        return cannot_tell(id, title, clause, job.fact("grid.operator", "operator").how)
    try:
        operator(name, day)
    except NotInEdition as refusal:
        return cannot_tell(id, title, clause, f"grid.operator: {refusal}")
    return cannot_tell(id, title, clause, f"grid.operator: the settings of {name!r} change no book of this adoption")
