"""What the job leaves open in its circuits, each way with a least price: metals, sizes, kinds of raceway, steps of the
breaker."""

import heapq
import itertools
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple, get_args

from standfast.design.choice.rows import SheetFile, breaker, lines
from standfast.design.wiring import conductor
from standfast.design.wiring.circuit import Circuit, end_takes
from standfast.design.wiring.ends import End
from standfast.design.wiring.raceway import Raceway
from standfast.design.wiring.unit import UnitCircuit
from standfast.design.wiring.whole import Wiring
from standfast.equipment.prices import Prices
from standfast.reading.quantities import amount
from standfast.rulebooks.nfpa70 import grounding
from standfast.sheet import Value, attempt, chosen, missing
from standfast.shelf import Edition
from standfast.survey.joined import owner
from standfast.survey.read import Survey
from standfast.terms import TradeSize, Wire

WIRES: tuple[str, ...] = get_args(Wire)
METALS = ("cu", "al")


class Part(NamedTuple):
    """One way to build one circuit.

    Attributes:
        picks: facts that it fixes, by their path in the job file; none for what is worked out anyway.
        per_ft: price by foot and run that it cannot be below, by the id of the run.
        fixed: price of the rest that it cannot be below: breaker and ends of raceways.
    """

    picks: Mapping[str, Value]
    per_ft: Mapping[str, float]
    fixed: float

    def least(self, feet: Mapping[str, float]) -> float:
        """The price that it cannot be below, with the lengths of its runs in ft."""
        return self.fixed + sum(each * feet.get(run, 0.0) for run, each in self.per_ft.items())


def parts(
    nec: Edition, job: Survey, sheets: Mapping[str, SheetFile], prices: Prices, made: Wiring, *, longer: bool
) -> list[list[Part]]:
    """For each circuit of a wiring that was worked out, every way to build it that the job leaves open.

    Args:
        nec: NFPA 70 in force.
        job: the job file.
        sheets: data sheets by role.
        prices: the price list.
        made: the wiring with the least sizes, steps and raceways; the bounds rest on it.
        longer: the bounds hold for every longer run too, where sizes that are worked out may be larger.
    """
    ends = {each.circuit.id: each.ends for each in made.units}
    ends |= {each.built.id: each.ends for each in made.feeders if each.built is not None}
    units = {each.circuit.id: each for each in made.units}
    added = {each.built.id for each in made.feeders if each.built is not None and each.added}
    return [
        _ways(
            nec, job, sheets, prices, each, ends.get(each.id), units.get(each.id), added=each.id in added, longer=longer
        )
        for each in made.circuits
    ]


def together(ways: Sequence[Sequence[Part]], feet: Mapping[str, float]) -> Iterator[tuple[float, dict[str, Value]]]:
    """Every way to build all circuits, from the least price that it cannot be below: that price, and its picks."""
    ranked = [sorted(each, key=lambda part: (part.least(feet), bool(part.picks))) for each in ways]
    costs = [[part.least(feet) for part in each] for each in ranked]
    queue = [(sum(each[0] for each in costs), (0,) * len(ranked))]
    seen = {queue[0][1]}
    while queue:
        least, at = heapq.heappop(queue)
        chosen_parts = [each[place] for place, each in zip(at, ranked, strict=True)]
        yield least, {path: pick for part in chosen_parts for path, pick in part.picks.items()}
        for number, place in enumerate(at):
            after = (*at[:number], place + 1, *at[number + 1 :])
            if place + 1 < len(ranked[number]) and after not in seen:
                seen.add(after)
                heapq.heappush(queue, (least + costs[number][place + 1] - costs[number][place], after))


