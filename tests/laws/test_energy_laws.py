"""Laws of the energy side: fast methods against step-by-step loops, optima against lattices and against each other."""

import math
from datetime import date
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import composite

from standfast.design.energy.battery import Battery, Step, steps
from standfast.design.energy.capacity import required_kwh
from standfast.design.energy.clock import day_seconds, instants, local_minute, zone_of
from standfast.design.energy.crossed import cheapest_crossed
from standfast.design.energy.cyclic import cheapest_cycle
from standfast.design.energy.demand import cheapest_with_demand, cost_with_demand
from standfast.design.energy.lowest import lowest
from standfast.design.energy.optimum import Ends, optimum
from standfast.design.energy.outage import Island, Run, autonomy
from standfast.design.energy.premises import Demand, Permission, Premises, without_battery
from standfast.design.energy.self_consumption import self_consumption
from standfast.design.energy.slopes import Range, cheapest
from standfast.faults import Unanswered
from standfast.rulebooks.astm_e1049.rainflow import rainflow, reversals

NO_DEMAND = Demand()
POWER = st.floats(0, 4).map(lambda number: round(number, 2))
SHARE = st.sampled_from([1.0, 0.95, 0.8])


# Outages


@composite
def outages(draw: st.DrawFn) -> tuple[list[float], list[float], float, Island, float, float]:
    count = draw(st.integers(1, 9))
    load, pv = (draw(st.lists(POWER, min_size=count, max_size=count)) for _ in range(2))
    standby, on_ac = draw(st.sampled_from([0.0, 0.03])), draw(st.booleans())
    island = Island(draw(st.sampled_from([0.5, 3.0])), draw(SHARE), draw(SHARE), standby, on_ac)
    return load, pv, draw(st.sampled_from([0.25, 1.0])), island, draw(st.sampled_from([0.7, 3.1, 11.3])), draw(POWER)


def walked(
    load: list[float], pv: list[float], dt_h: float, island: Island, usable: float, inverter: float,
    start: int, charge: float, horizon: int, wraps: bool,
) -> Run:  # fmt: skip
    """The outage model, step by step."""
    energy, served = min(charge, usable), 0
    while served < horizon and (wraps or start + served < len(load)):
        step = (start + served) % len(load)
        net = load[step] + (island.standby_kw if island.standby_on_ac else 0.0) - pv[step]
        if net > inverter:
            return Run(served, "overload", served * dt_h)
        drain = 0.0 if island.standby_on_ac else island.standby_kw * dt_h
        change = -net * dt_h / island.eta_dis if net > 0 else min(-net, island.charge_limit_kw) * dt_h * island.eta_ch
        change -= drain
        if energy + change < -1e-9:
            return Run(served, "energy", (served + max(energy, 0.0) / -change) * dt_h)
        energy = min(usable, energy + change)
        served += 1
    return Run(served, "horizon", served * dt_h)


@given(outages(), st.integers(1, 60), st.booleans(), st.data())
@settings(max_examples=300)
def test_all_starts_at_once_are_the_starts_one_by_one(
    case: tuple[list[float], list[float], float, Island, float, float], horizon: int, wraps: bool, data: st.DataObject
) -> None:
    load, pv, dt_h, island, usable, inverter = case
    starts = data.draw(st.lists(st.integers(0, len(load) - 1), min_size=1, max_size=6))
    charges = [data.draw(st.sampled_from([usable, usable / 2, 0.3, 0.0])) for _ in starts]
    found = autonomy(
        load, pv, dt_h, island, usable_kwh=usable, inverter_kw=inverter,
        starts=starts, start_kwh=charges, horizon_steps=horizon, wraps=wraps,
    )  # fmt: skip
    for run, start, charge in zip(found, starts, charges, strict=True):
        right = walked(load, pv, dt_h, island, usable, inverter, start, charge, horizon, wraps)
        assert run[:2] == right[:2]
        assert math.isclose(run.autonomy_h, right.autonomy_h, abs_tol=1e-6)


