"""One place worked out: the ways to build its circuits, of which the best is taken, its fixings, and what all costs."""

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from standfast.design.anchorage.held import Anchorage
from standfast.design.choice import options, rows
from standfast.design.choice.rows import Row, SheetFile
from standfast.design.choice.search import search
from standfast.design.siting.placed import Siting
from standfast.design.wiring import along
from standfast.design.wiring.whole import Wiring
from standfast.equipment.prices import Prices
from standfast.sheet import Check, Value, measured
from standfast.shelf import Edition
from standfast.survey.joined import devices, unit_ids
from standfast.survey.picked import Picked
from standfast.survey.read import Survey


class Wired(NamedTuple):
    """One way to build the circuits at a place.

    Attributes:
        picks: what it fixes beyond the least that is worked out anyway, by path in the job file.
        job: the job file with the lengths of the place and these picks.
        wiring: as worked out with them.
        rows: its price rows.
        open: its open checks.
        unpriced: its rows without a sum.
        price: the sum of the others.
        settled: True where no failing check hangs on a size, a step or a raceway.
    """

    picks: Mapping[str, Value]
    job: Picked
    wiring: Wiring
    rows: tuple[Row, ...]
    open: int
    unpriced: int
    price: float
    settled: bool


class Option(NamedTuple):
    """One whole choice.

    Attributes:
        siting: where the units stand.
        wired: the best way to build the circuits there.
        anchorages: how each unit is held there.
        rows: every price row.
        open: open checks of siting, wiring and anchorage.
        unpriced: rows without a sum.
        price: the sum of the others.
        settled: True where no failing check can be mended by another place, size, step, raceway or fixing.
    """

    siting: Siting
    wired: Wired
    anchorages: tuple[Anchorage, ...]
    rows: tuple[Row, ...]
    open: int
    unpriced: int
    price: float
    settled: bool


class Trades(NamedTuple):
    """What the trades answer: the wiring of a job at a place, and how its units are held there."""

    wire: Callable[[Survey, Siting], Wiring]
    hold: Callable[[Survey, Siting], tuple[Anchorage, ...]]


class Ways(NamedTuple):
    """The ways to build the circuits at a place.

    Attributes:
        best: the best of them.
        runner_up: the best other one; None where none was worked out.
        bound: no way that leaves as little open costs less.
        proven: the best costs what the bound says.
        looked_at: how many were worked out.
    """

    best: Wired
    runner_up: Wired | None
    bound: float
    proven: bool
    looked_at: int