def _ways(
    nec: Edition, job: Survey, sheets: Mapping[str, SheetFile], prices: Prices, made: Circuit,
    ends: Sequence[End] | None, source: UnitCircuit | None, *, added: bool, longer: bool,
) -> list[Part]:  # fmt: skip
    """The ways to build one circuit; `added` for a feeder with a new breaker."""
    tubes = [tube for tube in made.raceways if tube.run.new]
    steps, kinds = _steps(job, sheets, source), list(itertools.product(*(_kinds(job, tube) for tube in tubes)))
    open_sets = made.sets is not None and not any(
        job.has(f"routes.{tube.run.id}.conductors.sets") for tube in made.raceways
    )
    found = []
    for metal in [None] if ends is None else metals(job, made, tubes, ends):
        of_it, seen = (
            (made, tubes) if metal is None else (_of_metal(nec, made, metal), [_unsized(each) for each in tubes])
        )
        sizes = [None] if ends is None else _sizes(nec, job, of_it, tubes, ends)
        for size, step, words in itertools.product(sizes, steps, kinds):
            picks = _picks(tubes, metal, size, words)
            rating = source.breaker if source is not None else made.need.device if added else None
            if step is not None and source is not None:
                picks[breaker_path(job, source)] = rating = step
            runs, ends_of_tubes = _least_of_runs(
                of_it, seen, prices, size, words, longer=longer, vague=longer and open_sets
            )
            found.append(Part(picks, runs, ends_of_tubes + _least_of_breaker(rating, sheets, prices)))
    return found


def metals(job: Survey, made: Circuit, tubes: Sequence[Raceway], ends: Sequence[End]) -> list[Value | None]:
    """Metals that every new run of a circuit offers and every end takes; None stands for the one that is worked out."""
    offered = [_offered(job, tube.run.id) for tube in tubes]
    now = made.conductor.conditions.material
    if not offered or now.missing or any(tube.run.material is not None for tube in made.raceways):
        return [None]
    words = [word for word in METALS if all(word in each for each in offered)]
    words = [word for word in words if all(end_takes(each, word) for each in ends)]
    how = "of the metals that the job allows here, and every end takes it"
    found = [None if word == now.word else chosen("material", word, "", how, None) for word in words]
    return found or [None]


def _offered(job: Survey, id: str) -> Sequence[str]:
    route = next((each for each in job.job.routes if each.id == id), None)
    return () if route is None or route.conductors is None else route.conductors.materials


def _of_metal(nec: Edition, made: Circuit, metal: Value) -> Circuit:
    """A circuit with conductors of another metal, of the least size that carries its current."""
    where = made.conductor.conditions._replace(material=metal)
    found = conductor.choose(nec, where, made.need, None, lambda _: True, lambda _: True)
    ground = attempt("EGC", "", lambda: grounding.equipment(nec, metal, made.need.device))
    if not (ground.missing or found.size.missing):
        ground = grounding.equipment_capped(nec, ground, found.size)
    return made._replace(conductor=found, ground=ground)


def _unsized(tube: Raceway) -> Raceway:
    """A run of which nobody has worked out yet what trade size the conductors of another metal need."""
    return tube._replace(trade_size=missing("trade_size", "", "conductors of another metal are of another size"))


def _picks(
    tubes: Sequence[Raceway], metal: Value | None, size: Value | None, words: Sequence[str | None]
) -> dict[str, Value]:  # fmt: skip
    picks = {
        f"routes.{tube.run.id}.raceway": chosen("raceway", word, "", "of the kinds that the job allows here", None)
        for tube, word in zip(tubes, words, strict=True)
        if word is not None
    }
    if metal is not None:
        picks |= {f"routes.{tube.run.id}.conductors.material": metal for tube in tubes}
    if size is not None:
        picks[f"routes.{tubes[0].run.id}.conductors.size"] = size
    return picks


def _sizes(
    nec: Edition, job: Survey, made: Circuit, tubes: Sequence[Raceway], ends: Sequence[End]
) -> list[Value | None]:
    """Sizes beyond the one that is worked out, as far as every end takes them; None stands for that one."""
    least, size = made.conductor.least, made.conductor.size
    stated = any(job.has(f"routes.{tube.run.id}.conductors.size") for tube in made.raceways)
    if not tubes or stated or least.missing or size.missing:
        return [None]
    largest = min((WIRES.index(each.largest.word) for each in ends if each.largest is not None
                   and not each.largest.missing), default=len(WIRES))  # fmt: skip
    words = conductor.ladder(nec, made.conductor.conditions)
    more = [word for word in words[words.index(least.word) :] if word != size.word and WIRES.index(word) <= largest]
    how = f"chosen with the place: {least.word} is the least that carries the current"
    return [None, *(chosen("size", word, "", how, None, least) for word in more)]