@given(outages(), st.integers(1, 30))
def test_the_required_capacity_is_just_enough(
    case: tuple[list[float], list[float], float, Island, float, float], count: int
) -> None:
    load, pv, dt_h, island, *_ = case
    for start, needed in enumerate(required_kwh(load, pv, dt_h, island, count * dt_h)):
        assert walked(load, pv, dt_h, island, needed, 99, start, needed, count, True).whole_steps == count
        less = needed - 1e-6
        assert less < 0 or walked(load, pv, dt_h, island, less, 99, start, less, count, True).whole_steps < count


@given(outages())
def test_a_bigger_battery_never_lasts_less(case: tuple[list[float], list[float], float, Island, float, float]) -> None:
    load, pv, dt_h, island, usable, inverter = case
    starts = range(len(load))
    before = [0.0] * len(load)
    for capacity in (usable, 1.5 * usable, 4 * usable):
        runs = autonomy(
            load, pv, dt_h, island, usable_kwh=capacity, inverter_kw=inverter,
            starts=starts, start_kwh=[capacity] * len(load), horizon_steps=50, wraps=True,
        )  # fmt: skip
        lasts = [run.autonomy_h for run in runs]
        assert all(after >= earlier - 1e-9 for after, earlier in zip(lasts, before, strict=True))
        before = lasts


# Bills


@composite
def houses(draw: st.DrawFn, crossed: bool = False) -> tuple[Premises, Battery, Permission, Ends]:
    count = draw(st.integers(1, 8))

    def column(values: st.SearchStrategy[float]) -> list[float]:
        return draw(st.lists(values, min_size=count, max_size=count))

    buy = column(st.sampled_from([0.1, 0.2, 0.31, 0.45] + ([-0.1, -0.2] if crossed else [])))
    part = st.sampled_from([0.0, 0.3, 1.0] + ([1.6, -0.5] if crossed else []))
    sell = [price * share for price, share in zip(buy, column(part), strict=True)]
    premises = Premises(column(POWER), column(POWER), buy, sell, draw(st.sampled_from([0.5, 1.0])))
    usable, reserve = draw(st.sampled_from([1.0, 2.7, 6.0])), draw(st.sampled_from([0.0, 0.5]))
    battery = Battery(
        usable, reserve, draw(st.sampled_from([0.7, 2.0])), draw(st.sampled_from([0.9, 2.0])), draw(SHARE), draw(SHARE),
        0.0, draw(st.sampled_from([0.0, 0.04])), draw(st.sampled_from([0.0, 0.02])),
    )  # fmt: skip
    cap = draw(st.sampled_from([None, None, 0.0, 0.8]))
    permission = Permission(draw(st.booleans()), draw(st.booleans()), cap, True)
    start = draw(st.floats(reserve, usable))
    return premises, battery, permission, Ends(start, draw(st.floats(reserve, start)))


@given(houses())
def test_the_schedule_keeps_its_limits_and_costs_what_it_says(
    house: tuple[Premises, Battery, Permission, Ends],
) -> None:
    premises, battery, permission, ends = house
    every = steps(premises, battery, permission)
    end = Range(max(ends.end_kwh, battery.reserve_kwh), battery.usable_kwh)
    cost, changes = cheapest(every, battery, premises.dt_h, ends.start_kwh, end)
    energy = ends.start_kwh
    for step, change in zip(every, changes, strict=True):
        assert step.least - 1e-9 <= change <= step.most + 1e-9
        energy += change
        assert battery.reserve_kwh - 1e-9 <= energy <= battery.usable_kwh + 1e-9
    assert energy >= ends.end_kwh - 1e-9
    assert math.isclose(
        cost, sum(step.at(change)[0] for step, change in zip(every, changes, strict=True)), abs_tol=1e-9
    )


@given(houses())
def test_no_battery_and_the_plain_rule_never_cost_less(house: tuple[Premises, Battery, Permission, Ends]) -> None:
    premises, battery, permission, ends = house
    battery = battery._replace(wear_per_stored_kwh=0.0, wear_per_ac_kwh=0.0)
    idle = without_battery(premises, permission, NO_DEMAND).bill
    assert optimum(premises, battery, permission, NO_DEMAND, ends).cost <= idle + 1e-9
    ruled = self_consumption(premises, battery, permission, NO_DEMAND, ends.start_kwh)
    same = Ends(ends.start_kwh, min(ruled.end_kwh, battery.usable_kwh))
    assert optimum(premises, battery, permission, NO_DEMAND, same).cost <= ruled.bill.bill + 1e-9


