"""Which ladders a check has: each trade enters its own, by the beginning of the id of a check."""

from collections.abc import Callable, Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import anchorage, backup, direct_current, existing, lifting, load, siting, wiring
from standfast.foreman.remedies.change import Ladder
from standfast.sheet import Check

Way = Callable[[JobPlan, Check], Iterator[Ladder]]

WAYS: tuple[tuple[str, tuple[Way, ...]], ...] = (
    *load.WAYS,
    *direct_current.WAYS,
    *wiring.WAYS,
    *backup.WAYS,
    *lifting.WAYS,
    *existing.WAYS,
    *anchorage.WAYS,
    *siting.WAYS,
)
"""Beginning of an id → what can be tried, the least change first. The first beginning that fits counts."""


def of(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The ladders of a check, the least change first; none for a question that no choice decides."""
    ways = next((ways for start, ways in WAYS if check.id.startswith(start)), ())
    for way in ways:
        yield from (ladder for ladder in way(plan, check) if ladder.changes)
