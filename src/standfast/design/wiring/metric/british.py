"""British rules for the engine: BS 7671 with EREC G98 and G99."""

from collections.abc import Sequence

from standfast.design.wiring.house import Row
from standfast.design.wiring.metric import british_island, british_notice
from standfast.design.wiring.metric.dialect import Dialect
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.voltage import to_earth
from standfast.rulebooks.bs7671 import cables, earth_fault, loads, source_devices
from standfast.sheet import Check, Value


def _demand(q: Question) -> Sequence[Row]:
    """Cooking appliances with the diversity of the guide; everything else in full, which is on the safe side."""
    rows = []
    for each in q.job.content.loads.appliances:
        power = q.job.fact(f"loads.appliances.{each.id}.rating", "P", "VA")
        full = loads.full_current(power, to_earth(q))
        taken = loads.cooker_demand(q.rules, full, socket_outlet=True) if each.kind == "cooking" else full
        rows.append(Row(each.name or each.id, taken))
    return rows


def _rise_limit(q: Question) -> Value:
    return q.book("handbook").number("rise_limit")


def _direction(q: Question, id: str, title: str, backwards: Value, stated: Value) -> Check:
    return source_devices.direction(q.rules, id, title, backwards, stated)


def _residual_time(q: Question, multiple: Value, delayed: bool) -> Value:
    return earth_fault.tripping_time_s(q.rules, "s_type" if delayed else "general", multiple)


BRITISH = Dialect(
    name="the United Kingdom",
    rules="bs7671",
    areas=lambda q, cable: cables.standard_areas(q.rules, cable),
    tabulated=lambda q, cable, method, loaded, area: cables.current_of(q.rules, cable, method, loaded, area),
    ambient=lambda q, cable, ambient: cables.ambient_factor(q.rules, cable, ambient),
    grouping=lambda q, method, together: cables.grouping_factor(q.rules, together),
    insulation=lambda q, length: cables.insulation_factor(q.rules, length),
    drop=lambda q, cable, system, area: cables.drop_of(q.rules, cable, system, area),
    drop_temperature=lambda q, cable, I_b, I_t, C_ag: cables.drop_temperature_factor(q.rules, cable, I_b, I_t, C_ag),
    drop_limit=lambda q: q.rules.number("drop_other"),
    rise_limit=_rise_limit,
    resistance=lambda q, area: cables.resistance(q.rules, area),
    warm=lambda q, cable: cables.warm_factor(q.rules, cable),
    protective=lambda q, cable, area: earth_fault.protective_of_cable(q.rules, cable, area),
    trip_multiple=lambda q, curve: earth_fault.instantaneous_multiple(q.rules, curve),
    voltage_factor=lambda q: q.rules.number("voltage_factor_min"),
    longest=lambda q, earthing, final: earth_fault.disconnection_time(
        q.rules, earthing, "final" if final else "distribution"
    ),
    k=lambda q, cable: earth_fault.protective_factor(q.rules, cable),
    let_through=lambda q, curve, rating, breaking: earth_fault.let_through_energy(q.rules, curve, rating, breaking),
    residual_time=_residual_time,
    suits=lambda q, id, title, device, asked: source_devices.suits(q.rules, id, title, device, asked),
    direction=_direction,
    demand=_demand,
    notification=british_notice.notification,
    more=british_island.checks,
)
"""The rules of the United Kingdom."""