@given(houses(), st.sampled_from([0.0, 2.5]))
def test_a_bigger_battery_and_a_wider_permission_never_cost_more(
    house: tuple[Premises, Battery, Permission, Ends], demand_price: float
) -> None:
    premises, battery, permission, ends = house
    demand = Demand(demand_price, 2)
    cost = optimum(premises, battery, permission, demand, ends).cost
    bigger = battery._replace(usable_kwh=battery.usable_kwh * 1.7, charge_limit_kw=battery.charge_limit_kw * 1.3)
    slack = 1e-9 if not demand_price else 1e-7 * max(1.0, math.fabs(cost))
    assert optimum(premises, bigger, permission, demand, ends).cost <= cost + slack
    assert optimum(premises, battery, Permission(), demand, ends).cost <= cost + slack


@given(st.data())
@settings(max_examples=300)
def test_the_optimum_is_that_of_a_lattice_where_everything_is_whole(data: st.DataObject) -> None:
    """Without losses and with whole numbers the best schedule is whole: walking all of them finds it."""
    count = data.draw(st.integers(1, 6))
    whole = st.lists(st.integers(0, 4), min_size=count, max_size=count)
    tenths = st.lists(st.integers(-3, 6).map(lambda n: n / 10), min_size=count, max_size=count)
    load, pv, buy, sell = (data.draw(each) for each in (whole, whole, tenths, tenths))
    most_in, most_out = data.draw(st.integers(0, 2)), data.draw(st.integers(0, 2))
    battery = Battery(
        4, data.draw(st.integers(0, 1)), most_in, most_out, 1, 1, 0, data.draw(st.sampled_from([0, 0.05]))
    )
    cap = data.draw(st.sampled_from([None, 0, 2]))
    permission = Permission(data.draw(st.booleans()), data.draw(st.booleans()), cap, data.draw(st.booleans()))
    start, end = data.draw(st.integers(0, 4)), data.draw(st.integers(0, 4))
    best = {start: 0.0}
    for need, sun, price, back in zip(load, pv, buy, sell, strict=True):
        after: dict[int, float] = {}
        net = need - sun
        high = most_in if permission.grid_charge else min(most_in, max(-net, 0))
        low = -(most_out if permission.battery_export else min(most_out, max(net, 0)))
        for energy, cost in best.items():
            for change in range(low, high + 1):
                for unused in range((sun if permission.curtailment else 0) + 1):
                    drawn, left = net + change + unused, energy + change
                    if not battery.reserve_kwh <= left <= 4 or (cap is not None and drawn < -cap):
                        continue
                    paid = cost + drawn * (price if drawn > 0 else back) - min(change, 0) * battery.wear_per_stored_kwh
                    after[left] = min(paid, after.get(left, math.inf))
        best = after
    walked_cost = min((cost for energy, cost in best.items() if energy >= end), default=None)
    premises = Premises(load, pv, buy, sell, 1.0)
    try:
        found = optimum(premises, battery, permission, NO_DEMAND, Ends(start, end)).cost
    except Unanswered as refusal:
        assert refusal.word == "no_schedule"
        assert walked_cost is None
        return
    assert walked_cost is not None
    assert math.isclose(found, walked_cost, abs_tol=1e-9)


@given(houses())
def test_both_ways_to_the_optimum_meet(house: tuple[Premises, Battery, Permission, Ends]) -> None:
    premises, battery, permission, ends = house
    every = steps(premises, battery, permission)
    question = every, battery, premises.dt_h, ends.start_kwh, Range(ends.end_kwh, battery.usable_kwh)
    assert math.isclose(cheapest(*question)[0], cheapest_crossed(*question)[0], abs_tol=1e-9)


