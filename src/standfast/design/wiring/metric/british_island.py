"""Checks that only British rules have: earthing without the grid, the supply's own earthing, surges, the operator."""

from collections.abc import Iterator

from standfast.design.wiring.metric import british_notice, british_residual
from standfast.design.wiring.metric.built import MetricWiring
from standfast.design.wiring.metric.question import Question
from standfast.rulebooks.bs7671 import earth_fault
from standfast.sheet import Check, Value, at_most, cannot_tell, chosen, is_, not_applicable, settle, worst


def checks(q: Question, found: MetricWiring) -> Iterator[Check]:
    """Every check that is British."""
    yield from _earthing_of_island(q, found)
    if q.job.content.supply.earthing == "TT":
        yield _tt(q, found)
    for panel in found.assemblies:
        yield _surges(q, panel)
    yield from _bonding(q)
    yield from _existing_direction(q)
    yield from british_residual.checks(q)
    yield from british_notice.checks(q, found.notification)


def _backed(q: Question) -> bool:
    return q.job.content.backup.mode not in (None, "none")


def _earthing_of_island(q: Question, found: MetricWiring) -> Iterator[Check]:
    """An electrode of its own, the neutral parted with the line, and one link of neutral and earth, in their order."""
    clause = q.clause("own_electrode")
    if not _backed(q):
        reason = "nothing is carried while the grid is away"
        yield not_applicable("wiring.own-electrode", "An earth electrode serves while the grid is away", clause, reason)
        return
    yield _own_electrode(q)
    yield _electrode_resistance(q, found)
    clause = q.clause("neutral_earth_link")
    title = "The supply's neutral is parted together with its line before the battery carries the house"
    parted = q.of("island_switch", "switch.neutral_switched", "neutral_switched")
    yes = chosen("asked", True, "", "the bond of the supply does not serve without the grid", clause)
    yield is_("wiring.island-neutral", title, clause, parted, yes)
    how = "the link is closed after line and neutral of the grid are open, and opened before they close again"
    title = "The link of neutral and earth closes after the grid is parted and opens before it returns"
    order = q.own("bond_interlocked", "interlocked")
    yield is_("wiring.neutral-earth-order", title, clause, order, yes, condition=how)


def _own_electrode(q: Question) -> Check:
    """The earth that the distributor provides is not relied on while his supply is away."""
    id, clause = "wiring.own-electrode", q.clause("own_electrode")
    title = "An earth electrode of its own serves while the grid is away"
    own = q.job.fact("backup.own_electrode", "own_electrode")
    if q.job.content.supply.earthing == "TT":
        return not_applicable(id, title, clause, "the installation has its own electrode always (TT)")
    return is_(id, title, clause, own, chosen("asked", True, "", "the distributor's earth may be lost with the supply",
                                              clause))  # fmt: skip


def _electrode_resistance(q: Question, found: MetricWiring) -> Check:
    """Low enough for the residual devices that are carried, and steady."""
    id, clause = "wiring.electrode-resistance", q.clause("residual_tt")
    title = "Resistance of the electrode that serves while the grid is away"
    tt = q.job.content.supply.earthing == "TT"
    reading = q.job.fact("supply.electrode_resistance" if tt else "backup.electrode_resistance", "R_A", "ohm")
    return settle(id, title, clause, lambda: at_most(id, title, clause, reading, _greatest_resistance(q, found)))


def _greatest_resistance(q: Question, found: MetricWiring) -> Value:
    """Of an electrode in ohm: low enough for the least sensitive residual device that rests on it, and steady."""
    limits, clause = [q.rules.number("electrode_stable")], q.clause("residual_tt")
    rated = [each.I_dn for each in found.finals if not each.I_dn.missing]
    if rated:
        I_dn = worst("I_dn", rated, "max")
        limits.append(earth_fault.greatest_electrode_resistance(q.rules, I_dn, q.rules.number("touch_voltage")))
    return worst("R_A_max", limits, "min", clause)


def _tt(q: Question, found: MetricWiring) -> Check:
    """On the grid too a TT installation rests on its electrode and on residual devices."""
    id, clause = "wiring.tt-electrode", q.clause("residual_tt")
    title = "Electrode of the TT installation and its residual devices, on the grid"
    reading = q.job.fact("supply.electrode_resistance", "R_A", "ohm")
    bare = [each.title for each in found.finals if not each.residual]
    if bare:
        return cannot_tell(id, title, clause, f"without a residual device, or not known: {', '.join(bare)}")
    return settle(id, title, clause, lambda: at_most(id, title, clause, reading, _greatest_resistance(q, found)))


def _surges(q: Question, panel: str) -> Check:
    id, title = f"wiring.surge-protection/{panel}", f"{q.name(panel)}: surge-protective device"
    clause = q.clause("surge_protection")
    there = q.job.fact(f"panels.{panel}.surge_protection", "there")
    return is_(id, title, clause, there, chosen("asked", True, "", "the dwelling is altered here", clause))


def _bonding(q: Question) -> Iterator[Check]:
    """Before a dwelling is altered its main bonding is adequate: pipes of metal that come in are bonded."""
    clause = q.clause("main_bonding")
    for pipe in ("water", "gas"):
        id, title = (
            f"wiring.main-bonding/{pipe}",
            f"Main bonding of the {pipe} pipe, before the house is altered",
        )
        metal = q.job.fact(f"supply.metal_{pipe}_pipe", "metal")
        if metal.number is False:
            yield not_applicable(id, title, clause, f"no metal {pipe} pipe is in the building")
            continue
        bonded = q.job.fact(f"supply.{pipe}_pipe_bonded", "bonded")
        yield is_(id, title, clause, bonded, chosen("asked", True, "", "a metal pipe comes in", clause))


def _existing_direction(q: Question) -> Iterator[Check]:
    """Devices that are there and that a source feeds backwards: of PV that is there, and of feeders."""
    for panel in q.job.content.panels:
        for circuit in panel.circuits:
            if circuit.source_output is None or q.circuit_of_source(circuit) or circuit.residual is None:
                continue
            path = f"panels.{panel.id}.circuits.{circuit.id}.residual.bidirectional"
            id = f"wiring.residual-direction/{panel.id}/{circuit.id}"
            title = f"{circuit.name or circuit.id}: its residual device may be fed from either side"
            backwards = chosen("backwards", True, "", "a source feeds through it", None)
            yield q.dialect.direction(q, id, title, backwards, q.job.fact(path, "bidirectional"))
