"""Rules of Australia and New Zealand for the engine: AS/NZS 3000 with 3008.1.1, 4777.1 and 5139.

The currents that cables carry are not held of AS/NZS 3008.1.1: those of IEC 60364-5-52 for conductors at 70 °C stand
for them. AS/NZS lets the same conductors become hotter, so a cable that passes by them carries more than was taken.
They may pass a cable and never fail one, and the set asks that the table be read.
"""

from collections.abc import Callable, Sequence

from standfast.design.wiring.house import Row
from standfast.design.wiring.metric import australasian_rules as rules
from standfast.design.wiring.metric.cable import carried
from standfast.design.wiring.metric.circuits import sources
from standfast.design.wiring.metric.dialect import Dialect
from standfast.design.wiring.metric.question import UTILITY, Question
from standfast.design.wiring.metric.runs import between
from standfast.design.wiring.metric.voltage import Stretch, percent, to_earth
from standfast.faults import NotInEdition
from standfast.rulebooks.asnzs3000 import demand, protection
from standfast.rulebooks.asnzs3008 import cables
from standfast.rulebooks.asnzs4777 import voltage_rise
from standfast.rulebooks.iec60364 import cables as base
from standfast.sheet import Check, Value, assumed, chosen, missing, one_of, total, work

INSULATION = "pvc70"
"""Conductors at 70 °C, whatever the cable bears: the terminals of switchboards are made for no more."""


def _safe_side(q: Question, ask: Callable[[], Value]) -> Value:
    """A value of the international tables as one that is safe for what AS/NZS 3008.1.1 holds."""
    found = ask()
    if found.missing:
        return found
    local = q.book("asnzs3008").clause("capacity")
    why = f"{local} is not held; {found.clause}, {found.how}, is on its safe side: read the standard's own table"
    return assumed(found.symbol, found.number or 0.0, found.unit, why, found.clause, bounding=True)


def _tabulated(q: Question, cable: str, method: str, loaded: int, area: Value) -> Value:
    return _safe_side(q, lambda: base.capacity(q.book("iec60364"), INSULATION, cable, method, loaded, area))


def _ambient(q: Question, cable: str, ambient: Value) -> Value:
    return _safe_side(q, lambda: base.ambient_factor(q.book("iec60364"), INSULATION, ambient))


def _grouping(q: Question, method: str, together: Value) -> Value:
    return _safe_side(q, lambda: base.grouping_factor(q.book("iec60364"), together))


def _insulation(q: Question, length: Value) -> Value:
    """Cables that insulation surrounds are method A: a factor by length is not held."""
    if length.missing or length.quantity > 0:
        local = q.book("asnzs3008").clause("capacity")
        need = f"no factor by length is held of {local}: keep the cable out of insulation, or write its method as A"
        return missing("C_i", "1", length.how if length.missing else need, length)
    return chosen("C_i", 1.0, "1", "no thermal insulation surrounds it", None, length)


def _drop(q: Question, cable: str, system: str, area: Value) -> Value:
    ask = cables.three_phase_drop if system == "three phase" else cables.single_phase_drop
    return ask(q.book("asnzs3008"), cable, area)


def _drop_limit(q: Question) -> Value:
    """What the consumer mains leave of the fall from the point of supply, at the rating of the supply."""
    fall = _of_mains(q, "u_mains", q.job.fact("supply.service", "I_supply", "A"))
    limit = q.rules.number("drop_limit")
    return work("u_limit", "u_drop_max - u_mains", "%", q.clause("voltage_drop_limit"), limit, fall)


def _rise_limit(q: Question) -> Value:
    """What the consumer mains leave of the rise to the point of supply, while every source feeds."""
    book = q.book("asnzs4777")
    out = total("I_out_all", [each.output for each in sources(q)], "A")
    rise = _of_mains(q, "u_mains", out)
    text = "100 * u_rise - u_mains"
    return work("u_rise_limit", text, "%", book.clause("voltage_rise"), voltage_rise.limit_ratio(book), rise)