@given(houses(crossed=True), st.integers(0, 2**32))
def test_no_schedule_of_crossed_prices_beats_the_optimum(
    house: tuple[Premises, Battery, Permission, Ends], seed: int
) -> None:
    premises, battery, permission, ends = house
    every = steps(premises, battery, permission)
    best = optimum(premises, battery, permission, NO_DEMAND, Ends(ends.start_kwh, 0.0)).cost
    energy, cost = ends.start_kwh, 0.0
    for place, step in enumerate(every):
        low = max(step.least, battery.reserve_kwh - energy)
        high = min(step.most, battery.usable_kwh - energy)
        change = low + (high - low) * (seed >> 4 * place & 15) / 15
        cost += step.at(change)[0]
        energy += change
    assert best <= cost + 1e-9


# Demand charges


def capped(step: Step, most_kwh: float) -> Step | None:
    """A step that may import so much at most."""
    if step.imported > most_kwh + 1e-12:
        return None
    sizes, room = [], most_kwh - step.imported
    for size, rate in zip(step.sizes, step.imports, strict=True):
        part = min(size, room / rate) if rate else size
        sizes.append(part)
        room -= part * rate
        if part < size:
            break
    kept = len(sizes)
    return step._replace(
        most=step.least + sum(sizes), sizes=tuple(sizes), slopes=step.slopes[:kept], imports=step.imports[:kept]
    )


@given(houses(), st.sampled_from([0.4, 3.0]))
@settings(max_examples=60)
def test_a_demand_charge_is_the_best_of_all_caps_on_the_import(
    house: tuple[Premises, Battery, Permission, Ends], price: float
) -> None:
    premises, battery, permission, ends = house
    every = steps(premises, battery, permission)
    demand, end = Demand(price, 1), Range(ends.end_kwh, battery.usable_kwh)
    schedule = cheapest_with_demand(every, battery, premises.dt_h, demand, ends.start_kwh, end)
    found = cost_with_demand(every, schedule, premises.dt_h, demand)

    def under(peak: float) -> float:
        narrow = [capped(step, peak * premises.dt_h) for step in every]
        kept = [step for step in narrow if step is not None]
        if len(kept) < len(every):
            return math.inf
        try:
            return cheapest(kept, battery, premises.dt_h, ends.start_kwh, end)[0] + price * peak
        except Unanswered:
            return math.inf

    high = max(schedule.start_kwh + 20.0, 20.0)
    low = 0.0
    for _ in range(60):  # the lowest peak that can be kept
        middle = (low + high) / 2
        low, high = (middle, high) if math.isinf(under(middle)) else (low, middle)
    assert math.isclose(found, lowest(under, high, high + 20.0)[1], abs_tol=1e-7)


@given(houses(), st.integers(1, 9), st.sampled_from([0.4, 3.0]))
@settings(max_examples=60)
def test_one_window_is_the_dearest_of_all_prices_on_its_imports(
    house: tuple[Premises, Battery, Permission, Ends], count: int, price: float
) -> None:
    """One window over the whole series: by duality, the least cost is the greatest over prices up to the demand's."""
    premises, battery, permission, ends = house
    every = steps(premises, battery, permission)
    demand, end = Demand(price, len(every) + count), Range(ends.end_kwh, battery.usable_kwh)
    schedule = cheapest_with_demand(every, battery, premises.dt_h, demand, ends.start_kwh, end)

    def priced(each: float) -> float:
        dearer = [
            step._replace(
                slopes=tuple(a + each * b for a, b in zip(step.slopes, step.imports, strict=True)),
                cost=step.cost + each * step.imported,
            )
            for step in every
        ]
        return -cheapest(dearer, battery, premises.dt_h, ends.start_kwh, end)[0]

    most = price / (len(every) * premises.dt_h)
    best = -lowest(priced, 0.0, most)[1]
    assert math.isclose(cost_with_demand(every, schedule, premises.dt_h, demand), best, abs_tol=1e-7)


