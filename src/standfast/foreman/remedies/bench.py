"""Tries a change of a job: one trade of it, or the whole job, through the same engine that judged it."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from standfast.design.choice.whole import Choice, as_chosen, trial
from standfast.design.knock_on.whole import knock_on
from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.design.whole import design, hold, sights
from standfast.design.wiring.by_book import electrical
from standfast.equipment.read import DataSheet
from standfast.faults import Refusal
from standfast.fieldwork.lifts import lifts
from standfast.foreman.plan import JobPlan, sheets_of
from standfast.foreman.remedies.change import Change
from standfast.sheet import Check
from standfast.survey.read import Survey, changed

READ = 4.0
EACH = {
    "": 0.3, "siting": 0.2, "anchorage": 1.7, "wiring": 0.16, "load": 0.5, "backup": 0.5, "lifting": 1.5,
    "existing": 0.1,
}  # fmt: skip
"""What a trial costs, about in milliseconds: to read the job, and for each check of the trade; "" is the whole job."""
BUDGET = 1700.0
"""What all trials of one job may cost. A count and not a clock: the same job has the same remedies everywhere."""


class Bench:
    """Tries changes and remembers them; stops when its budget is used."""

    def __init__(self, plan: JobPlan) -> None:
        self.plan, self.left = plan, BUDGET
        counts = Counter(_trade(check) for check in plan.ledger)
        counts[""] = len(plan.ledger)
        self._cost = {trade: READ + each * counts[trade] for trade, each in EACH.items()}
        self._jobs: dict[Change, tuple[Survey, Mapping[str, DataSheet]] | None] = {}
        self._tried: dict[tuple[str, Change], dict[str, Check] | None] = {}
        self._choices: dict[Change, Choice] = {}

    def clears(self, change: Change, check: Check) -> bool:
        """True where a change clears a check, as far as the trade of the check goes by itself."""
        found = self._try(_trade(check), change)
        return found is not None and cleared(check, found)

    def spoils(self, change: Change, check: Check) -> bool:
        """True where a change harms another check of the same trade, so that the whole job need not be tried."""
        found = self._try(_trade(check), change)
        return found is not None and harms(self.plan.ledger, found)

    def whole(self, change: Change) -> dict[str, Check] | None:
        """Every check of the job with a change; None where the job cannot be worked out with it."""
        return self._try("", change)

    def choice(self, change: Change) -> Choice | None:
        """What was chosen with a change, where the whole job was worked out with it."""
        return self._choices.get(change)

    def _try(self, trade: str, change: Change) -> dict[str, Check] | None:
        known = self._tried.get(("", change), self._tried.get((trade, change)))
        if known is not None or (trade, change) in self._tried:
            return known
        if self.left < self._cost.get(trade, READ):
            return None
        self.left -= self._cost.get(trade, READ)
        job = self._job(change)
        found = None
        if job is not None:
            try:
                found = {check.id: check for check in self._checks(trade, change, *job)}
            except Refusal:
                found = None
        self._tried[trade, change] = found
        return found

    def _job(self, change: Change) -> tuple[Survey, Mapping[str, DataSheet]] | None:
        """The changed job and its data sheets; None where it has faults."""
        if change not in self._jobs:
            survey = changed(self.plan.survey, [(word.path, word.plain) for word in change.words])
            self._jobs[change] = None if survey is None else self._with_sheets(survey, change)
        return self._jobs[change]

    def _with_sheets(self, survey: Survey, change: Change) -> tuple[Survey, Mapping[str, DataSheet]] | None:
        if not any(word.path[0] == "equipment" for word in change.words):
            return survey, self.plan.sheets
        sheets, faults = sheets_of(survey, self.plan.folder)
        return None if faults else (survey, sheets)

    def _checks(
        self, trade: str, change: Change, job: Survey, sheets: Mapping[str, DataSheet]
    ) -> Iterable[Check]:  # fmt: skip
        books = self.plan.adoption
        rules = electrical(books, sheets)
        if trade == "":
            made = design(job, sheets, books, self.plan.prices, budget=trial(self.plan.design.choice))
            self._choices[change] = made.choice
            return [*made.checks(), *lifts(job, sheets, books, made.siting.places).checks]
        if trade == "wiring":
            chosen = as_chosen(job, self.plan.design.choice)
            return rules.wire(chosen, sights(self.plan.design.siting)).checks
        if trade == "load":
            return rules.load(job).checks
        if trade == "existing":
            return knock_on(job, books, self.plan.prices).checks
        if trade == "backup":
            return rules.backup(job, rules.load(job)).checks
        return self._on_the_wall(trade, job, sheets, site(books, job, sheets))

    def _on_the_wall(
        self, trade: str, job: Survey, sheets: Mapping[str, DataSheet], siting: Siting
    ) -> Iterator[Check]:  # fmt: skip
        books = self.plan.adoption
        if trade == "siting":
            yield from siting.checks
        if trade == "anchorage":
            for held in hold(job, sheets, books, self.plan.prices, siting):
                yield from held.checks
        if trade == "lifting":
            yield from lifts(job, sheets, books, siting.places).checks


def _trade(check: Check) -> str:
    return check.id.partition(".")[0]


_GONE = ("siting.", "anchorage.", "wiring.source-busbar/")
"""Checks that another place of the unit or of its connection may leave without a question: what they ask about is not
there."""


def cleared(check: Check, after: Mapping[str, Check]) -> bool:
    """True where a check that stood open does not any more."""
    found = after.get(check.id)
    return check.id.startswith(_GONE) if found is None else not found.open


def harms(before: Iterable[Check], after: Mapping[str, Check]) -> bool:
    """True where something is open that was not, or fails that did not."""
    was = {check.id: check.verdict for check in before if check.open}
    return any(check.open and was.get(check.id) not in (check.verdict, "fail") for check in after.values())
