"""What else holds in every order: tests before power, joints before covers, nothing left in, sensors never open.

Decided as hands and power are: on the precedence of the acts, closed, without walking the orders.

* Conductors that are tested dead are not fed by the work before that. Here a gate parts while it is open, locked or
  not: who closes a switch feeds what is behind it.
* Putting into service goes by groups: dead tests, the check, the supply, live tests, the DC side, settings,
  functional tests, hand-over. An act of a later group waits for every one of an earlier group.
* A joint that a cover hides is tight before that cover is fitted for the last time.
* What was put in for the time of the work, or came with the unit for its journey, is out at the end; connectors are
  joined at the end.
* The secondary of a measuring transformer with a current output is joined whenever the transformer sits round a
  conductor that can be fed, or its shorting link is in. Whether a current really flows nobody knows, so being fed
  counts.
"""

from collections.abc import Iterator
from itertools import product

from standfast.fieldwork.order.acts import GROUPS, Acts, Gate, Sensor, Site
from standfast.fieldwork.order.decide import Unsafe, Why, told, unsafe, when_on
from standfast.fieldwork.order.power import NEVER, Fed, Power, least


def proven(site: Site, acts: Acts) -> list[Unsafe]:
    """Everything that some allowed order makes unsafe: hands on power, and what is out of sequence."""
    return [*unsafe(site, acts), *out_of_sequence(site, acts)]


def out_of_sequence(site: Site, acts: Acts) -> list[Unsafe]:
    """What some allowed order does out of sequence; none where all orders keep it."""
    return [
        *_untested(site, acts), *_too_early(acts), *_not_tight(acts), *_left_in(site, acts), *_apart(site, acts),
        *_open_sensors(site, acts),
    ]  # fmt: skip


def _untested(site: Site, acts: Acts) -> Iterator[Unsafe]:
    """Tests of dead conductors that the work may feed before."""
    if not any(act.clears for act in acts.all):
        return
    power = Power(site._replace(gates=tuple(_by_position(gate) for gate in site.gates)), acts)
    for place, act in enumerate(acts.all):
        known: dict[str, Fed | None] = {}
        for terminal in dict.fromkeys(act.clears):
            zone = site.zone(terminal)
            if zone not in known:
                known[zone] = _fed_by_work(power, zone, 1 << place)
                fed = known[zone]
                if fed is not None:
                    yield told(acts, place, terminal, "fed before its test", fed.done, fed)


def _by_position(gate: Gate) -> Gate:
    return gate._replace(locks=False, locked=False)


def _fed_by_work(power: Power, zone: str, not_yet: int) -> Fed | None:
    """The smallest state in which a zone is fed through a gate that the work closed."""
    best: Fed | None = None
    for source, gates in power.ways(zone):
        all_windows = [power.windows_of(gate.id) for gate in gates]
        for place, windows in enumerate(all_windows):
            closed = [each for each in windows if each.begins != NEVER]
            needed = [*all_windows[:place], closed, *all_windows[place + 1 :]]
            state = least(power.acts, needed, 0, not_yet) if closed else None
            if state is not None and (best is None or state.bit_count() < best.done.bit_count()):
                best = Fed(state, source, tuple(gate.id for gate in gates))
    return best


def _too_early(acts: Acts) -> Iterator[Unsafe]:
    """Acts of a later group that may be done before one of an earlier group."""
    grouped = [(place, act) for place, act in enumerate(acts.all) if act.groups]
    for (late, later), (early, earlier) in product(grouped, grouped):
        turn = min(map(GROUPS.index, later.groups)) > max(map(GROUPS.index, earlier.groups))
        if turn and not acts.precedes(early, late):
            yield told(acts, late, earlier.id, "before its turn", acts.before[late])


def _not_tight(acts: Acts) -> Iterator[Unsafe]:
    """Covers that may be fitted for the last time before a joint behind them is tight."""
    for place, act in enumerate(acts.all):
        for joint, cover in act.tightens:
            last = [each for each in acts.of_cover.get(cover, ()) if acts.all[each].covers][-1:]
            for fitted in last:
                if fitted != place and not acts.precedes(place, fitted):
                    yield told(acts, fitted, joint, "joint not tight", acts.before[fitted])


def _left_in(site: Site, acts: Acts) -> Iterator[Unsafe]:
    """Temporary parts that are still there when everything is done."""
    for part in sorted(site.temporary):
        there = when_on(site, acts, part)
        if there and there[-1].ends == NEVER:
            yield _at_the_end(acts, acts.of_cover.get(part, []), part, "left in at the end")


def _apart(site: Site, acts: Acts) -> Iterator[Unsafe]:
    """Connectors that are apart when everything is done."""
    power = Power(site._replace(gates=tuple(_by_position(gate) for gate in site.gates)), acts)
    for gate in sorted(site.joined):
        there = power.windows_of(gate)
        if not (there and there[-1].ends == NEVER):
            yield _at_the_end(acts, acts.of_gate.get(gate, []), gate, "apart at the end")


def _at_the_end(acts: Acts, chain: list[int], what: str, why: Why) -> Unsafe:
    """What is wrong when everything is done; told with the last act that changed it, else with the last of all."""
    last = chain[-1] if chain else max(range(len(acts)), key=lambda one: (acts.before[one].bit_count(), one))
    order = (*acts.in_order(acts.before[last]), acts.all[last].id)
    return Unsafe("", what, why, order)


def _open_sensors(site: Site, acts: Acts) -> Iterator[Unsafe]:
    power = Power(site, acts)
    for sensor in site.sensors:
        fed = _open_under_load(power, sensor)
        if fed is not None:
            order = tuple(acts.in_order(fed.done)) or (acts.all[0].id,)
            yield Unsafe(order[-1], sensor.secondary, "sensor open", order, fed.source, fed.gates)


def _open_under_load(power: Power, sensor: Sensor) -> Fed | None:
    """The smallest state in which a secondary is open while its conductor can be fed."""
    site, acts = power.site, power.acts
    best: Fed | None = None
    own = [when_on(site, acts, sensor.secondary, on=False), when_on(site, acts, sensor.around)]
    own += [when_on(site, acts, sensor.shorting, on=False)] if sensor.shorting else []
    for source, gates in power.ways(sensor.zone):
        state = least(acts, [*own, *(power.windows_of(gate.id) for gate in gates)], 0, 0)
        if state is not None and (best is None or state.bit_count() < best.done.bit_count()):
            best = Fed(state, source, tuple(gate.id for gate in gates))
    return best
