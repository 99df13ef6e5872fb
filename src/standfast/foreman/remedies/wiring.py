"""Ladders of the wiring: breakers, conductors, raceways, busbars, ratings, other data sheets."""

from collections.abc import Callable, Iterator
from typing import get_args

from standfast.design.installation.build import islanded
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, busbars, fewer, parts
from standfast.foreman.remedies.change import Change, Ladder, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.terms import TradeSize, Wire

KILOAMPERES = (10, 14, 18, 22, 25, 30, 35, 42, 50, 65, 85, 100, 200)
SPACES = (8, 12, 16, 20, 24, 30, 32, 40, 42, 48, 54, 60, 66, 84)
"""Ratings and sizes that are made. No verdict rests on them: each is tried like any other change."""


def _about(check: Check, part: int = 1) -> str:
    """What a check is about: the part of its id behind a stroke."""
    return (check.id.split("/") + [""] * (part + 1))[part]


def _breaker(plan: JobPlan, check: Check, *, up: bool) -> Iterator[Ladder]:
    at, family = parts.protected(plan, _about(check)), plan.sheets.get("breaker")
    if at is None or family is None or family.sheet.switch is None:
        return
    amps = sorted(amount(each, "A") for each in family.sheet.switch.ratings)
    have = parts.rating(at)
    beyond = [each for each in amps if each > have] if up else [each for each in reversed(amps) if each < have]
    yield ladder(
        (one(f"put in a breaker of {each:g} A", ((*at.path, "breaker"), f"{each:g} A")) for each in beyond),
        rising=True,
    )


