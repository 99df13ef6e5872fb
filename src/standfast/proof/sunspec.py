"""Adapters of the open SunSpec models."""

from typing import Any

from standfast.devices import sunspec_map, sunspec_models, sunspec_points
from standfast.devices.sunspec_models import Layout
from standfast.proof.inputs import BadCase, Inputs, asked
from standfast.proof.methods import method

CALLED = {"controls": "curves"}
"""What repeats in a definition, and the word that a case may use for it instead."""


@method("sunspec.model_length")
def model_length(case: Inputs) -> dict[str, Any]:
    """Length of a model: by its layout, or through the definitions. Where both are given the layout decides."""
    counts = _counts(case.item("counts")) if "counts" in case else {}
    model = case.whole_number("model") if "model" in case else None
    if "layout" in case:
        return {"length": asked(sunspec_models.length, _layout(case.item("layout"), 1))}
    if model is None:
        raise BadCase("give a model and its counts, or a layout")
    words = asked(sunspec_models.counted, model)
    renamed = {word: counts.pop(other) for word, other in CALLED.items() if word in words and other in counts}
    return {"length": asked(lambda: sunspec_models.length(sunspec_models.layout(model, counts | renamed)))}


@method("sunspec.point_value")
def point_value(case: Inputs) -> dict[str, Any]:
    """Values of points; those that are not implemented have none."""
    found = [_value(point) for point in case.items("points")]
    return {
        "implemented": [value is not None for value in found],
        "value": [value for value in found if value is not None],
    }


@method("sunspec.enum")
def enum(case: Inputs) -> dict[str, Any]:
    """Symbols of values."""
    model, point = case.whole_number("model"), case.word("point")
    return {"word": [asked(sunspec_models.word, model, point, value) for value in case.whole_numbers("value")]}


@method("sunspec.power_direction")
def power_direction(case: Inputs) -> dict[str, Any]:
    """What the sign of an active power means."""
    model = case.whole_number("model")
    found = [asked(sunspec_models.power_direction, model, power) for power in case.numbers("w")]
    if None in found:
        raise BadCase("a power of zero has no direction")
    return {"direction": found}


@method("sunspec.bases")
def bases(case: Inputs) -> dict[str, Any]:
    """Where a map may begin, in the order of trying."""
    if case.word("standard") != "sunspec_modbus":
        raise BadCase(f"no bases are held for {case.word('standard')!r}")
    return {"base_address": list(sunspec_map.BASES)}


@method("sunspec.discovery")
def discovery(case: Inputs) -> dict[str, Any]:
    """Walk a register map."""
    blocks = [(block.whole_number("address"), block.whole_numbers("registers")) for block in case.items("blocks")]
    found = sunspec_map.discover(asked(sunspec_map.Registers, blocks).read)
    told = {
        "found": found.base is not None,
        "model": [each.model for each in found.models],
        "model_address": [each.address for each in found.models],
        "model_length": [each.length for each in found.models],
        "end_marker": found.end_marker,
    }
    return told if found.base is None else told | {"base_address": found.base}


def _layout(part: Inputs, times: int) -> Layout:
    inside = tuple(_layout(each, each.whole_number("count")) for each in part.items("groups", []))
    found = Layout(part.whole_number("registers"), times, inside)
    if found.registers < 0 or found.times < 0:
        raise BadCase("registers and counts of a layout are not negative")
    return found


def _counts(case: Inputs) -> dict[str, int]:
    return {word: case.whole_number(word) for word in case.unused()}


def _value(point: Inputs) -> sunspec_points.Raw | None:
    scale = point.whole_number("scale_register") if "scale_register" in point else None
    return asked(sunspec_points.value, point.word("type"), point.whole_numbers("registers"), scale)
