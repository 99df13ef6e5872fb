"""Load, sun and prices of an energy case: written out as lists, or made by a generator that the case names."""

from typing import NamedTuple

from standfast.proof.inputs import BadCase, Inputs

HOME = "home_1"
QUARTER_H = 0.25
QUARTERS = 96
MODULUS = 2**31
MOST_STEPS = 2_000_000
LEAST, MOST = 1e-9, 1e9
"""Step lengths, energies and powers beyond are no house's."""
LEAST_SHARE = 1e-3
"""An efficiency below is none."""


class Series(NamedTuple):
    """Load and sun of each step in kWh, and the length of a step."""

    load_kwh: list[float]
    pv_kwh: list[float]
    dt_h: float


def energies(case: Inputs) -> Series:
    """Series of energies: `load_kwh` and `pv_kwh`, or a generator; `repeats` lays them end to end."""
    if "generator" in case:
        series = _generated(case)
    else:
        load, pv, dt_h = case.numbers("load_kwh"), case.numbers("pv_kwh"), positive(case, "dt_h")
        series = Series(load, _of_length(pv, len(load), "pv_kwh"), dt_h)
    _of_a_house(series, "energies")
    times = whole(case, "repeats", 1)
    if times < 1 or times * len(series.load_kwh) > MOST_STEPS:
        raise BadCase(f"the series cannot be laid end to end {times} times")
    return Series(series.load_kwh * times, series.pv_kwh * times, series.dt_h)


def powers(case: Inputs) -> Series:
    """Series of mean powers in kW in place of energies: `load_kw` and `pv_kw`, or a generator."""
    if "generator" in case:
        load, pv, dt_h = _generated(case)
        return Series([each / dt_h for each in load], [each / dt_h for each in pv], dt_h)
    load, pv = case.numbers("load_kw"), case.numbers("pv_kw")
    series = Series(load, _of_length(pv, len(load), "pv_kw"), positive(case, "dt_h"))
    _of_a_house(series, "powers")
    return series


def prices(case: Inputs, name: str, steps: int) -> list[float]:
    """Price of each step: `<name>_per_kwh`, a number or a list, or `<name>_by_hour` where the series is generated.

    Args:
        case: the inputs.
        name: ``buy`` or ``sell``.
        steps: steps of the whole series.
    """
    times = whole(case, "repeats", 1)
    if f"{name}_by_hour" in case:
        hours = _of_length(case.numbers(f"{name}_by_hour"), 24, f"{name}_by_hour")
        return [hours[step // times_an_hour(case) % 24] for step in range(steps // times)] * times
    key = f"{name}_per_kwh"
    given = case.numbers(key)
    if not isinstance(case.raw(key), list):
        return given * steps
    return _of_length(given, steps // times, key) * times


def times_an_hour(case: Inputs) -> int:
    """Steps in an hour; BadCase where an hour does not hold a whole number of them."""
    number = 1 / positive(case, "dt_h")
    if round(number) < 1 or number != round(number):
        raise BadCase("prices by the hour need steps that divide an hour")
    return round(number)


def positive(case: Inputs, name: str, default: float | None = None) -> float:
    """A number above zero."""
    number = case.number(name, default)
    if not LEAST <= number <= MOST:
        raise BadCase(f"the input {name!r} is not above zero, or beyond all houses: {number:g}")
    return number


def at_least_zero(case: Inputs, name: str, default: float | None = None) -> float:
    """A number of at least zero."""
    number = case.number(name, default)
    if not 0 <= number <= MOST:
        raise BadCase(f"the input {name!r} is below zero, or beyond all houses: {number:g}")
    return number


def share(case: Inputs, name: str) -> float:
    """A number above 0 and up to 1."""
    number = case.number(name)
    if not LEAST_SHARE <= number <= 1:
        raise BadCase(f"the input {name!r} is not above 0 and up to 1: {number:g}")
    return number


def whole(case: Inputs, name: str, default: int | None = None) -> int:
    """A whole number of at least zero."""
    number = case.number(name, default)
    if number != int(number) or number < 0:
        raise BadCase(f"the input {name!r} is not a whole number of at least 0")
    return int(number)


def _of_a_house(series: Series, what: str) -> None:
    """BadCase for a series that is empty, falls below zero, or lies beyond all houses."""
    both = [*series.load_kwh, *series.pv_kwh]
    if not both or not 0 <= min(both) <= max(both) <= MOST:
        raise BadCase(f"load and sun are lists of {what} of at least 0 and at most {MOST:g}")


def _of_length(numbers: list[float], length: int, name: str) -> list[float]:
    if len(numbers) != length:
        raise BadCase(f"the input {name!r} has {len(numbers)} numbers, not {length}")
    return numbers


def _generated(case: Inputs) -> Series:
    """The home of the generator, see the page of the energy methods: one draw a step for the load, one a day for the
    cloud; the sun is a parabola over a half day that grows and shrinks with the season."""
    if case.word("generator") != HOME:
        raise BadCase(f"the generator {case.raw('generator')!r} is not known: use {HOME}")
    if case.number("dt_h", QUARTER_H) != QUARTER_H:
        raise BadCase(f"the generator {HOME} has steps of {QUARTER_H} h")
    steps, seed = whole(case, "steps"), whole(case, "seed")
    if not 0 < steps <= MOST_STEPS:
        raise BadCase(f"the generator makes 1 to {MOST_STEPS} steps")
    base = _of_length(case.numbers("base_kw"), 24, "base_kw")
    factor, offset, peak = case.number("load_factor"), case.number("load_offset_kw"), case.number("pv_kw")
    load, pv = [], []
    draw, cloud, clear = seed, seed + 1, 0.0
    for step in range(steps):
        day, quarter = divmod(step, QUARTERS)
        if not quarter:
            cloud = _next(cloud)
            clear = 0.25 + 0.75 * cloud / MODULUS
        draw = _next(draw)
        load.append((factor * base[quarter // 4] * (0.6 + 0.8 * draw / MODULUS) + offset) * QUARTER_H)
        season = 1 - (day - 182 if day > 182 else 182 - day) / 182
        from_noon = ((quarter + 0.5) / 4 - 12) / (4 + 3 * season)
        pv.append(peak * (0.55 + 0.45 * season) * clear * max(0.0, 1 - from_noon**2) * QUARTER_H)
    return Series(load, pv, QUARTER_H)


def _next(number: int) -> int:
    return (1103515245 * number + 12345) % MODULUS
