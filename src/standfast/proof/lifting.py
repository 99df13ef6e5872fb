"""Cases of the lifting equation."""

from typing import Any

from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.niosh import equation, frequency
from standfast.rulebooks.niosh.equation import Multipliers
from standfast.sheet import Value, chosen
from standfast.shelf import Edition, edition

_MASS = {"in": "lb", "cm": "kg"}
_BANDS = {"below_30_in": "below", "30_in_or_more": "at or above"}


@method("niosh.rwl")
def recommended_weight_limit(case: Inputs) -> dict[str, Any]:
    """Multipliers, weight limit and index at one point, in inches and pounds or in centimetres and kilograms."""
    book = edition("niosh", "1994")
    length = "in" if "h_in" in case else "cm"
    mass = _MASS[length]
    found = _multipliers(book, case, length)
    worksheet = _precision(case)
    if worksheet:
        found = Multipliers(*(equation.rounded(book, each, 2) for each in found))
    limits = {
        "rwl": equation.weight_limit(book, mass, found),
        "firwl": equation.weight_limit_without_frequency(book, mass, found),
    }
    if worksheet:
        limits = {key: equation.rounded(book, value, 1) for key, value in limits.items()}
    answer: dict[str, Any] = {name.lower(): value.quantity for name, value in found._asdict().items()}
    answer |= {f"{key}_{mass}": value.quantity for key, value in limits.items()}
    if f"load_{mass}" in case:
        load = case.value(f"load_{mass}", "L", mass)
        if limits["rwl"].quantity > 0:
            index = equation.index(book, load, limits["rwl"])
            answer["li"] = (equation.rounded(book, index, 1) if worksheet else index).quantity
    return answer


@method("niosh.special_frequency")
def special_frequency(case: Inputs) -> dict[str, Any]:
    """Lifts a minute where lifting fills only part of a window."""
    book = edition("niosh", "1994")
    found = frequency.special(
        book,
        case.value("lifts_per_min", "n", "1/min"),
        case.value("work_min", "t_work", "min"),
        case.value("window_min", "t_window", "min"),
    )
    return {"f_per_min": found.quantity}


@method("niosh.duration")
def duration(case: Inputs) -> dict[str, Any]:
    """Duration class of a day's stretches of lifting."""
    book = edition("niosh", "1994")
    periods = [frequency.Period(each.word("work"), each.value("minutes", "t", "min")) for each in case.items("periods")]
    found = frequency.pooled(book, periods)
    return {
        "duration": found.word.word,
        "pooled_work_min": found.work_min.quantity,
        "recovery_needed_min": found.recovery_min.quantity,
    }


@method("niosh.multi_task")
def multi_task(case: Inputs) -> dict[str, Any]:
    """Single-task indices and composite index."""
    book = edition("niosh", "1994")
    tasks = [
        frequency.Task(
            each.value("load_lb", "L", "lb"),
            each.value("f_per_min", "F", "1/min"),
            each.value("firwl_lb", "FIRWL", "lb"),
        )
        for each in case.items("tasks")
    ]
    word = case.word("v_band")
    if word not in _BANDS:
        raise BadCase(f"v_band is one of {', '.join(_BANDS)}, not {word!r}")
    band = chosen("band", _BANDS[word], "", "stated by the case", None)
    found = frequency.composite(book, tasks, case.word("duration"), band)
    return {"stli": [each.quantity for each in found.STLI], "cli": found.CLI.quantity}


def _precision(case: Inputs) -> bool:
    word = case.word("precision")
    if word not in ("full", "worksheet"):
        raise BadCase(f"precision is full or worksheet, not {word!r}")
    return word == "worksheet"


def _multipliers(book: Edition, case: Inputs, length: str) -> Multipliers:
    V: Value = case.value(f"v_{length}", "V", length)
    origin = case.value(f"v_origin_{length}", "V", length) if f"v_origin_{length}" in case else V
    F = case.value("f_per_min", "F", "1/min")
    band = equation.height_band(book, origin)
    return Multipliers(
        HM=equation.horizontal(book, case.value(f"h_{length}", "H", length)),
        VM=equation.vertical(book, V),
        DM=equation.travel(book, case.value(f"d_{length}", "D", length)),
        AM=equation.asymmetry(book, case.value("a_deg", "A", "deg")),
        FM=frequency.multiplier(book, F, case.word("duration"), band),
        CM=equation.coupling(book, V, case.word("coupling")),
    )
