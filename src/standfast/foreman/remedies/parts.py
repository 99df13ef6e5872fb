"""Where the parts of a job stand in its file."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring.circuit import Circuit as Built
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Ladder, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.agreed import SAID_TWICE, service_panel
from standfast.survey.joined import owner
from standfast.survey.power import Circuit, Panel
from standfast.survey.spaces import as_built

BOND_OF_A_PANEL = "screw or strap of the maker"
"""What joins neutral and ground in a panel that is bought."""


class Protected(NamedTuple):
    """A circuit that this job adds: the path of its entry in a panel, that entry, and what was worked out for it."""

    path: Path
    entry: Circuit
    built: Built | None


def panels(plan: JobPlan) -> Iterator[tuple[Path, Panel]]:
    """Every panel with its path."""
    for number, panel in enumerate(plan.survey.job.panels):
        yield ("panels", number), panel


def panel(plan: JobPlan, id: str) -> tuple[Path, Panel] | None:
    """A panel by its id."""
    return next((each for each in panels(plan) if each[1].id == id), None)


def said_twice(plan: JobPlan, path: Path, word: str) -> list[Path]:
    """Where else a rating of a panel stands: in [supply], for the one that holds the service disconnect."""
    job = plan.survey.job
    twice = word in SAID_TWICE and path == ("panels", service_panel(job)) and getattr(job.supply, word) is not None
    return [("supply", word)] if twice else []


def circuits(plan: JobPlan) -> Iterator[tuple[Path, Panel, Circuit]]:
    """Every circuit with its path and its panel."""
    for path, each in panels(plan):
        for number, circuit in enumerate(each.circuits):
            yield (*path, "circuits", number), each, circuit


def as_new(plan: JobPlan, path: Path, each: Panel) -> list[tuple[Path, str | int]]:
    """The words that make a panel that is there one that this job puts in: its free spaces are those after the work.

    Where the edition asks surge protection of a panel that is put in, it is bought with it; what joins neutral and
    ground in the panel of the service comes with it.
    """
    if each.state == "new":
        return []
    words: list[tuple[Path, str | int]] = [((*path, "state"), "new")]
    supply = plan.survey.job.supply
    if path == ("panels", service_panel(plan.survey.job)) and supply.main_bonding is None:
        words.append((("supply", "main_bonding"), BOND_OF_A_PANEL))
    poles = [held.poles for held in as_built(plan.survey.job, each.id)]
    if each.free_spaces is not None and each.spaces is not None and None not in poles:
        words.append(((*path, "free_spaces"), each.spaces - sum(filter(None, poles))))
    if each.surge_protection is not True and _asks_for_surge(plan, each):
        words.append(((*path, "surge_protection"), True))
    return words


def _asks_for_surge(plan: JobPlan, panel: Panel) -> bool:
    """True where a panel in this place gets surge protection once it is put in anew."""
    ids = {f"existing.{part}/{panel.id}" for part in ("surge-protection", "feeder-surge-protection")}
    rows = [row for row in plan.design.existing.rows if row.asked.id in ids]
    return any(row.trigger is not None and bool(row.trigger.number) for row in rows)


def protected(plan: JobPlan, id: str) -> Protected | None:
    """A circuit that this job adds: of the unit by the unit's name, of a feeder by its own or by its panel's."""
    wiring = plan.design.wiring
    feeder = next((each for each in wiring.feeders if id in (each.id, each.panel)), None)
    for path, _, entry in circuits(plan):
        if entry.state != "new":
            continue
        if feeder is not None and entry.id == feeder.id:
            return Protected(path, entry, feeder.built)
        if owner(plan.survey.job, entry) == id:
            return Protected(path, entry, next((each.circuit for each in wiring.units if each.id == id), None))
    return None


def rating(at: Protected) -> float:
    """The breaker of a circuit in A: as stated, else as worked out; 0 where neither is known."""
    if at.entry.breaker is not None:
        return amount(at.entry.breaker, "A")
    device = None if at.built is None else at.built.need.device
    return 0 if device is None or device.missing else device.quantity


def built(plan: JobPlan, id: str) -> Built | None:
    """What was worked out for a circuit by its name: of a unit, behind it, of a feeder, also by its panel's name."""
    wiring = plan.design.wiring
    own = next((each for each in wiring.circuits if each.id == id), None)
    return own or next((each.built for each in wiring.feeders if id in (each.id, each.panel)), None)


def routes(plan: JobPlan, made: Built) -> list[Path]:
    """The paths of the runs of a circuit that this job adds."""
    own = {tube.run.id for tube in made.raceways if tube.run.new}
    return [("routes", number) for number, route in enumerate(plan.survey.job.routes) if route.id in own]


def greater(
    plan: JobPlan, check: Check, word: str, what: str, steps: tuple[int, ...], unit: str
) -> Iterator[Ladder]:  # fmt: skip
    """A panel with a greater rating; one that is there is exchanged, so that it counts as new.

    Args:
        plan: the job.
        check: about the panel that its id names.
        word: of the rating.
        what: the rating as people call it.
        steps: that are made.
        unit: of the rating.
    """
    found = panel(plan, check.id.partition("/")[2].partition("/")[0])
    have = None if found is None else getattr(found[1], word)
    if found is None or have is None:
        return
    path, each = found
    name, words = each.name or each.id, as_new(plan, path, each)
    says = f"choose a {name.lower()} with" if each.state == "new" else f"exchange the {name} for one with"
    beyond = [n for n in steps if n > amount(have, unit)]
    ways = [(*path, word), *said_twice(plan, path, word)]
    changes = (one(f"{says} {what} of {n} {unit}", *((way, f"{n} {unit}") for way in ways), *words) for n in beyond)
    yield ladder(changes, rising=True)
