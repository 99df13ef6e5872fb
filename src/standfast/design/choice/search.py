"""Branch and bound over choices that come in the order of a price that they cannot be below.

Fewest open checks come first, then fewest rows without a price, then the least price. A choice that leaves nothing open
and unpriced is beaten by its price alone, so that the search may stop where no further choice can cost less.
"""

from collections.abc import Callable, Iterable
from typing import Generic, NamedTuple, Protocol, TypeVar

TOUCH = 1e-6
"""Prices nearer than this are equal: sums of floats."""


class Option(Protocol):
    """One choice that was worked out."""

    @property
    def open(self) -> int:
        """Its checks that fail or stand open."""

    @property
    def unpriced(self) -> int:
        """Its rows without a price."""

    @property
    def price(self) -> float:
        """The sum of the others."""

    @property
    def settled(self) -> bool:
        """True where only a lower price can be better: what it leaves open, no other choice can close."""


Chosen = TypeVar("Chosen", bound=Option)
Key = TypeVar("Key")


class Found(NamedTuple, Generic[Chosen]):
    """What a search found.

    Attributes:
        best: the best choice that was worked out; None where there was none.
        runner_up: the best of those that differ from it and leave no more open; None where none was worked out.
        bound: the price that no choice is below that leaves as little open, as far as proven.
        proven: true where the best is the best of all, those included that were not worked out.
        looked_at: how many choices were worked out.
    """

    best: Chosen | None
    runner_up: Chosen | None
    bound: float
    proven: bool
    looked_at: int


def rank(option: Option) -> tuple[int, int, float]:
    """What decides between two choices."""
    return option.open, option.unpriced, option.price


def search(
    ordered: Iterable[tuple[float, Key]],
    work_out: Callable[[Key], Chosen],
    differ: Callable[[Chosen, Chosen], bool],
    *,
    alike: Callable[[Chosen, Key], bool],
    budget: int,
    more: int,
) -> Found[Chosen]:
    """The best choice and the best other one.

    Args:
        ordered: choices, each with a price that neither it nor any after it is below.
        work_out: the choice with its checks and rows.
        differ: whether two choices are two for a person.
        alike: whether a choice that is not worked out cannot differ so from one that is.
        budget: how many may be worked out until the best is proven.
        more: how many may be worked out after that, for the runner-up.
    """
    tried: list[Chosen] = []
    bound, proven, left = 0.0, False, more
    for least, key in ordered:
        best = min(tried, key=rank, default=None)
        if best is not None and best.settled and least >= best.price - TOUCH:
            proven, bound = True, best.price
            if not left or _beaten(_second(tried, best, differ), least):
                break
            if alike(best, key):
                continue
            left -= 1
        elif len(tried) >= budget:
            bound = least
            break
        tried.append(work_out(key))
    else:
        proven = True
    if not tried:
        return Found(None, None, 0.0, False, 0)
    best = min(tried, key=rank)
    return Found(best, _second(tried, best, differ), best.price if proven else min(bound, best.price), proven,
                 len(tried))  # fmt: skip


def _second(tried: list[Chosen], best: Chosen, differ: Callable[[Chosen, Chosen], bool]) -> Chosen | None:
    others = (each for each in tried if rank(each)[:2] == rank(best)[:2] and differ(best, each))
    return min(others, key=rank, default=None)


def _beaten(second: Option | None, least: float) -> bool:
    return second is not None and least >= second.price - TOUCH