class Builder:
    """Works places out, each once.

    Args:
        nec: NFPA 70 in force; None where other rules hold, under which the engine takes the least sizes itself.
        job: the job file.
        sheets: data sheets by role.
        prices: the price list.
        trades: the trades.
        budget: how many ways to build the circuits may be worked out at one place.
    """

    def __init__(
        self, nec: Edition | None, job: Survey, sheets: Mapping[str, SheetFile], prices: Prices, trades: Trades,
        budget: int,
    ) -> None:  # fmt: skip
        self._nec, self._job, self._sheets, self._prices = nec, job, sheets, prices
        self._trades, self._budget = trades, budget
        self._made: dict[tuple[object, ...], Wired] = {}

    def option(self, siting: Siting) -> Option:
        """The best choice at a place."""
        found = self.ways(siting, more=0)
        wired = found.best
        anchorages = self._trades.hold(wired.job, siting)
        told = [*wired.rows, *self._of_place(siting, anchorages)]
        fixed = [check for held in anchorages for check in held.checks] + list(siting.checks)
        failing = any(check.verdict == "fail" for check in fixed)
        return Option(
            siting, wired, anchorages, tuple(told), wired.open + sum(check.open for check in fixed),
            rows.unpriced(told), rows.price(told), found.proven and wired.settled and not failing,
        )  # fmt: skip

    def ways(self, siting: Siting, *, more: int) -> Ways:
        """The ways to build the circuits at a place, best first.

        Args:
            siting: the place.
            more: how many further ways may be worked out for the runner-up.
        """
        job = Picked(self._job, _lengths(self._job, siting))
        least = self._wired(job, {}, siting)

        def work_out(picks: Mapping[str, Value]) -> Wired:
            return self._wired(job, picks, siting) if picks else least

        ordered = options.together(self.parts(job, least.wiring, longer=False), feet(least.wiring))
        found = search(ordered, work_out, _differ, alike=lambda _, __: False, budget=self._budget, more=more)
        return Ways(found.best or least, found.runner_up, found.bound, found.proven, found.looked_at)

    def shortest(self, siting: Siting) -> Wiring:
        """The wiring with nothing but the ends of the routes that follow the walls: no place needs smaller sizes."""
        lengths = {path: _ends_alone(self._job, path, each) for path, each in _lengths(self._job, siting).items()}
        return self._trades.wire(Picked(self._job, lengths), siting)

    def parts(self, job: Survey, made: Wiring, *, longer: bool) -> list[list[options.Part]]:
        """The ways to build each circuit of a wiring; `longer` where the bounds shall hold for longer runs too."""
        if self._nec is None:
            return []
        return options.parts(self._nec, job, self._sheets, self._prices, made, longer=longer)

    def _wired(self, job: Picked, picks: Mapping[str, Value], siting: Siting) -> Wired:
        at = tuple((each.wall, each.left.number, each.bottom.number) for each in siting.places)
        key = (at, tuple(sorted((path, pick.number) for path, pick in picks.items())))
        if key not in self._made:
            picked = Picked(job, picks) if picks else job
            wiring = self._trades.wire(picked, siting)
            told = rows.of_wiring(wiring, self._sheets, self._prices)
            self._made[key] = Wired(
                picks, picked, wiring, tuple(told), sum(check.open for check in wiring.checks), rows.unpriced(told),
                rows.price(told), not _mendable(wiring),
            )  # fmt: skip
        return self._made[key]

    def _of_place(self, siting: Siting, anchorages: Iterable[Anchorage]) -> list[Row]:
        fixings = [row for held in anchorages for row in rows.of_anchorage(held, self._prices)]
        work = [row for each in siting.places
                for row in rows.of_place(each, siting.on(each.wall).question, self._prices)]  # fmt: skip
        return rows.gathered([*fixings, *work])


def feet(wiring: Wiring) -> dict[str, float]:
    """The lengths of the runs at the long end of their survey, ft, as far as they are known."""
    tubes = (tube for circuit in wiring.circuits for tube in circuit.raceways)
    return {tube.run.id: tube.run.longest.quantity for tube in tubes if not tube.run.longest.missing}


def _lengths(job: Survey, siting: Siting) -> dict[str, Value]:
    return {f"routes.{id}.length": length for id, length in along.lengths(job, siting.places).items()}


def _ends_alone(job: Survey, path: str, length: Value) -> Value:
    """The length of a route to a unit without its way along the wall; of any other route its length."""
    route = next(each for each in job.job.routes if path == f"routes.{each.id}.length")
    known = devices(job.job)
    if not {known.get(end, end) for end in (route.from_, route.to)} & set(unit_ids(job.job)):
        return length
    extra = job.fact(f"routes.{route.id}.extra", "L_extra", "ft")
    return measured("L", 0.0 if extra.missing else extra.quantity, "ft", "bends and terminations alone", extra)


def _differ(one: Wired, other: Wired) -> bool:
    return {path: pick.number for path, pick in one.picks.items()} != {
        path: pick.number for path, pick in other.picks.items()
    }


def _mendable(wiring: Wiring) -> bool:
    """True where a failing check hangs on a size, a step or a raceway."""
    failing = [check for check in wiring.checks if check.verdict == "fail"]
    if not failing:
        return False
    varied: set[int] = set()
    for circuit in wiring.circuits:
        tubes = [value for tube in circuit.raceways for value in (tube.kind, tube.trade_size)]
        varied |= {id(value) for value in (circuit.conductor.size, circuit.ground, circuit.need.device, *tubes)}
    return any(_hangs_on(check, varied) for check in failing)


def _hangs_on(check: Check, varied: set[int]) -> bool:
    sides = [side for side in (check.demand, check.limit) if side is not None]
    return not sides or any(id(value) in varied for side in sides for value in side.trail())