def _of_mains(q: Question, symbol: str, current: Value) -> Value:
    """Change of voltage along the consumer mains in per cent: the route from the utility to the first switchboard."""
    first = next((each.id for each in q.job.content.panels if each.fed_from == UTILITY), "")
    runs = between(q, UTILITY, first)
    if not runs.routes:
        return missing(symbol, "%", f"routes: the consumer mains, from utility to {first or 'the main switchboard'}")
    area = runs.area
    if area is None:
        return missing(symbol, "%", f"routes.{runs.routes[0]}.area: of the consumer mains")
    system = "three phase" if q.job.content.supply.system == "230/400 V three-phase" else "single phase"
    stretch = Stretch(runs, system, area, carried(q, runs, system, area))
    return percent(q, symbol, [(stretch, current)])


def _protective(q: Question, cable: str, area: Value) -> Value:
    return protection.earthing_conductor(q.rules, area)


def _not_held(q: Question, curve: str, rating: Value, breaking: Value) -> Value:
    raise NotInEdition(f"{q.rules.short} {q.rules.edition}: no energy that a breaker lets through is held")


def _suits(q: Question, id: str, title: str, device: Value, asked: Value) -> Check:
    clause = q.clause("residual_kind")
    if asked.missing:
        return one_of(id, title, clause, device, missing("kinds", "", asked.how, asked))
    return one_of(id, title, clause, device, protection.kinds_enough(q.rules, asked))


def _demand(q: Question) -> Sequence[Row]:
    """Table C1: lights and socket-outlets by points, cooking and climate with their share, all else in full."""
    loads, fact = q.job.content.loads, q.job.fact
    rows = [
        Row("Lights", demand.lights(q.rules, fact("loads.lighting_points", "n", "1"))),
        Row("Socket-outlets up to 10 A", demand.sockets(q.rules, fact("loads.socket_outlets", "n", "1"))),
    ]
    shares = {"cooking": demand.cooking, "dryer": demand.cooking}
    for each in loads.appliances:
        full = _amps(q, f"loads.appliances.{each.id}.rating")
        share = shares.get(each.kind)
        rows.append(Row(each.name or each.id, full if share is None else share(q.rules, full)))
    return [*rows, *_climate(q)]


def _climate(q: Question) -> list[Row]:
    """Heating and cooling; a unit that does both is written once."""
    rows = []
    for word, name in (("heating", "Heating"), ("cooling", "Cooling")):
        kind = q.job.fact(f"loads.{word}.kind", "kind")
        if kind.number == "none":
            continue
        full = missing("I_full", "A", kind.how, kind) if kind.missing else _amps(q, f"loads.{word}.rating")
        rows.append(Row(name, demand.climate(q.rules, full)))
    return rows


def _amps(q: Question, path: str) -> Value:
    return work("I_full", "P / U_0", "A", None, P=q.job.fact(path, "P", "VA"), U_0=to_earth(q))


AUSTRALASIAN = Dialect(
    name="Australia and New Zealand",
    rules="asnzs3000",
    areas=lambda q, cable: base.areas(q.book("iec60364"), INSULATION),
    tabulated=_tabulated,
    ambient=_ambient,
    grouping=_grouping,
    insulation=_insulation,
    drop=_drop,
    drop_temperature=lambda q, cable, I_b, I_t, C_ag: chosen(
        "C_t", 1.0, "1", "taken as warm as the conductors may be", None, I_b
    ),
    drop_limit=_drop_limit,
    rise_limit=_rise_limit,
    resistance=lambda q, area: cables.resistance(q.book("asnzs3008"), area),
    warm=lambda q, cable: cables.warm_factor(q.book("asnzs3008"), cable),
    protective=_protective,
    trip_multiple=lambda q, curve: protection.trip_multiple(q.rules, curve),
    voltage_factor=lambda q: q.rules.number("voltage_factor"),
    longest=lambda q, earthing, final: protection.disconnection_time(q.rules, earthing, final=final),
    k=lambda q, cable: _not_held(q, "", q.rules.number("voltage_factor"), q.rules.number("voltage_factor")),
    let_through=_not_held,
    residual_time=lambda q, multiple, delayed: protection.residual_time(q.rules, multiple, delayed=delayed),
    suits=_suits,
    direction=rules.direction,
    demand=_demand,
    notification=lambda q: None,
    more=rules.checks,
    by_table=True,
)
"""The rules of Australia and New Zealand."""
