"""Load of the neutral: of the service by the calculation of the dwelling, of a feeder by the circuits beyond it.

Loads between the lines put nothing on it. Cooking and dryers count at a share of their load. A load of which nobody
said how it is connected counts in full, which is never too little.
"""

from collections.abc import Sequence
from functools import partial

from standfast.design.installation.build import JobFile
from standfast.design.wiring import conductor, feeder_demand, feeder_load, house, legs, runs
from standfast.design.wiring.feeder import Feeder, conditions_as_surveyed
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import cooking, loads
from standfast.sheet import Check, Value, assumed, at_most, attempt, chosen, missing, settle, total, work, worst
from standfast.shelf import Edition

LINES = "line to line"
NONE = "none"


def of_house(book: Edition, job: JobFile) -> Value:
    """Load in A of the neutral of the service of a dwelling.

    Args:
        book: NFPA 70 in force.
        job: the job file.
    """
    return attempt("I_neutral", "A", partial(_of_house, book, job))


def check(task: Material, found: Feeder) -> Check:
    """The neutral of a feeder carries the greatest imbalance of the circuits beyond it.

    Args:
        task: the job.
        found: the feeder.
    """
    id, title = f"wiring.neutral-load/{found.panel}", f"{found.title}: its neutral carries the imbalance of the lines"
    clause = task.nec.clause("neutral_load")

    def ask() -> Check:
        sides = [total(f"I_N_{leg}", _on(task, found.panel, leg), "A") for leg in legs.LEGS]
        load, limit = loads.neutral_current(task.nec, worst("I_N", sides, "max", clause)), _ampacity(task, found)
        upper = at_most(id, title, clause, load, limit)
        if upper.verdict == "pass" or load.missing or limit.missing:
            return upper
        asked = feeder_demand.demand(task, found.panel, lambda each: each.circuit.phases != LINES, neutral=True)
        currents = (loads.neutral_current(task.nec, each) for each in asked)
        return feeder_demand.judged(upper, limit, feeder_demand.Demand(*currents))

    return settle(id, title, clause, ask)


def _on(task: Material, panel: str, leg: int) -> list[Value]:
    """Currents in A of a line that return by the neutral: of loads that are not joined to the lines alone."""
    every = feeder_load.on(task, panel, leg, _share)
    return [current for circuit, current in every if circuit is None or circuit.phases != LINES]


def _share(task: Material, fed: feeder_load.Fed) -> Value:
    """Load in VA of a circuit that its neutral is counted at: of cooking and dryers a share, where they are listed."""
    load = feeder_load.plain(task, fed)
    return cooking.neutral(task.nec, load) if feeder_demand.kind(task, fed) in ("cooking", "dryer") else load


def _ampacity(task: Material, found: Feeder) -> Value:
    """Of the neutral, in A: of a new feeder as of its lines, of one that is there by the size that was surveyed."""
    if found.built is not None:
        return found.built.conductor.carried.usable
    ways = runs.between(task, found.above, [found.panel])
    if not ways:
        return missing("I_N_use", "A", f"routes: the feeder from {found.above} to {found.panel}")
    size = task.job.fact(f"routes.{ways[0].id}.conductors.neutral", "neutral")
    if not size.missing and size.word == NONE:
        return chosen("I_N_use", 0.0, "A", "no neutral runs with it", None, size)
    where = conditions_as_surveyed(task, found, ways)
    return conductor.carried_or_missing(task.nec, where, size).usable


def _of_house(book: Edition, job: JobFile) -> Value:
    listed = house.surveyed(job)
    if listed.missing:
        return missing("I_neutral", "A", listed.how, listed)
    lighting, circuits = house.lighting_and_circuits(book, job)
    counted = [loads.lighting_demand(book, total("S", [lighting, circuits], "VA"))]
    values: dict[str, list[tuple[str, Value]]] = {}
    for each in job.content.loads.appliances:
        values.setdefault(each.kind, []).append((each.id, house.appliance(book, job, each)))
    cooked, dried = ([value for _, value in values.pop(kind, [])] for kind in ("cooking", "dryer"))
    counted += [cooking.neutral(book, house.cooking_demand(book, cooked))] if cooked else []
    counted += [cooking.neutral(book, loads.dryer_demand(book, dried))]
    fastened = [pair for kind in house.FASTENED for pair in values.pop(kind, [])]
    factor = loads.fastened_factor(book, [value for _, value in fastened])
    counted.append(loads.fastened_demand(book, _returning(job, fastened), factor))
    counted += _returning(job, [pair for pairs in values.values() for pair in pairs])
    counted += [row.value for row in house.blower(job)]
    sides = [_returned(job, f"loads.{side}", house.climate(job, side)) for side in ("heating", "cooling")]
    counted.append(worst("S_hvac", sides, "max", book.clause("noncoincident")))
    whole = total("S_neutral", counted, "VA", book.clause("neutral_load"))
    return loads.neutral_current(book, loads.line_current(whole, job.fact("supply.voltage", "U", "V")))


def _returning(job: JobFile, appliances: Sequence[tuple[str, Value]]) -> list[Value]:
    return [_returned(job, f"loads.appliances.{id}", load) for id, load in appliances]


def _returned(job: JobFile, path: str, load: Value) -> Value:
    """What of a load in VA returns by the neutral."""
    phases = job.fact(f"{path}.phases", "phases")
    if not load.missing and load.quantity == 0:
        return load
    if phases.missing:
        if load.missing:
            return load
        return assumed("S_N", load.quantity, "VA", f"counted in full: {phases.how}", None, bounding=True)
    if phases.word == LINES:
        return chosen("S_N", 0.0, "VA", "joined between the lines", None, phases)
    return work("S_N", "S", "VA", None, S=load)