def larger_breaker(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The next ratings of the family."""
    return _breaker(plan, check, up=True)


def smaller_breaker(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The ratings of the family below."""
    return _breaker(plan, check, up=False)


def _size(plan: JobPlan, check: Check, *, up: bool) -> Iterator[Ladder]:
    made = parts.built(plan, _about(check))
    if made is None or made.conductor.size.missing:
        return
    sizes: tuple[str, ...] = get_args(Wire)
    at, runs = sizes.index(made.conductor.size.word), parts.routes(plan, made)
    beyond = sizes[at + 1 :] if up else tuple(reversed(sizes[:at]))
    changes = (_conductors(runs, "size", each, f"run conductors of size {each}") for each in beyond if runs)
    yield ladder(changes, rising=True)


def _conductors(runs: list[Path], word: str, value: str, says: str) -> Change:
    return one(says, *(((*run, "conductors", word), value) for run in runs))


def larger_conductor(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The next sizes, on every run of the circuit."""
    return _size(plan, check, up=True)


def smaller_conductor(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The sizes below, on every run of the circuit."""
    return _size(plan, check, up=False)


def other_metal(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Copper for aluminium, or the other way; the size follows where the job does not state it."""
    made = parts.built(plan, _about(check))
    if made is None or made.conductor.conditions.material.missing:
        return
    metal = "al" if made.conductor.conditions.material.word == "cu" else "cu"
    name = "copper" if metal == "cu" else "aluminium"
    runs = parts.routes(plan, made)
    yield ladder([_conductors(runs, "material", metal, f"run conductors of {name}")] if runs else [])


def raceway(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The next trade sizes of the raceway."""
    sizes: tuple[str, ...] = get_args(TradeSize)
    for number, route in enumerate(plan.survey.job.routes):
        if route.id == _about(check, 2) and route.state == "new" and route.trade_size is not None:
            beyond = sizes[sizes.index(route.trade_size) + 1 :]
            path = ("routes", number, "trade_size")
            yield ladder((one(f"run a raceway of trade size {each}", (path, each)) for each in beyond), rising=True)


def more_spaces(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A new panel with more spaces."""
    found = parts.panel(plan, _about(check))
    if found is None or found[1].state != "new" or found[1].spaces is None:
        return
    (path, each), have = found, found[1].spaces
    says = f"choose a {(each.name or each.id).lower()} with {{}} spaces"
    yield ladder((one(says.format(n), ((*path, "spaces"), n)) for n in SPACES if n > have), rising=True)


def interrupting(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Breakers of a panel that interrupt more; for the service its own device."""
    if _about(check) == "service-disconnect":
        have = plan.survey.job.supply.main_interrupting
        amps = 0.0 if have is None else amount(have, "kA")
        device: Path = ("supply", "main_interrupting")
        steps = [each for each in KILOAMPERES if each > amps]
        says = "put in a service device that interrupts {} kA"
        yield ladder((one(says.format(each), (device, f"{each} kA")) for each in steps), rising=True)
        return
    found = parts.panel(plan, _about(check))
    if found is not None and found[1].breaker_interrupting is not None and not _about(check, 2):
        path, have = (*found[0], "breaker_interrupting"), found[1].breaker_interrupting
        steps = [each for each in KILOAMPERES if each > amount(have, "kA")]
        says = f"take breakers that interrupt {{}} kA for the {found[1].name or found[1].id}"
        yield ladder((one(says.format(each), (path, f"{each} kA")) for each in steps), rising=True)


def standing(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A panel that stands more fault current."""
    if not _about(check, 2):
        yield from parts.greater(plan, check, "short_circuit_rating", "a short-circuit rating", KILOAMPERES, "kA")


def bond(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """Neutral and ground joined, or parted, in a panel that this job adds."""
    for path, each in parts.panels(plan):
        if each.state == "new":
            says = "part neutral and ground" if each.neutral_bonded else "join neutral and ground"
            words = ((*path, "neutral_bonded"), not each.neutral_bonded)
            yield ladder([one(f"{says} in the {each.name or each.id}", words)])


def apart(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Neutral and ground parted in a panel of another building."""
    found = parts.panel(plan, _about(check))
    if found is not None and found[1].neutral_bonded:
        says = f"part neutral and ground in the {found[1].name or found[1].id}"
        yield ladder([one(says, ((*found[0], "neutral_bonded"), False))])


def building_disconnect(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A main breaker in the panel of another building, that is the disconnect of its feeder."""
    found = parts.panel(plan, _about(check))
    if found is not None and found[1].main is not None:
        says = f"let a main breaker in the {found[1].name or found[1].id} be the disconnect of the building"
        yield ladder([one(says, ((*found[0], "building_disconnect"), "in the panel"))])


def not_carried(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """Circuits that hang before the island switch taken off the backup."""
    beyond = islanded(plan.survey)
    lost = [(path, each) for path, holder, each in parts.circuits(plan) if each.backed_up and holder.id not in beyond]
    names = ", ".join(each.name or each.id for _, each in lost)
    words = [((*path, "backed_up"), False) for path, _ in lost]
    yield ladder([one(f"take off the backup: {names}", *words)] if words else [])


def electrode(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A larger grounding electrode conductor, of the service or of a panel in another building."""
    job, sizes = plan.survey.job, list[str](get_args(Wire))
    found = parts.panel(plan, _about(check))
    have = job.supply.electrode_conductor if found is None else found[1].electrode_conductor
    if have is not None and have.size is not None:
        path: Path = (*(("supply",) if found is None else found[0]), "electrode_conductor", "size")
        beyond = sizes[sizes.index(have.size) + 1 :]
        says = "run a grounding electrode conductor of size {}"
        yield ladder((one(says.format(each), (path, each)) for each in beyond), rising=True)


Way = Callable[[JobPlan, Check], Iterator[Ladder]]
_breakers, _disconnects = at_hand.other("breaker"), at_hand.other("disconnect")
_switches, _units = at_hand.other("island_switch"), at_hand.other("battery", "inverter")

WAYS: tuple[tuple[str, tuple[Way, ...]], ...] = (
    ("wiring.device-rating", (larger_breaker, _breakers)),
    ("wiring.device-standard", (larger_breaker, smaller_breaker)),
    ("wiring.device-made", (larger_breaker, smaller_breaker, _breakers)),
    ("wiring.device-maker-maximum", (smaller_breaker,)),
    ("wiring.device-", (_breakers,)),
    ("wiring.conductor-protection", (larger_conductor, smaller_breaker)),
    ("wiring.conductor-", (larger_conductor, smaller_breaker, other_metal)),
    ("wiring.equipment-ground", (larger_conductor, smaller_breaker)),
    ("wiring.terminal-metal", (other_metal,)),
    ("wiring.terminal-range", (larger_conductor, smaller_conductor, other_metal)),
    ("wiring.bending-space", (smaller_conductor,)),
    ("wiring.voltage-", (larger_conductor, other_metal)),
    ("wiring.start-drop", (larger_conductor, other_metal)),
    ("wiring.start-time", (_units,)),
    ("wiring.island-fault", (_units,)),
    ("wiring.raceway-fill", (raceway, smaller_conductor)),
    ("wiring.feeder-load", (larger_breaker, _breakers, fewer.units)),
    ("wiring.source-feeder", (larger_breaker, larger_conductor, fewer.units)),
    ("wiring.panel-protection", (busbars.smaller_main, smaller_breaker, busbars.larger_panel)),
    ("wiring.panel-spaces", (more_spaces, fewer.units)),
    *busbars.WAYS,
    ("wiring.island-switch-rating", (smaller_breaker, _switches)),
    ("wiring.island-switch-", (_switches, _units)),
    ("wiring.neutral-bond", (bond, _switches)),
    ("wiring.backed-up-side", (not_carried,)),
    ("wiring.electrode-conductor", (electrode,)),
    ("wiring.building-electrode-conductor", (electrode,)),
    ("wiring.building-neutral", (apart,)),
    ("wiring.building-disconnect/", (building_disconnect,)),
    ("wiring.interrupting-rating/", (interrupting, _breakers)),
    ("wiring.short-circuit-rating/", (standing, _disconnects, _switches, _units)),
    ("wiring.disconnect-", (_disconnects,)),
    ("wiring.storage-disconnect", (_disconnects,)),
    ("wiring.emergency-shutdown/", (_units,)),
    ("wiring.listing-", (_units,)),
    ("wiring.anti-islanding", (_units,)),
    ("wiring.dc-voltage", (_units,)),
    ("wiring.voltage", (_units,)),
)
"""The least change first."""
