"""From the graph of an installation to a tree for drawing, with the links that no tree can hold told beside it.

What feeds stands above what it feeds. A panel that two inverters reach, a transfer switch with a generator beside the
grid: one way becomes a branch of the tree, every other one is told as `extra`. Nothing that is joined is left out, and
what is joined to no utility becomes a root of its own.
"""

from collections import deque
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from standfast.design.installation import Installation, Link, Part


class Spanned(NamedTuple):
    """The tree of an installation.

    Attributes:
        roots: ids of the parts that hang from nothing, the utility first.
        below: part → what hangs from it, with the link, in the order of the links.
        extra: links that are no branch of the tree, in their order.
    """

    roots: list[str]
    below: dict[str, list[tuple[str, Link]]]
    extra: list[Link]


def spanned(installation: Installation, first: str, left_out: Iterable[str] = ()) -> Spanned:
    """The tree that hangs from a part, and what else there is.

    Args:
        installation: the graph.
        first: id of the part at the top.
        left_out: ids of parts that are drawn some other way.
    """
    return _Spanning(installation, set(left_out)).whole(first)


class _Spanning:
    """The tree as it grows: nearest parts first, each part once."""

    def __init__(self, installation: Installation, left_out: set[str]) -> None:
        self.installation = installation
        self.seen = set(left_out)
        self.drawn = [id for id in installation.parts if id not in left_out]
        self.below: dict[str, list[tuple[str, Link]]] = {id: [] for id in self.drawn}
        self.taken: set[str] = set()
        electrodes = {link.b for link in installation.links if link.kind == "bond"}
        joined = {end for link in installation.links if link.kind != "bond" for end in (link.a, link.b)}
        self.loose = electrodes | {id for id in self.drawn if id not in joined}
        self.own = {link.b: link for link in installation.links if link.kind == "busbar"}

    def whole(self, first: str) -> Spanned:
        roots = [first]
        self._grow(first)
        while rest := [id for id in self.drawn if id not in self.seen and id not in self.loose]:
            roots.append(next((id for id in rest if not self._fed(id)), rest[0]))
            self._grow(roots[-1])
        ends = self.below.keys()
        extra = [
            link
            for link in self.installation.links
            if link.kind != "bond" and link.id not in self.taken and link.a in ends and link.b in ends
        ]
        return Spanned(roots, self.below, extra)

    def _grow(self, start: str) -> None:
        """Everything that is fed from a part. A breaker hangs from its own busbar, unless that is fed through it."""
        self.seen.add(start)
        queue = deque([start])
        while queue:
            self._near(queue)
            backfed = next(self._through_a_breaker(), None)
            if backfed is not None:
                queue.append(self._hang(*backfed))
                queue.extend(self._bus_of(queue[-1]))

    def _near(self, queue: deque[str]) -> None:
        while queue:
            here = queue.popleft()
            for there, link in self.installation.beside(here):
                if link.a == here and there.id not in self.seen and not self._of_another(there, link):
                    queue.append(self._hang(here, link))

    def _hang(self, here: str, link: Link) -> str:
        self.below[here].append((link.b, link))
        self.seen.add(link.b)
        self.taken.add(link.id)
        return link.b

    def _bus_of(self, breaker: str) -> Iterator[str]:
        """The busbar that a breaker feeds backwards, hung below it."""
        link = self.own.get(breaker)
        if link is not None and link.a in self.below and link.a not in self.seen:
            self.below[breaker].append((link.a, link))
            self.seen.add(link.a)
            self.taken.add(link.id)
            yield link.a

    def _of_another(self, part: Part, link: Link) -> bool:
        return part.kind == "breaker" and self.own.get(part.id, link) is not link

    def _through_a_breaker(self) -> Iterator[tuple[str, Link]]:
        """Links into breakers of busbars that nothing else has reached."""
        for link in self.installation.links:
            if link.kind != "bond" and link.a in self.seen and link.a in self.below and link.b not in self.seen:
                yield link.a, link

    def _fed(self, id: str) -> bool:
        return any(link.b == id and link.a in self.below for _, link in self.installation.beside(id))