def _kinds(job: Survey, tube: Raceway) -> list[str | None]:
    """Kinds of raceway for a run; None stands for what the job says, or does not say."""
    route = next((each for each in job.job.routes if each.id == tube.run.id), None)
    if route is None or job.has(f"routes.{route.id}.raceway") or not route.raceways:
        return [None]
    return list(dict.fromkeys(route.raceways))


def _steps(job: Survey, sheets: Mapping[str, SheetFile], source: UnitCircuit | None) -> list[Value | None]:
    """Steps of the breaker beyond the one that is worked out, up to what the maker allows; None stands for that one."""
    if source is None or source.breaker.missing or "breaker" not in sheets:
        return [None]
    path, family = breaker_path(job, source), sheets["breaker"].content.switch
    most = sheets["inverter" if "inverter" in sheets else "battery"].fact("electrical.max_overcurrent_device", "I", "A")
    if not path or job.has(path) or family is None or most.missing:
        return [None]
    amps = sorted(amount(each, "A") for each in family.ratings)
    how = f"chosen with the place: {source.breaker.quantity:g} A is the least that reaches the current"
    more = (each for each in amps if source.breaker.quantity < each <= most.quantity)
    return [None, *(chosen("I_n", each, "A", how, None, source.breaker, most) for each in more)]


def breaker_path(job: Survey, source: UnitCircuit) -> str:
    """Where the job would state the breaker of a source; empty where it lists no circuit for it."""
    panel = next((each for each in job.job.panels if each.id == source.panel), None)
    listed = () if panel is None else panel.circuits
    own = next((each.id for each in listed if owner(job.job, each) == source.id), None)
    return "" if own is None else f"panels.{source.panel}.circuits.{own}.breaker"


def _least_of_runs(
    made: Circuit, tubes: Sequence[Raceway], prices: Prices, size: Value | None, words: Sequence[str | None], *,
    longer: bool, vague: bool,
) -> tuple[dict[str, float], float]:  # fmt: skip
    """The least price by foot of each run, and of the ends of all raceways.

    Args:
        made: the circuit as worked out.
        tubes: its new runs.
        prices: the price list.
        size: that is picked; None for the one that is worked out.
        words: kind of raceway that is picked for each run; None for what the job says.
        longer: the runs may be longer, so that a larger size may be worked out.
        vague: another number of sets, of any size, may be worked out.
    """
    metal, ground, least = made.conductor.conditions.material, made.ground, made.conductor.size
    taken, cables, larger = least if size is None else size, 0.0, False
    if not metal.missing and not taken.missing:
        larger = not (vague or least.missing) and WIRES.index(taken.word) >= WIRES.index(least.word)
        only = not vague and not (longer and size is None)
        poles = 2.0 if vague else lines(made) or 2.0
        cables += poles * _from(prices.conductor, metal.word, WIRES, "" if vague else taken.word, only=only)
        cables += _from(prices.conductor, metal.word, WIRES, ground.word if larger and not ground.missing else "")
    per_ft, ends = {}, 0.0
    for tube, word in zip(tubes, words, strict=True):
        known = larger and word is None and not tube.kind.missing and not tube.trade_size.missing
        kind = word or ("" if tube.kind.missing else tube.kind.word)
        at_least = tube.trade_size.word if known else ""
        per_ft[tube.run.id] = cables + _from(prices.raceway, kind, get_args(TradeSize), at_least)
        ends += 2 * _from(prices.fitting, kind, get_args(TradeSize), at_least)
    return per_ft, ends


def _from(table: Mapping[str, float], kind: str, ladder: Sequence[str], word: str, *, only: bool = False) -> float:
    """The least price of a kind from a step of its ladder on, or of that step only; 0 where none is known."""
    at = ladder.index(word) if word in ladder else 0
    steps = ladder[at : at + 1] if only else ladder[at:]
    return min((table[key] for step in steps if (key := f"{kind} {step}") in table), default=0.0)


def _least_of_breaker(rating: Value | None, sheets: Mapping[str, SheetFile], prices: Prices) -> float:
    if rating is None:
        return 0.0
    found = breaker(rating, sheets, prices).sum
    return 0.0 if found is None else found
