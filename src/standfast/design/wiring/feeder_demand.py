"""What a feeder has to carry by the demand of Article 220 Part III, where the sum of what is joined to it is too much.

The sum of connected loads is never less than the demand, so it may pass a feeder and never fails one. Where it is over,
the demand is worked out: cooking, dryers and appliances fastened in place by the appliance with the circuit's id, the
general lighting and receptacles, small-appliance and laundry circuits by the floor area and the circuits of the whole
dwelling, which are never less than the share of one panel. All else counts in full. A feeder fails where no method of
the article comes below its device.
"""

from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from standfast.design.wiring import feeder_load, house, legs
from standfast.design.wiring.feeder_load import Fed, LoadOf
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import cooking, loads
from standfast.sheet import Check, Value, at_most, attempt, cannot_tell, missing, total, work, worst

GENERAL = ("general", "small appliance", "laundry")
SMALL_BREAKER = 1
"""Poles of a breaker that can be of a general circuit."""

Counts = Callable[[Fed], bool]


class Demand(NamedTuple):
    """Currents in A on the line that carries more: by the demand, and that below which no method comes."""

    counted: Value
    least: Value


def check(task: Material, panel: str, title: str, charging: Value, device: Value) -> Check:
    """The device of the feeder, or the main of the panel where that is smaller, carries what is joined and charging.

    Args:
        task: the job.
        panel: the panel that is fed.
        title: of the feeder.
        charging: current of the unit while it charges, in A, as a continuous load; zero where it charges elsewhere.
        device: of the feeder, in A.
    """
    id, clause = f"wiring.feeder-load/{panel}", task.nec.clause("feeder_device")
    asked = f"{title}: its device carries the circuits beyond it and the charging of the battery"
    limit, known = decisive(task, panel, device), feeder_load.connected(task, panel)
    upper = at_most(id, asked, clause, total("I_needed", [known, charging], "A", clause), limit)
    if upper.verdict == "pass" or known.missing or charging.missing or limit.missing:
        return upper
    found = demand(task, panel, lambda _: True, neutral=False)
    sums = (total("I_needed", [each, charging], "A", clause) for each in found)
    return judged(upper, limit, Demand(*sums))


def decisive(task: Material, panel: str, device: Value) -> Value:
    """The smaller in A of the device of a feeder and the main of its panel: they are in series."""
    if task.panel(panel).main_lugs:
        return device
    ahead, main = work("I_ahead", "I", "A", None, I=device), task.job.fact(f"panels.{panel}.main", "I_main", "A")
    return worst("I_device", [ahead, main], "min", task.nec.clause("feeder_device"))


def judged(upper: Check, limit: Value, found: Demand) -> Check:
    """A verdict where the connected sum is over: pass by the demand, fail by what is least, else *cannot tell*."""
    by_demand = upper._replace(verdict="cannot tell", demand=found.counted, margin=None)
    if not found.counted.missing:
        by_demand = at_most(upper.id, upper.title, upper.clause, found.counted, limit)
        if by_demand.verdict == "pass":
            return by_demand._replace(reason="by the demand of Article 220 Part III")
    least = at_most(upper.id, upper.title, upper.clause, found.least, limit)
    if least.verdict == "fail":
        return least._replace(reason="no method of Article 220 comes below this")
    facts = found.counted.how if found.counted.missing else "the demand worked out from the facts at hand is over too"
    why = (
        f"the connected loads together are over {limit.quantity:.4g} A ({limit.how}), but no demand factor is in them, "
        f"so they fail nothing; {facts}. Add use to circuits of lights and receptacles, and an appliance with the id "
        "of each circuit that carries one alone; or a calculation of the feeder"
    )
    return cannot_tell(upper.id, upper.title, upper.clause, why, found.counted)


def demand(task: Material, panel: str, counts: Counts, *, neutral: bool) -> Demand:
    """Demand on a feeder, without charging, on the line that carries more.

    Args:
        task: the job.
        panel: the panel that is fed.
        counts: which circuits count.
        neutral: true for its neutral: cooking and dryers at their share, nothing more for what runs for hours.
    """
    beyond = [each for each in feeder_load.fed(task, panel) if counts(each)]
    cook, fastened = _factors(task, beyond)
    general = attempt("I_general", "A", partial(_general, task, beyond))
    part = partial(_at_demand, cook=cook, fastened=fastened, neutral=neutral)
    load = part if neutral else partial(_lasting, load=part)
    full = partial(_least, load=part, pool=attempt("k_pool", "1", partial(_pool, task, beyond)))
    counted, least = list[Value](), list[Value]()
    for leg in legs.LEGS:
        more = [] if neutral else [feeder_load.motor(task, panel, leg)]
        own = [current for _, current in feeder_load.on(task, panel, leg, load, counts)]
        counted.append(total(f"I_line_{leg}", [general, *own, *more], "A"))
        own = [current for _, current in feeder_load.on(task, panel, leg, full, counts)]
        least.append(total(f"I_least_{leg}", own, "A"))
    return Demand(worst("I_line", counted, "max"), worst("I_least", least, "max"))


