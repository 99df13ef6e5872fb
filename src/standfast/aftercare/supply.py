"""Who has power while a damaged unit waits for its assessment, which can take days.

From afar only the breakers of the unit are opened: every circuit that the grid feeds without it keeps its power, or
has it again at once. What hangs behind the unit is dark, and somebody has to be told and to decide.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.aftercare.making import SUPPLY, step
from standfast.fieldwork.crew.off import Load, fed, loads_of
from standfast.fieldwork.generators import switches
from standfast.fieldwork.order.house import House
from standfast.fieldwork.order.of_sheet import own_way
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep


class Supply(NamedTuple):
    """Circuits of the house with the units switched off at the panel.

    Attributes:
        opened: names of the breakers that part the units.
        kept: circuits that the grid feeds without the units.
        dark: circuits that nothing feeds.
        backed: those of the kept ones that carry on no longer when the grid is lost.
        through: what changes over between grid and unit on the way to them; it has to stand on the grid.
        generators: breakers of generators of the house, which can feed some of it when the grid is lost.
    """

    opened: tuple[str, ...]
    kept: tuple[Load, ...]
    dark: tuple[Load, ...]
    backed: tuple[Load, ...]
    through: tuple[str, ...]
    generators: tuple[str, ...]


def supply_of(plan: Plan, house: House) -> Supply:
    """The supply of the house without its units.

    Args:
        plan: the job as built.
        house: as it stands before anything is opened.
    """
    graph, site = plan.installation, house.site
    opened = {id for each in plan.devices for id in own_way(plan, each) if graph.parts[id].kind == "breaker"}
    closed = {gate.id for gate in site.gates if gate.closed} - opened
    grid = [site.sources[part.id] for part in graph.of_kind("utility") if part.id in site.sources]
    loads, zones = loads_of(plan, house, ()), fed(site, grid, closed)
    kept = [each for each in loads if each.home in zones]
    over = [part for part in graph.of_kind("transfer equipment") if part.id in closed]
    without = fed(site, grid, closed - {part.id for part in over})
    backed = [each for each in kept if each.home not in without]
    return Supply(
        tuple(graph.parts[id].name for id in sorted(opened)), tuple(kept),
        tuple(each for each in loads if each.home not in zones), tuple(backed),
        tuple(part.name for part in over) if backed else (), tuple(graph.parts[id].name for id in switches(graph)),
    )  # fmt: skip


def supply_step(plan: Plan, supply: Supply) -> WorkStep:
    """What loses power, what has it again at once, and what is done about the rest: told to the owner."""
    say = plan.say
    told = [say("aftercare.supply", switches=_or_none(plan, supply.opened), kept=named(plan, supply.kept))]
    if supply.backed:
        words = {"through": ", ".join(supply.through), "circuits": named(plan, supply.backed)}
        told.append(say("aftercare.supply_through", **words))
    told.append(say("aftercare.supply_dark", circuits=named(plan, supply.dark)) if supply.dark
                else say("aftercare.supply_none_dark"))  # fmt: skip
    if supply.generators:
        told.append(say("aftercare.supply_generator", switches=", ".join(supply.generators)))
    dear = [each for each in (*supply.dark, *supply.backed) if each.sensitive]
    cautions = [say("aftercare.supply_caution")]
    if dear:
        cautions.append(say("aftercare.supply_dear", circuits=named(plan, dear)))
    found = step(plan, SUPPLY, "make dead", (), "supply_done", told=" ".join(told))
    readings = [Reading(say("aftercare.supply_lit", name=each.panel), "") for each in _one_a_panel(supply.backed)]
    owner = Reading(say("aftercare.supply_told"), "")
    return found._replace(readings=(*readings, owner), cautions=tuple(cautions))


def for_owner(plan: Plan, supply: Supply) -> list[str]:
    """What the owner has to know until the unit is away."""
    say = plan.say
    told = [say("aftercare.owner_kept", circuits=named(plan, supply.kept))] if supply.kept else []
    told += [say("aftercare.owner_dark", circuits=named(plan, supply.dark))] if supply.dark else []
    told += [say("aftercare.owner_backed", circuits=named(plan, supply.backed))] if supply.backed else []
    return told


def _one_a_panel(loads: Sequence[Load]) -> list[Load]:
    return list({each.panel: each for each in loads}.values())


def named(plan: Plan, loads: Sequence[Load]) -> str:
    """Circuits with their panels, a panel once."""
    panels = dict[str, list[str]]()
    for each in loads:
        panels.setdefault(each.panel, []).append(each.name)
    told = [plan.say("aftercare.in_panel", panel=panel, circuits=", ".join(names)) for panel, names in panels.items()]
    return "; ".join(told) or plan.say("aftercare.labels_none")


def _or_none(plan: Plan, names: Sequence[str]) -> str:
    return ", ".join(names) or plan.say("aftercare.labels_none")
