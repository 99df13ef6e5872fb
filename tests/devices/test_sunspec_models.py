"""The definitions hold together, and unknown models, points and words are refused."""

import pytest

from standfast.devices import sunspec_models as models
from standfast.devices import sunspec_points
from standfast.devices.sunspec_models import Layout, UnknownModel

HOME = (1, 101, 103, 111, 120, 121, 124, 160, 203, 701, 702, 703, 704, 705, 707, 711, 713, 714, 802, 803, 804, 805)


@pytest.mark.parametrize("model", HOME)
def test_registers_of_a_part_are_those_of_its_points(model: int) -> None:
    for group in models.groups(model):
        inside = [point for point in models.points(model) if point.group == group.path]
        assert sum(point.registers for point in inside) == group.registers, group.path


@pytest.mark.parametrize("model", HOME)
def test_every_point_has_the_size_of_its_type(model: int) -> None:
    for point in models.points(model):
        known = sunspec_points.WHOLE.get(point.kind)
        if known is not None:
            assert point.registers == known.registers, point
        else:
            assert point.kind in ("string", "pad", "float32", "float64"), point


@pytest.mark.parametrize("model", HOME)
def test_each_repetition_adds_the_same(model: int) -> None:
    words = models.counted(model)
    for word in words:
        counts = dict.fromkeys(words, 2)
        lengths = [models.length(models.layout(model, counts | {word: times})) for times in (0, 1, 2, 7)]
        assert lengths[1] - lengths[0] == lengths[2] - lengths[1] == (lengths[3] - lengths[2]) / 5 > 0


def test_a_scale_is_a_point_of_the_model_or_a_power() -> None:
    for model in HOME:
        names = {point.name for point in models.points(model)}
        for point in models.points(model):
            assert not point.scale or point.scale in names or point.scale.lstrip("-").isdigit(), point


def test_counts_must_fit_the_model() -> None:
    with pytest.raises(UnknownModel, match=r"lacking \['ports'\]"):
        models.layout(714, {})
    with pytest.raises(UnknownModel, match="not known"):
        models.layout(713, {"ports": 1})
    with pytest.raises(UnknownModel, match="no model 64001"):
        models.layout(64001, {})


def test_a_layout_without_header_is_none() -> None:
    with pytest.raises(ValueError, match="at least 2"):
        models.length(Layout(1))


def test_words_and_what_has_none() -> None:
    assert models.word(714, "PrtTyp", 1) == models.word(714, "Prt.PrtTyp", 1)
    for point, value in (("Sta", 77), ("SoC", 1), ("Nothing", 1)):
        with pytest.raises(UnknownModel):
            models.word(713, point, value)


def test_a_direction_only_where_the_definition_gives_the_sign() -> None:
    assert models.power_direction(701, 0.5) != models.power_direction(701, -0.5)
    assert models.power_direction(701, 0) is None
    with pytest.raises(UnknownModel, match="known load"):
        models.power_direction(203, 100)
