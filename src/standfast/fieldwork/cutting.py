"""Cutting stock: pieces out of bars, sticks, spools or drums of one length, in as few of them as can be.

First fit decreasing makes a plan; a lower bound says how few could do; a branch and bound closes what is between them.
Lengths are whole tenths of a millimetre, so that no float decides whether a piece still fits.
"""

from collections.abc import Sequence
from typing import NamedTuple

BUDGET = 50_000
"""Nodes that the branch and bound looks at; beyond them the plan stands with its bound and is not called proven."""
DEEPEST = 250
"""Pieces beyond which it does not start."""


class Cuts(NamedTuple):
    """How pieces are cut.

    Attributes:
        bars: the places of the pieces in what was given, bar by bar, longest first.
        waste: what is left of each bar, saw cuts taken off, in tenths of a millimetre.
        bound: bars that no plan can do without.
        proven: true where the plan takes no more.
        too_long: places of pieces that no bar holds; they are in no bar.
    """

    bars: tuple[tuple[int, ...], ...]
    waste: tuple[int, ...]
    bound: int
    proven: bool
    too_long: tuple[int, ...]


def cut(pieces: Sequence[int], bar: int, kerf: int = 0, budget: int = BUDGET) -> Cuts:
    """Cut pieces from bars of one length.

    Args:
        pieces: lengths, in tenths of a millimetre; those of nothing take no bar.
        bar: length of a bar, in tenths of a millimetre.
        kerf: what the saw takes between two pieces, in tenths of a millimetre.
        budget: nodes of the branch and bound.

    A bar of k pieces has k - 1 saw cuts between them: each piece and the bar itself are taken longer by one cut. The
    last cut may fall beside the end of the bar.
    """
    room = bar + kerf
    held = sorted((place for place in range(len(pieces)) if 0 < pieces[place] <= bar), key=lambda at: (-pieces[at], at))
    sizes = [pieces[place] + kerf for place in held]
    plan, least = _first_fit(sizes, room), _bound(sizes, room)
    if len(plan) > least and len(sizes) <= DEEPEST:
        search = _Search(sizes, room, plan, least, budget)
        search.place(0, [], [])
        plan, proven = search.best, len(search.best) == least or search.left > 0
        least = len(plan) if proven else least
    else:
        proven = len(plan) == least
    waste = [room - sum(sizes[each] for each in one) for one in plan]
    long = tuple(place for place, length in enumerate(pieces) if length > bar)
    return Cuts(tuple(tuple(held[each] for each in one) for one in plan), tuple(waste), least, proven, long)


def _first_fit(sizes: Sequence[int], room: int) -> list[list[int]]:
    """Each piece, longest first, into the first bar that still has room for it."""
    bars: list[list[int]] = []
    left: list[int] = []
    for place, size in enumerate(sizes):
        at = next((number for number, free in enumerate(left) if free >= size), len(bars))
        if at == len(bars):
            bars.append([])
            left.append(room)
        bars[at].append(place)
        left[at] -= size
    return bars


def _bound(sizes: Sequence[int], room: int) -> int:
    """Bars that every plan takes, by the bound L2 of Martello and Toth (Knapsack Problems, 1990, 8.3.2).

    For a length a up to half a bar, pieces longer than a bar less a stand alone; those longer than half a bar stand
    apart, and what they leave holds at most as much of the rest that is not shorter than a.
    """
    best = 0
    for short in {0, *(size for size in sizes if 2 * size <= room)}:
        alone = sum(size > room - short for size in sizes)
        apart = [size for size in sizes if room - short >= size and 2 * size > room]
        small = sum(size for size in sizes if short <= size and 2 * size <= room)
        over = small - (len(apart) * room - sum(apart))
        best = max(best, alone + len(apart) + max(0, -(-over // room)))
    return best


class _Search:
    """A depth first search over which bar each piece goes into, longest piece first.

    Bars with the same room left are one bar; a new bar is opened only where fewer than the best plan would be open.
    """

    __slots__ = ("best", "least", "left", "rest", "room", "sizes")

    def __init__(self, sizes: Sequence[int], room: int, plan: list[list[int]], least: int, budget: int) -> None:
        self.sizes, self.room, self.best, self.least, self.left = sizes, room, plan, least, budget
        self.rest = [sum(sizes[place:]) for place in range(len(sizes) + 1)]

    def place(self, place: int, bars: list[list[int]], free: list[int]) -> None:
        """Put the piece and all behind it into bars; `free` is what each bar has left."""
        if self.left <= 0 or len(self.best) == self.least:
            return
        self.left -= 1
        if place == len(self.sizes):
            self.best = [list(each) for each in bars]
            return
        more = -(-(self.rest[place] - sum(free)) // self.room)
        if len(bars) + max(0, more) >= len(self.best):
            return
        size, tried = self.sizes[place], set[int]()
        for at, room in enumerate(free):
            if room >= size and room not in tried:
                tried.add(room)
                self._into(place, at, bars, free)
        if len(bars) + 1 < len(self.best):
            bars.append([])
            free.append(self.room)
            self._into(place, len(bars) - 1, bars, free)
            bars.pop()
            free.pop()

    def _into(self, place: int, at: int, bars: list[list[int]], free: list[int]) -> None:
        bars[at].append(place)
        free[at] -= self.sizes[place]
        self.place(place + 1, bars, free)
        free[at] += self.sizes[place]
        bars[at].pop()