@given(houses(), st.sampled_from([0.001, 0.4, 300.0]), st.sampled_from([0.01, 100.0]), st.integers(1, 4))
@settings(max_examples=60)
def test_a_house_of_another_size_costs_as_much_more(
    house: tuple[Premises, Battery, Permission, Ends], price: float, size: float, window: int
) -> None:
    premises, battery, permission, ends = house
    larger = premises._replace(
        load_kwh=[size * each for each in premises.load_kwh], pv_kwh=[size * each for each in premises.pv_kwh]
    )
    bank = battery._replace(
        usable_kwh=size * battery.usable_kwh,
        reserve_kwh=size * battery.reserve_kwh,
        charge_limit_kw=size * battery.charge_limit_kw,
        discharge_limit_kw=size * battery.discharge_limit_kw,
    )
    cap = permission.export_cap_kw
    wide = permission._replace(export_cap_kw=None if cap is None else size * cap)
    far = Ends(size * ends.start_kwh, size * ends.end_kwh)
    demand = Demand(price, window)
    one = optimum(premises, battery, permission, demand, ends).cost
    other = optimum(larger, bank, wide, demand, far).cost
    assert math.isclose(other, size * one, rel_tol=1e-6, abs_tol=2e-7 * max(size, 1.0))


# Series that repeat


@given(houses(), st.sampled_from([0.0, 1.5]))
@settings(max_examples=60)
def test_a_cycle_costs_no_more_than_any_way_back_to_a_start(
    house: tuple[Premises, Battery, Permission, Ends], price: float
) -> None:
    premises, battery, permission, ends = house
    demand = Demand(price, 1)
    best = optimum(premises, battery, permission, demand, None)
    same = optimum(premises, battery, permission, demand, Ends(ends.start_kwh, ends.start_kwh)).cost
    assert best.cost <= same + 1e-7
    assert math.isclose(sum(best.changes_kwh), 0.0, abs_tol=1e-7)
    if not price:
        twice = Premises(*(list(column) * 2 for column in premises[:4]), premises.dt_h)
        assert math.isclose(optimum(twice, battery, permission, demand, None).cost, 2 * best.cost, abs_tol=1e-8)
        every = steps(premises, battery, permission)
        assert math.isclose(cheapest_cycle(every, battery, premises.dt_h)[1], best.cost, abs_tol=1e-9)


@given(
    st.lists(st.tuples(st.floats(-9, 9), st.floats(-9, 9)), min_size=1, max_size=7), st.floats(-5, 5), st.floats(0, 9)
)
def test_the_lowest_point_of_some_lines_is_found(lines: list[tuple[float, float]], low: float, width: float) -> None:
    high = low + width

    def highest(at: float) -> float:
        return max(slope * at + level for slope, level in lines)

    corners = [(d - b) / (a - c) for a, b in lines for c, d in lines if math.fabs(a - c) > 1e-9]
    right = min(highest(at) for at in [low, high, *(at for at in corners if low <= at <= high)])
    at, value = lowest(highest, low, high)
    assert low <= at <= high
    assert math.isclose(value, right, abs_tol=1e-8)


# Clock, cycles


ZONES = st.sampled_from(["Europe/Berlin", "America/Denver", "America/Phoenix", "Australia/Lord_Howe", "Asia/Kolkata"])


@given(ZONES, st.dates(min_value=date(2000, 1, 1), max_value=date(2030, 1, 1)))
def test_the_labels_of_a_whole_day_are_told_apart(zone_name: str, day: date) -> None:
    zone = zone_of(zone_name)
    whole = instants(zone, day, 30, [0]).epoch_s[0]
    starts = [whole + 1800 * step for step in range(day_seconds(zone, day) // 1800)]
    labels = [local_minute(zone, start) for start in starts]
    found = instants(zone, day, 30, labels)
    assert found.epoch_s == starts
    assert found.repeated == (len(starts) > 48)


@given(st.lists(st.integers(-9, 9), max_size=40))
def test_counted_cycles_are_all_the_swings_there_are(series: list[int]) -> None:
    found = rainflow(series)
    turns = reversals(series)
    assert sum(2 * each.swing * each.cycles for each in found) == sum(math.fabs(b - a) for a, b in pairwise(turns))
    assert [each.swing for each in found] == sorted({each.swing for each in found})
    assert not turns or max((each.swing for each in found), default=0) == max(turns) - min(turns)
