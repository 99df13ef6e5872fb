"""One group on one wall: which lower edges are free at a left edge, and which of them matter."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from functools import cached_property

from standfast.design.siting.question import Question, bottom_lines, left_lines, on_arcs, root_above
from standfast.design.siting.solid import Span

NOWHERE = math.inf


class Stand:
    """The free places of a unit on a wall.

    Lower edges are ranked by what they cost, and a set of them is the bits of a whole number: its lowest bit is the
    cheapest. Keep-outs without reach change that set only at their own edges, so it is worked out once between two.
    """

    def __init__(
        self, ask: Question, layers: Sequence[Span] = (), bottoms: Iterable[int] = (), arcs: Iterable[int] = ()
    ) -> None:
        """Prepare a wall.

        Args:
            ask: the question of the unit there.
            layers: heights of strips that the unit can block: whether it stands in one matters beside its cost.
            bottoms: lower edges at which other units hold it, beside those of the question.
            arcs: lower edges at which it may touch a round corner.
        """
        self.ask = ask
        self.layers = layers
        lines = {line for layer in layers for line in (layer.high, layer.low - ask.height) if line >= 0}
        lines |= {*bottoms, *arcs}
        lines = {*lines, *bottom_lines(ask)} if ask.bottom is None else {ask.bottom}
        self.bottoms = sorted(lines)
        self.ranked = sorted((ask.cost_up(bottom), bottom) for bottom in self.bottoms)
        rank = {bottom: at for at, (_, bottom) in enumerate(self.ranked)}
        self.prefix = [0]
        for bottom in self.bottoms:
            self.prefix.append(self.prefix[-1] | 1 << rank[bottom])
        self.rank = rank
        self.held = {line for layer in layers for line in (layer.high, layer.low - ask.height)} | {0, *bottoms}
        self.flat = [each for each in ask.keepouts if not each.reach2]
        self.round = [each for each in ask.keepouts if each.reach2]
        self.shut = [
            (each.x.low - ask.width, each.x.high, ~self._between(each.z.low - ask.height, each.z.high))
            for each in self.flat
        ]
        self.edges = sorted({edge for each in self.flat for edge in (each.x.low - ask.width, each.x.high)})
        self.plain = not layers and not self.round
        self.known: dict[int, int] = {}
        self.across: dict[int, int] = {}

    @cached_property
    def sorts(self) -> list[int]:
        """The lower edges by the layers that a unit there stands in."""
        sorts: dict[tuple[bool, ...], int] = {}
        for at, (_, bottom) in enumerate(self.ranked):
            key = self.within(bottom)
            sorts[key] = sorts.get(key, 0) | 1 << at
        return list(sorts.values())

    @cached_property
    def kept(self) -> int:
        """The lower edges that hold a unit though no keep-out does: where the cost bends, the floor, and some more."""
        cost, lines = self.ask.cost_up, self.held
        bits = 0
        for at, (here, bottom) in enumerate(self.ranked):
            if bottom in lines or self.ask.bottom is not None or cost(bottom - 1) + cost(bottom + 1) > 2 * here:
                bits |= 1 << at
        return bits

    def corners(self, left: int, pinned: bool) -> int:
        """The free lower edges at which a unit at a left edge is held both ways.

        Args:
            left: the left edge.
            pinned: it is held aside by something other than its keep-outs and its cost.
        """
        free = self.free(left)
        if not free:
            return 0
        aside = free if pinned or self.bends(left) else free & ~(self.free(left - 1) & self.free(left + 1))
        return aside & (self.kept | self._touched(left)) if aside else 0

    def _touched(self, left: int) -> int:
        """The lower edges at which a unit touches a keep-out."""
        ends = [
            end
            for each in self.flat
            if each.x.low - self.ask.width < left < each.x.high
            for end in (each.z.low - self.ask.height, each.z.high)
        ]
        ends += [end for pair in self.rounds(left) for end in pair]
        bits = 0
        for end in ends:
            if end in self.rank:
                bits |= 1 << self.rank[end]
        return bits

    def within(self, bottom: int) -> tuple[bool, ...]:
        """Which layers a unit stands in."""
        z = Span(bottom, bottom + self.ask.height)
        return tuple(z.overlaps(layer) for layer in self.layers)

    def cost_across(self, left: int) -> int:
        """What a left edge costs."""
        found = self.across.get(left)
        if found is None:
            found = self.across[left] = self.ask.cost_across(left)
        return found

    def bends(self, left: int) -> bool:
        """True where the cost rises faster, or falls less, to the right of a left edge than to its left."""
        return self.cost_across(left - 1) + self.cost_across(left + 1) > 2 * self.cost_across(left)

    def free(self, left: int) -> int:
        """The lower edges that are free at a left edge."""
        if left < 0 or (self.ask.left is not None and left != self.ask.left):
            return 0
        at = bisect_left(self.edges, left)
        key = 2 * at + (at < len(self.edges) and self.edges[at] == left)
        found = self.known.get(key)
        if found is None:
            found = self.prefix[-1]
            for low, high, open_ in self.shut:
                if low < left < high:
                    found &= open_
            self.known[key] = found
        for low, high in self.rounds(left) if self.round else ():
            found &= ~self._between(low, high)
        return found

    def _between(self, low: int, high: int) -> int:
        """The lower edges strictly between two heights."""
        first, last = bisect_right(self.bottoms, low), bisect_left(self.bottoms, high)
        return self.prefix[last] ^ self.prefix[first] if last > first else 0

    def rounds(self, left: int) -> list[tuple[int, int]]:
        """The heights strictly between which keep-outs with round corners refuse lower edges at a left edge."""
        found = []
        for each in self.round:
            aside = max(each.x.low - left - self.ask.width, left - each.x.high, 0)
            rest = each.reach2 - aside * aside
            if rest > 0:
                rise = root_above(rest)
                found.append((each.z.low - rise - self.ask.height, each.z.high + rise))
        return found

    def cheapest(self, left: int) -> list[tuple[int, int]]:
        """The cheapest free lower edge at a left edge with its cost, for each set of layers that it can stand in."""
        free, found = self.free(left), []
        if self.plain:
            return [self.ranked[(free & -free).bit_length() - 1]] if free else []
        more = [(self.ask.cost_up(bottom), bottom) for bottom in self.at_rounds(left)]
        for sort in self.sorts:
            here = free & sort
            best = [self.ranked[(here & -here).bit_length() - 1]] if here else []
            if more:
                within = self.within(self.ranked[(sort & -sort).bit_length() - 1][1])
                best += [each for each in more if self.within(each[1]) == within]
            found += [min(best)] if best else []
        return found

    def at_rounds(self, left: int) -> list[int]:
        """The lower edges at which a unit touches a round keep-out, where they are free."""
        if self.ask.bottom is not None or left < 0 or (self.ask.left is not None and left != self.ask.left):
            return []
        ends = {end for pair in self.rounds(left) for end in pair}
        return [bottom for bottom in ends if bottom >= 0 and self.ask.free(left, bottom)]

    def lefts(self) -> set[int]:
        """The left edges from which chains of units can begin."""
        if self.ask.left is not None:
            return {self.ask.left}
        lines = {0, *left_lines(self.ask)}
        if self.round:
            lines |= {left for left, _ in on_arcs(self.ask, sorted(lines), self.bottoms)}
        return lines

    def arcs(self) -> set[int]:
        """The lower edges at which a unit touches round corners, at its own lines."""
        if not self.round or self.ask.bottom is not None:
            return set()
        return {bottom for _, bottom in on_arcs(self.ask, sorted({0, *left_lines(self.ask)}), self.bottoms)}

    def holds(self, left: int) -> bool:
        """True where a unit with its cheapest lower edges there cannot slide aside both ways at no cost."""
        if self.plain:
            return self._least(left - 1) + self._least(left + 1) > 2 * self._least(left)
        here = dict(self._by_layers(left))
        aside = [dict(self._by_layers(each)) for each in (left - 1, left + 1)]
        return any(sum(each.get(key, NOWHERE) for each in aside) > 2 * cost for key, cost in here.items())

    def _least(self, left: int) -> float:
        free = self.free(left)
        return self.cost_across(left) + self.ranked[(free & -free).bit_length() - 1][0] if free else NOWHERE

    def _by_layers(self, left: int) -> Iterable[tuple[tuple[bool, ...], int]]:
        found = self.cheapest(left)
        if not found:
            return []
        across = self.cost_across(left)
        return [(self.within(bottom), across + cost) for cost, bottom in found]


class Filler(Stand):
    """The places of a strip: anywhere between two left edges."""

    def __init__(self, ask: Question, lefts: Span) -> None:
        """Prepare a strip, with where its left edge may be."""
        super().__init__(ask)
        self.between = lefts

    def free(self, left: int) -> int:
        """One place, or none."""
        return int(self.between.low <= left <= self.between.high)

    def lefts(self) -> set[int]:
        """Its two ends."""
        return {self.between.low, self.between.high} if self.between.low <= self.between.high else set()
