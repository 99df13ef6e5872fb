"""Adapters of outages: how long a battery lasts, and how large it must be."""

from typing import Any

from standfast.design.energy.capacity import first_extreme, nearest_rank, required_kwh
from standfast.design.energy.outage import Island, Run, autonomy
from standfast.proof.energy_series import at_least_zero, positive, powers, share, whole
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method


@method("energy.outage.autonomy")
def outage_autonomy(case: Inputs) -> dict[str, Any]:
    """How long each start lasts."""
    load, pv, dt_h = powers(case)
    starts, single = _starts(case, len(load))
    runs = autonomy(
        load,
        pv,
        dt_h,
        _island(case),
        usable_kwh=at_least_zero(case, "usable_kwh"),
        inverter_kw=at_least_zero(case, "inverter_kw"),
        starts=starts,
        start_kwh=_charges(case, len(starts)),
        horizon_steps=_horizon(case),
        wraps=case.yes("wraps"),
    )
    steps = [run.whole_steps for run in runs]
    return {
        **_each(runs, single),
        "most_steps": max(steps),
        "fewest_steps": min(steps),
        "sum_steps": sum(steps),
        "overload_starts": sum(run.ends_by == "overload" for run in runs),
        "energy_starts": sum(run.ends_by == "energy" for run in runs),
    }


@method("energy.outage.required_kwh")
def outage_required_kwh(case: Inputs) -> dict[str, Any]:
    """Smallest capacity for a length of outage."""
    load, pv, dt_h = powers(case)
    if not case.yes("wraps", True):
        raise BadCase("the series of required_kwh wraps")
    needed = required_kwh(load, pv, dt_h, _island(case), positive(case, "hours_h"))
    largest, smallest = first_extreme(needed, largest=True), first_extreme(needed, largest=False)
    return {
        "per_start_kwh": needed,
        "largest_kwh": max(needed),
        "largest_at_start": largest,
        "smallest_kwh": min(needed),
        "smallest_at_start": smallest,
        "for_95_pct_kwh": nearest_rank(needed, 95),
        "for_50_pct_kwh": nearest_rank(needed, 50),
    }


def _island(case: Inputs) -> Island:
    side = case.word("standby_side", "stored")
    if side not in ("stored", "ac"):
        raise BadCase(f"the standby side {side!r} is not stored or ac")
    efficiencies = share(case, "eta_ch"), share(case, "eta_dis")
    standby = at_least_zero(case, "standby_kw")
    return Island(at_least_zero(case, "charge_limit_kw"), *efficiencies, standby, side == "ac")


def _starts(case: Inputs, steps: int) -> tuple[list[int], bool]:
    """The first steps of the outages, and whether the case asks for one alone."""
    asked = case.raw("start_step")
    if asked == "all":
        return list(range(steps)), False
    starts = case.numbers("start_step")
    if not starts or any(start != int(start) or not 0 <= start < steps for start in starts):
        raise BadCase(f"a start is no step of the series: {asked!r}")
    return [int(start) for start in starts], not isinstance(asked, list)


def _charges(case: Inputs, starts: int) -> list[float]:
    charges = case.numbers("start_kwh")
    if not isinstance(case.raw("start_kwh"), list):
        charges = charges * starts
    if len(charges) != starts or min(charges) < 0:
        raise BadCase("start_kwh holds one energy of at least 0 for all starts, or one for each")
    return charges


def _horizon(case: Inputs) -> int:
    steps = whole(case, "horizon_steps")
    if steps < 1:
        raise BadCase("the horizon lies at least one step off")
    return steps


def _each(runs: list[Run], single: bool) -> dict[str, Any]:
    if single:
        return dict(zip(Run._fields, runs[0], strict=True))
    return {name: [getattr(run, name) for run in runs] for name in Run._fields}
