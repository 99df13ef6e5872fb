"""Ladders of lifting: more people, another aid, the unit higher or lower."""

from collections.abc import Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, places
from standfast.foreman.remedies.change import Ladder, ladder, one
from standfast.sheet import Check

MOST_PEOPLE = 6


def people(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """One more person, two more, …"""
    have = plan.survey.job.handling.crew or 0
    says = "bring {} people"
    yield ladder(
        (one(says.format(n), (("handling", "crew"), n)) for n in range(have + 1, MOST_PEOPLE + 1)), rising=True
    )


WAYS = (
    ("lifting.aid-crew", (people, at_hand.other("aid"))),
    ("lifting.aid-", (at_hand.other("aid"), places.place)),
    ("lifting.", (at_hand.other("aid"), people, places.place)),
)
"""The least change first."""
