"""What would clear a check: the smallest changes of the job file that a person could really make, each tried.

A remedy was worked out through the same engine as the job itself: with it the check does not stand open any more, and
nothing is open that was not before. Surveyed facts are never changed, only what is chosen, wished, put in or exchanged.
"""

from collections.abc import Collection
from typing import TYPE_CHECKING

from standfast.foreman.remedies.change import Change, Remedy, Word

if TYPE_CHECKING:
    from standfast.foreman.plan import JobPlan

__all__ = ["Change", "Remedy", "Word", "remedied"]


def remedied(plan: "JobPlan", among: Collection[str] | None = None) -> "JobPlan":
    """A job with the remedies of its open checks; a job without any is given back as it is, at no cost.

    Args:
        plan: the job as worked out.
        among: ids of the checks that are asked about; None for all.
    """
    asked = [check for check in plan.ledger.open if among is None or check.id in among]
    if not asked:
        return plan
    from standfast.foreman.remedies.search import told

    return told(plan, asked)
