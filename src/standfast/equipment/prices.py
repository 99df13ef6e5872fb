"""The price list that orders choices which are all allowed. It decides no verdict."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import NamedTuple

import tomli


class Price(NamedTuple):
    """What one of something costs; `invented` where the program made the number up."""

    amount: float
    invented: bool


class Prices(NamedTuple):
    """Prices in one currency, net.

    Attributes:
        invented: true where every price is made up, as those of the package are.
        currency: its name, for instance ``USD``.
        piece: of one piece, by the id of its data sheet.
        conductor: of one foot of one conductor, by metal and size: ``cu 10``.
        raceway: of one foot, by kind and trade size: ``emt 1/2``.
        fitting: of one end of a raceway with its bushing, by kind and trade size.
        breaker: of one breaker, by the id of its family and its rating in A: ``demo-breaker 30``.
        work: of work that a choice causes: `blocking` behind the lining, for a column of holes off the studs;
            `lift`, for each foot of the lower edge above the floor; `aim`, for each inch of a column off the middle
            of its stud; and the ways out for a busbar with their parts: `moved breaker`, `power control`,
            `other panel`, `smaller main`, `supply-side connection`, `larger panel`. Absent work is not counted.
        adder: of putting one existing part in order, work included, by its name: ``circuit directory``.
        own: words of the list, with their table, that are not invented though others are: ``piece demo-lag-5-16``.
        scaled: kinds, with their table, of which a firm prices some sizes and the invented prices of the others were
            raised or lowered in the same proportion: ``conductor cu``.
    """

    invented: bool
    currency: str
    piece: Mapping[str, float]
    conductor: Mapping[str, float] = {}
    raceway: Mapping[str, float] = {}
    fitting: Mapping[str, float] = {}
    breaker: Mapping[str, float] = {}
    work: Mapping[str, float] = {}
    adder: Mapping[str, float] = {}
    own: frozenset[str] = frozenset()
    scaled: tuple[str, ...] = ()

    def of(self, table: str, word: str) -> Price | None:
        """The price of a word of one of the tables; None where the list has none."""
        held: Mapping[str, float] = getattr(self, table)
        amount = held.get(word)
        return None if amount is None else Price(amount, self.invented and f"{table} {word}" not in self.own)

    def over(self, firm: "Prices") -> "Prices":
        """This list with the prices of a firm in the place of its own.

        A firm that counts in another currency stands alone: two currencies make no sum. Where it prices some sizes of
        a kind, the others of that kind keep their proportion to them: an invented price that is lower for no other
        reason than that the list is cheaper than the firm would win the choice.
        """
        if firm.currency != self.currency:
            return firm
        ratios = {table: _ratios(getattr(self, table), getattr(firm, table)) for table in SIZED}
        both = {
            table: {**_raised(getattr(self, table), ratios.get(table, {})), **getattr(firm, table)} for table in TABLES
        }
        scaled = tuple(f"{table} {kind}" for table, found in ratios.items() for kind in found)
        own = set() if firm.invented else {f"{table} {word}" for table in TABLES for word in getattr(firm, table)}
        return self.filled(both)._replace(own=self.own | firm.own | own, scaled=(*self.scaled, *scaled))

    def filled(self, tables: Mapping[str, Mapping[str, float]]) -> "Prices":
        """This list with the tables given, by name; all of them."""
        return self._replace(
            piece=tables["piece"],
            conductor=tables["conductor"],
            raceway=tables["raceway"],
            fitting=tables["fitting"],
            breaker=tables["breaker"],
            work=tables["work"],
            adder=tables["adder"],
        )


TABLES = ("piece", "conductor", "raceway", "fitting", "breaker", "work", "adder")
"""The tables of a price list."""
SIZED = ("conductor", "raceway", "fitting", "breaker")
"""Those whose words are a kind and its size."""


def _kind(word: str) -> str:
    return word.rpartition(" ")[0]


def _ratios(made_up: Mapping[str, float], own: Mapping[str, float]) -> dict[str, float]:
    """By kind, how many times the firm's prices are the invented ones; the greatest, so that none is undercut."""
    found: dict[str, float] = {}
    for word, amount in own.items():
        if made_up.get(word):
            found[_kind(word)] = max(found.get(_kind(word), 0.0), amount / made_up[word])
    return found


def _raised(made_up: Mapping[str, float], ratios: Mapping[str, float]) -> dict[str, float]:
    return {word: amount * ratios.get(_kind(word), 1.0) for word, amount in made_up.items()}


@cache
def shipped() -> Prices:
    """The invented price list of the package. A test reads it with `price_list.read`, which looks for faults."""
    data = tomli.loads((files("standfast.equipment") / "prices.toml").read_text("utf-8"))
    return Prices(data["invented"], data["currency"], {}).filled({table: data[table] for table in TABLES})
