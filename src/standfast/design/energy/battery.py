"""What one step costs, as a function of the change of stored energy in it.

Charging takes ac energy = change / charging efficiency, discharging gives change × discharging efficiency; the meter
nets that with load and sun; sun may be left unused where that is allowed. The cost is piecewise linear in the change,
with corners where the battery turns, where the meter turns and where a limit begins to bind.
"""

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from standfast.design.energy.premises import TIE_KWH, Permission, Premises
from standfast.faults import Unanswered

_SAME_KWH = 1e-12


class Battery(NamedTuple):
    """A battery system.

    Attributes:
        usable_kwh: stored energy when full.
        reserve_kwh: stored energy is never below it at the end of a step.
        charge_limit_kw: greatest charging power, ac.
        discharge_limit_kw: greatest discharging power, ac.
        eta_ch: stored energy per ac energy.
        eta_dis: ac energy per stored energy.
        standby_kw: draw from the cells in all steps.
        wear_per_stored_kwh: cost per kWh taken out of the cells.
        wear_per_ac_kwh: cost per ac kWh, in and out.
    """

    usable_kwh: float
    reserve_kwh: float
    charge_limit_kw: float
    discharge_limit_kw: float
    eta_ch: float
    eta_dis: float
    standby_kw: float = 0.0
    wear_per_stored_kwh: float = 0.0
    wear_per_ac_kwh: float = 0.0


class Step(NamedTuple):
    """Cost of a step by the change of stored energy, standby draw not counted.

    Attributes:
        least: least change in kWh (negative: discharged).
        most: greatest change.
        sizes: lengths of the linear pieces from `least` on, in kWh.
        slopes: cost per stored kWh of each piece.
        imports: imported kWh per stored kWh of each piece.
        cost: cost at `least`, wear counted.
        imported: kWh imported at `least`.
    """

    least: float
    most: float
    sizes: tuple[float, ...]
    slopes: tuple[float, ...]
    imports: tuple[float, ...]
    cost: float
    imported: float

    @property
    def convex(self) -> bool:
        """True where no kWh costs less than the one before it."""
        return all(one <= other for one, other in pairwise(self.slopes))

    def at(self, change_kwh: float) -> tuple[float, float]:
        """Cost and import of a change."""
        cost, imported, left = self.cost, self.imported, change_kwh - self.least
        for size, slope, rate in zip(self.sizes, self.slopes, self.imports, strict=True):
            part = min(size, left)
            if part <= 0:
                break
            cost += part * slope
            imported += part * rate
            left -= part
        return cost, imported


class _Meter(NamedTuple):
    """Cheapest dealing with a net draw: sun is left unused where that is cheaper or the export cap asks for it."""

    buy: float
    sell: float
    unused_kwh: float
    cap_kwh: float

    def choose(self, net_kwh: float) -> tuple[float, float]:
        """Draw that the meter sees, and its change per kWh of net draw."""
        low, high = max(net_kwh, -self.cap_kwh), net_kwh + self.unused_kwh
        found, price, moves = low, self.price(low), 1.0 if low == net_kwh else 0.0
        if self.unused_kwh > 0 and (self.buy < 0 or self.sell < 0):
            if low < 0 < high and price > 0:
                found, price, moves = 0.0, 0.0, 0.0
            if self.price(high) < price:
                found, moves = high, 1.0
        return found, moves

    def price(self, drawn_kwh: float) -> float:
        """What a draw costs; an export earns."""
        return drawn_kwh * (self.buy if drawn_kwh > 0 else self.sell)

    def corners(self) -> Iterator[float]:
        """Net draws where the cost may bend."""
        yield 0.0
        if math.isfinite(self.cap_kwh):
            yield -self.cap_kwh
        if self.unused_kwh > 0 and (self.buy < 0 or self.sell < 0):
            yield -self.unused_kwh
            if self.buy < 0 < self.sell:  # selling all and buying all cost the same
                yield self.buy * self.unused_kwh / (self.sell - self.buy)
                if math.isfinite(self.cap_kwh):
                    yield -self.sell * self.cap_kwh / self.buy - self.unused_kwh


def steps(premises: Premises, battery: Battery, permission: Permission) -> list[Step]:
    """Every step of the series.

    Raises:
        Unanswered: ``no_schedule`` where the export cap cannot be kept in a step.
    """
    cap = math.inf if permission.export_cap_kw is None else permission.export_cap_kw * premises.dt_h
    most_in, most_out = battery.charge_limit_kw * premises.dt_h, battery.discharge_limit_kw * premises.dt_h
    found = []
    for load, pv, buy, sell in zip(*premises[:4], strict=True):
        net = load - pv
        high = most_in if permission.grid_charge else min(most_in, max(-net, 0.0))
        low = -(most_out if permission.battery_export else min(most_out, max(net, 0.0)))
        unused = pv if permission.curtailment else 0.0
        low = max(low, -cap - net - unused)
        if low > high:
            if low > high + TIE_KWH:
                raise Unanswered("no_schedule", "the export cap cannot be kept: neither room in the battery nor leave")
            low = high
        found.append(_step(net, low, high, _Meter(buy, sell, unused, cap), battery))
    return found


def _step(net: float, low: float, high: float, meter: _Meter, battery: Battery) -> Step:
    """One step, for ac energies of the battery from `low` to `high` (negative: out)."""
    corners = [low]
    for corner in sorted([0.0, *(each - net for each in meter.corners())]):
        if corners[-1] + _SAME_KWH < corner < high - _SAME_KWH:
            corners.append(corner)
    corners.append(high)
    stored = [each * battery.eta_ch if each > 0 else each / battery.eta_dis for each in corners]
    sizes, slopes, imports = [], [], []
    for place in range(len(corners) - 1):
        middle = (corners[place] + corners[place + 1]) / 2
        drawn, moves = meter.choose(net + middle)
        price = moves * (meter.buy if drawn > 0 else meter.sell)
        if middle > 0:
            per_stored, slope = 1 / battery.eta_ch, (price + battery.wear_per_ac_kwh) / battery.eta_ch
        else:
            per_stored = battery.eta_dis
            slope = (price - battery.wear_per_ac_kwh) * battery.eta_dis - battery.wear_per_stored_kwh
        sizes.append(stored[place + 1] - stored[place])
        slopes.append(slope)
        imports.append(per_stored * moves if drawn > 0 else 0.0)
    drawn, _ = meter.choose(net + low)
    wear = battery.wear_per_ac_kwh * math.fabs(low)
    if low < 0:
        wear -= battery.wear_per_stored_kwh * stored[0]
    cost = meter.price(drawn) + wear
    return Step(stored[0], stored[-1], tuple(sizes), tuple(slopes), tuple(imports), cost, max(drawn, 0.0))
