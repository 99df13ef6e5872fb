"""Small invented jobs for the tests of the whole choice, and an exhaustive search over all that they leave open."""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from importlib.resources import files
from typing import NamedTuple

from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.design.choice import rows
from standfast.design.choice.whole import Budget, Choice, Trades, choose
from standfast.design.siting import choosing
from standfast.design.siting.choosing import Spot
from standfast.design.siting.elsewhere import Elsewhere
from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.design.wiring import along
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.prices import Prices, shipped
from standfast.equipment.read import DataSheet, find, read
from standfast.equipment.read import shipped as shipped_sheets
from standfast.sheet import Value, chosen
from standfast.shelf import adoption
from standfast.survey.picked import Picked
from standfast.survey.read import Survey, changed
from standfast.survey.read import read as read_job

US = adoption("us-2021")
NEC, HANDBOOK = US.book("nfpa70"), US.book("handbook")
TEXT = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
ROLES = ("battery", "breaker", "disconnect", "island_switch", "fastener", "anchor", "disconnect_fastener")
EAST, NORTH = 0, 1
"""Numbers of the walls of the job."""
DISCONNECT = 3
"""Number of the battery's disconnect among the obstacles of the wall to the east."""
Change = tuple[tuple[str | int, ...], object]
"""A word of the job by its path, and what it becomes."""
EVERYTHING = Budget(places=10_000, ways=10_000)


def base(*changes: Change) -> Survey:
    """The demo job with the run of its battery along the wall, and words changed."""
    survey = read_job(TEXT).survey
    assert survey is not None
    along_wall: list[Change] = [
        (("routes", 0, "length"), None), (("routes", 0, "along"), "wall"), (("routes", 0, "extra"), "2 ft"),
    ]  # fmt: skip
    made = changed(survey, [*along_wall, *changes])
    assert made is not None
    return made


def sheets(max_device: str = "30 A", terminals: str = '["cu"]') -> dict[str, DataSheet]:
    """The data sheets of the job; the battery's greatest breaker and what its terminals take can be changed."""
    survey = base()
    found = {role: find(getattr(survey.job.equipment, role)).sheet for role in ROLES}
    text = (
        shipped_sheets()["demo-wall-10"]
        .replace('max_overcurrent_device = "30 A"', f'max_overcurrent_device = "{max_device}"')
        .replace('materials = ["cu"]', f"materials = {terminals}")
    )
    return {**{role: sheet for role, sheet in found.items() if sheet is not None}, "battery": sheet_of(text)}


def fixing(id: str, *words: tuple[str, str], of: str = "demo-lag-5-16") -> DataSheet:
    """The data sheet of a screw or anchor under another id, with words changed."""
    text = shipped_sheets()[of].replace(f'id = "{of}"', f'id = "{id}"')
    for old, new in words:
        assert old in text
        text = text.replace(old, new)
    return sheet_of(text)


def sheet_of(text: str) -> DataSheet:
    sheet, faults = read(text, "test.toml")
    assert sheet is not None and not faults
    return sheet


