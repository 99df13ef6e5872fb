"""Ladders of existing parts: the work is offered with the job, or a known defect is mended with it.

Whether the owner pays for it is for the owner to say: what stands here is what to ask for.
"""

import json
from collections.abc import Iterator

from standfast.design.knock_on.parts import IDS
from standfast.design.knock_on.whole import Row
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Change, Entry, Ladder, ladder, one
from standfast.sheet import Check

DEFECT = "existing.defect/"


def offered(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The part is put in order with this job, where the owner agrees to its price."""
    row = next((each for each in plan.design.existing.rows if each.check.id == check.id), None)
    if row is None:
        return
    says = f"do it with this job, if the owner agrees: {row.does} ({_price(plan, row)})"
    yield ladder([_agreed(plan, row, says)])


def mended(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A defect that is a danger now is mended with this job, or made safe."""
    ids = [defect.id for defect in plan.survey.job.defects]
    number = ids.index(check.id.removeprefix(DEFECT))
    where = ("defects", number, "action")
    yield ladder(
        [
            one("mend the defect with this job", (where, "with this job")),
            one("make the defect safe before anything is connected", (where, "made safe")),
        ]
    )


def _agreed(plan: JobPlan, row: Row, says: str) -> Change:
    adders = plan.survey.job.adders
    held = next((number for number, adder in enumerate(adders) if row.adder is adder), None)
    if held is not None:
        return one(says, (("adders", held, "accepted"), True))
    part, at = row.asked.part, row.asked.at
    words: dict[str, str | bool] = {"id": _name(plan, row), "what": part}
    if at:
        words["at"] = at
    words["accepted"] = True
    told = ", ".join(f"{word} = {json.dumps(value)}" for word, value in words.items() if word != "id")
    return one(says, (("adders", len(adders)), Entry(json.dumps(words), f"added: {told}")))


def _name(plan: JobPlan, row: Row) -> str:
    """An id that no offer of the job has yet."""
    taken = {adder.id for adder in plan.survey.job.adders}
    name = "-".join(filter(None, (IDS[row.asked.part], row.asked.at)))
    while name in taken:
        name += "-2"
    return name


def _price(plan: JobPlan, row: Row) -> str:
    if row.price is None:
        return "an adder without a price in the list"
    invented = ", an invented price" if row.price.invented else ""
    return f"adder, {row.price.amount:,.0f} {plan.design.existing.currency}{invented}"


WAYS = ((DEFECT, (mended,)), ("existing.", (offered,)))
"""The least change first."""