def kind(task: Material, fed: Fed) -> str:
    """How the calculation counts a circuit: by the appliance with its id, else by its use; empty where nobody said."""
    found = next((each.kind for each in task.job.content.loads.appliances if each.id == fed.circuit.id), None)
    return found or fed.circuit.use or ""


def _factors(task: Material, beyond: list[Fed]) -> tuple[Value, Value]:
    """Share of their nameplates at which the cooking appliances count, and the factor of appliances fastened in
    place."""
    cooked = [feeder_load.plain(task, each) for each in beyond if kind(task, each) == "cooking"]
    placed = [feeder_load.plain(task, each) for each in beyond if kind(task, each) in house.FASTENED]

    def share() -> Value:
        whole = total("S_cooks", cooked, "VA")
        return work("k_cooking", "S / S_cooks", "1", None, whole, S=house.cooking_demand(task.nec, cooked))

    unasked = missing("k_cooking", "1", "no cooking appliance")
    return attempt("k_cooking", "1", share) if cooked else unasked, loads.fastened_factor(task.nec, placed)


def _general(task: Material, beyond: list[Fed]) -> Value:
    """Demand in A of the general lighting and receptacles of the whole dwelling, even on both lines (210.11(B))."""
    if not any(kind(task, each) in GENERAL for each in beyond):
        return total("I_general", [], "A")
    whole = total("S", house.lighting_and_circuits(task.nec, task.job), "VA")
    found = loads.lighting_demand(task.nec, whole)
    return loads.line_current(found, task.job.fact("supply.voltage", "U", "V"))


def _pool(task: Material, beyond: list[Fed]) -> Value:
    """What the optional method would leave of all that is connected, as a share."""
    every = [feeder_load.plain(task, each) for each in beyond]
    found = loads.optional_existing(task.nec, every)
    if not found.general.missing and found.general.quantity == 0:
        return total("k_pool", [], "1")
    return work(
        "k_pool", "S_demand / S_general", "1", task.nec.clause("optional_existing"), found.demand, found.general
    )


def _at_demand(task: Material, fed: Fed, *, cook: Value, fastened: Value, neutral: bool) -> Value:
    """Load in VA of a circuit at its demand; nothing of a general circuit, whose demand is in that of the dwelling."""
    load, found = feeder_load.plain(task, fed), kind(task, fed)
    if found in GENERAL:
        return work("S_D", "0 * S", "VA", None, S=load)
    if found in house.FASTENED:
        return loads.fastened_demand(task.nec, [load], fastened)
    if found == feeder_load.VEHICLE:
        return loads.vehicle_supply(task.nec, load)
    if found not in ("cooking", "dryer"):
        return load
    clause = task.nec.clause("cooking")
    at = loads.dryer_demand(task.nec, [load]) if found == "dryer" else (
        work("S_D", "k_cooking * S", "VA", clause, cook, S=load)
    )  # fmt: skip
    return cooking.neutral(task.nec, at) if neutral else at


def _lasting(task: Material, fed: Fed, *, load: LoadOf) -> Value:
    """Load in VA of a circuit at its demand, with a quarter of what of it runs for hours."""
    clause, factor = task.nec.clause("feeder_device"), task.nec.number("continuous_factor")
    part = feeder_load.continuous(task, fed)
    return work("S_cont_D", "S + (k_cont - 1) * S_cont", "VA", clause, factor, part, S=load(task, fed))


def _least(task: Material, fed: Fed, *, load: LoadOf, pool: Value) -> Value:
    """Load in VA below which no method brings a circuit: one that may be of lights at the least factor of those."""
    plain, found = feeder_load.plain(task, fed), kind(task, fed)
    if found in GENERAL or (not found and fed.circuit.motor is None and fed.circuit.poles in (None, SMALL_BREAKER)):
        least = task.nec.number("lighting_factor_3", "k_3")
        return work("S_least", "k_3 * S", "VA", task.nec.clause("lighting_demand"), least, S=plain)
    return worst("S_least", [load(task, fed), work("S_pool", "k_pool * S", "VA", None, pool, S=plain)], "min")
