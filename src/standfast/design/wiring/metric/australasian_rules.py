"""Checks that only Australia and New Zealand have: MEN without the grid, residual devices, size of the system, DC."""

from collections.abc import Iterator

from standfast.design.wiring.metric.built import MetricWiring
from standfast.design.wiring.metric.circuits import THREE, sources
from standfast.design.wiring.metric.question import UTILITY, Question
from standfast.faults import NotInEdition
from standfast.rulebooks.asnzs4777 import system
from standfast.rulebooks.asnzs5139 import dc_class
from standfast.sheet import (
    Check,
    Value,
    assumed,
    at_most,
    cannot_tell,
    chosen,
    is_,
    not_applicable,
    one_of,
    settle,
    total,
    work,
)
from standfast.survey.joined import has_inverter

ELSEWHERE = "New Zealand"
NEUTRAL = "The neutral of the grid stays joined while the battery carries the house"


def checks(q: Question, found: MetricWiring) -> Iterator[Check]:
    """Every check of these two countries."""
    yield from _backup(q)
    yield from _men(q)
    for each in found.finals:
        yield _additional(q, each.path, each.id, each.title)
        yield _kind(q, each.path, each.id, each.title)
    yield from _size(q)
    yield from _direct_current(q)


def direction(q: Question, id: str, title: str, backwards: Value, stated: Value) -> Check:
    """A residual device that a source feeds from its load side is one whose maker says that it may be."""
    clause = q.clause("maker")
    needed = chosen("needed", True, "", "a source stands on its load side", clause, backwards)
    return is_(id, title, clause, stated, needed)


def _backup(q: Question) -> Iterator[Check]:
    """The MEN connection keeps serving: the change-over leaves the neutral joined."""
    mode = q.job.fact("backup.mode", "mode")
    clause = q.clause("neutral_continuity")
    if mode.number == "none":
        reason = "nothing is carried while the grid is away"
        yield not_applicable("wiring.neutral-continuity", NEUTRAL, clause, reason)
        return
    opened = q.of("island_switch", "switch.neutral_switched", "neutral_switched")
    no = chosen("asked", False, "", "the change-over keeps the neutral continuous", clause)
    yield is_("wiring.neutral-continuity", NEUTRAL, clause, opened, no)


def _men(q: Question) -> Iterator[Check]:
    """The MEN connection is in the main switchboard and in no other."""
    clause = q.clause("men_connection")
    for panel in q.job.content.panels:
        main = panel.fed_from == UTILITY
        title = f"{q.name(panel.id)}: {'holds the MEN connection' if main else 'holds no MEN connection'}"
        bonded = q.job.fact(f"panels.{panel.id}.neutral_bonded", "men")
        asked = chosen("asked", main, "", "one MEN connection, at the main switchboard", clause)
        yield is_(f"wiring.men-connection/{panel.id}", title, clause, bonded, asked)


def _additional(q: Question, path: str, id: str, name: str) -> Check:
    """Circuits that are altered to be carried by the battery have a residual device that protects people."""
    title, clause = f"{name}: residual current device that protects people", q.clause("additional_protection")
    rated = q.job.fact(f"{path}.residual.rated", "I_dn", "A")
    return at_most(f"wiring.additional-protection/{id}", title, clause, rated, q.rules.number("residual_greatest"))


def _kind(q: Question, path: str, id: str, name: str) -> Check:
    title, clause = f"{name}: its residual device is of a kind that may be put in", q.clause("residual_kind")
    kind = q.job.fact(f"{path}.residual.type", "type")
    found = one_of(f"wiring.residual-kind/{id}", title, clause, kind, q.rules.number("residual_kinds"))
    if found.verdict == "fail" and q.job.content.grid.region == ELSEWHERE:
        reason = f"the end of type AC is known for Australia alone: ask whether it may stay in {ELSEWHERE} ({path})"
        return cannot_tell(found.id, title, clause, reason, kind)
    return found


def _size(q: Question) -> Iterator[Check]:
    """All inverters of the house, against the limits of AS/NZS 4777.1."""
    book, U = q.book("asnzs4777"), q.job.fact("supply.voltage_to_ground", "U_0", "V")
    phases = q.own("phases", "n_phase", "1")
    outputs = [each.output for each in sources(q)]
    all_of = total("I_all", outputs, "A")
    power = work("S_all", "U_0 * I_all", "VA", None, U, all_of)
    title = "All single-phase inverters together keep to the limit"

    def single() -> Check:
        id = "wiring.inverter-size"
        if phases.number == THREE:
            return not_applicable(id, title, book.clause("single_phase"), "the inverter feeds three phases")
        return system.single_phase(book, id, power)

    yield settle("wiring.inverter-size", title, book.unheld(), single)
    id, title = "wiring.interface-protection", "The system does without interface protection of its own"
    yield settle(id, title, book.unheld(), lambda: system.without_interface_protection(book, id, power))
    if q.job.content.supply.system == "230/400 V three-phase":
        yield _balance(q, U, phases)


def _balance(q: Question, U: Value, phases: Value) -> Check:
    """The sources that this job adds to one phase; what is there already stands on a phase that nobody surveyed."""
    id, book = "wiring.phase-balance", q.book("asnzs4777")
    title = "Single-phase inverters are spread over the phases"

    def ask() -> Check:
        if phases.number == THREE:
            return not_applicable(id, title, book.clause("phase_balance"), "the inverter feeds three phases alike")
        one = work("S_one", "U_0 * I_all", "VA", None, U, total("I_all", [each.output for each in sources(q)], "A"))
        if one.missing:
            return system.balanced(book, id, one)
        how = "on which phase each source is was not surveyed: as if all were on one"
        return system.balanced(book, id, assumed("S_difference", one.quantity, "VA", how, one.clause, bounding=True))

    return settle(id, title, book.unheld(), ask)


def _direct_current(q: Question) -> Iterator[Check]:
    """The battery cable by the class of its voltage: above the lowest it is protected over its whole run."""
    title = "The battery cable is protected against damage over its whole run"
    try:
        book = q.book("asnzs5139")
        clause = book.clause("battery_cable_protection")
    except NotInEdition:
        return
    if not has_inverter(q.job.content):
        reason = "the inverter is inside the battery unit: no battery cable runs outside it"
        yield not_applicable("wiring.battery-cable", title, clause, reason)
        return
    voltage = q.of("battery", "dc.voltage_max", "U_dc", "V")
    needed = dc_class.cable_protected_throughout(book, dc_class.decisive_voltage_class(book, voltage))
    for route in q.job.content.routes:
        if "battery" not in route.from_ and "battery" not in route.to:
            continue
        id = f"wiring.battery-cable/{route.id}"
        if needed.number is False:
            yield not_applicable(id, title, clause, f"class {needed.inputs[0].number}: {needed.how}")
        else:
            yield is_(id, title, clause, q.job.fact(f"routes.{route.id}.mechanical_protection", "protected"), needed)