class Case(NamedTuple):
    """A job with its sheets, prices and the fixings that are offered."""

    job: Survey
    sheets: Mapping[str, DataSheet]
    prices: Prices = shipped()
    fixings: Sequence[DataSheet] = ()

    @property
    def found(self) -> Siting:
        """Where siting alone puts the unit."""
        return site(US, self.job, self.sheets)

    @property
    def trades(self) -> Trades:
        """Wiring and anchorage."""
        return Trades(self.wired, lambda job, siting: (self.held(job, siting, self.fixings),))

    def wired(self, job: Survey, siting: Siting) -> Wiring:
        """The wiring at a place."""
        return wire(NEC, HANDBOOK, job, self.sheets)

    def held(self, job: Survey, siting: Siting, fixings: Sequence[DataSheet]) -> Anchorage:
        """How the unit is held at a place."""
        at, offered = siting.places[0], fixings or [self.sheets["fastener"], self.sheets["anchor"]]
        place = Place(at.wall, at.left, at.bottom)
        return anchor(job, self.sheets["battery"], offered, US, place, unit=at.id, prices=self.prices.piece)

    def choose(self, budget: Budget = EVERYTHING) -> Choice:
        """The whole choice."""
        return choose(US, self.job, self.sheets, self.prices, self.found, self.trades, budget)

    def one_by_one(self) -> tuple[int, float]:
        """Open checks and price where each trade chooses by itself: place, then conductor, then fixing."""
        siting = self.found
        lengths = {f"routes.{id}.length": each for id, each in along.lengths(self.job, siting.places).items()}
        job = Picked(self.job, lengths)
        wiring, held = self.wired(job, siting), self.held(job, siting, self.fixings)
        return self.open_of(siting, wiring, held), rows.price(self.rows_of(siting, wiring, held))

    def open_of(self, siting: Siting, wiring: Wiring, held: Anchorage) -> int:
        """How many checks stand open."""
        return sum(check.open for check in (*siting.checks, *wiring.checks, *held.checks))

    def rows_of(self, siting: Siting, wiring: Wiring, held: Anchorage) -> list[rows.Row]:
        """The price rows."""
        question = siting.judged[0].question
        return [
            *rows.of_wiring(wiring, self.sheets, self.prices), *rows.of_anchorage(held, self.prices),
            *rows.of_place(siting.places[0], question, self.prices),
        ]  # fmt: skip


Picks = Mapping[str, Value]


def everything(case: Case, picks: Sequence[Sequence[Picks]]) -> tuple[int, float]:
    """Open checks and price of the best of all: every free vertex × every combination of picks × every fixing.

    Args:
        case: the job.
        picks: for each thing that is left open, all its picks; {} leaves it to what is worked out anyway.
    """
    elsewhere = Elsewhere(US, case.job, case.sheets, case.found)
    best: list[tuple[int, float]] = []
    for spot in spots(case, elsewhere):
        siting = elsewhere.siting((spot,))
        lengths = {f"routes.{id}.length": each for id, each in along.lengths(case.job, siting.places).items()}
        wirings = [
            case.wired(
                Picked(case.job, {**lengths, **dict(itertools.chain(*(each.items() for each in several)))}), siting
            )
            for several in itertools.product(*picks)
        ]
        anchorages = [case.held(case.job, siting, [each]) for each in case.fixings or [case.sheets["fastener"]]]
        best += (
            (case.open_of(siting, wiring, held), rows.price(case.rows_of(siting, wiring, held)))
            for wiring in wirings for held in anchorages
        )  # fmt: skip
    return min(best)


def spots(case: Case, elsewhere: Elsewhere) -> Iterator[Spot]:
    """Every free vertex of every wall, those of siting's own lines of cost too."""
    far = along.middle(case.job, "disconnect")
    assert far is not None
    seen = set()
    for ask in elsewhere.asked.units[0]:
        surface = along.laid_flat(case.job, ask.wall, far.wall)
        assert surface is not None
        x, z = along.flat(surface, far)
        for each in (ask, ask._replace(target=(int(x) - surface.begins[ask.wall], int(z)))):
            seen |= {(spot.wall, spot.left, spot.bottom) for spot in choosing.in_order(each)}
    return (Spot(0, left, bottom, wall) for wall, left, bottom in sorted(seen))


def sizes(*words: str) -> list[Picks]:
    """Sizes of the battery's conductors, and what is worked out anyway."""
    return [{}, *({"routes.battery-run.conductors.size": chosen("size", word, "", "test", None)} for word in words)]


def steps(*amps: float) -> list[Picks]:
    """Steps of the battery's breaker, and what is worked out anyway."""
    path = "panels.backup.circuits.battery.breaker"
    return [{}, *({path: chosen("I_n", each, "A", "test", None)} for each in amps)]


def kinds(*words: str) -> list[Picks]:
    """Kinds of raceway for the battery's run."""
    return [{"routes.battery-run.raceway": chosen("raceway", word, "", "test", None)} for word in words]


def metals(*words: str) -> list[Picks]:
    """Metals of the battery's conductors, and what is worked out anyway."""
    path = "routes.battery-run.conductors.material"
    return [{}, *({path: chosen("material", word, "", "test", None)} for word in words)]
