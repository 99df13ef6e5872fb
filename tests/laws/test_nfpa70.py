"""Laws of conductors: more asked never gives less, more heat or company never carries more."""

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import conductors, grounding, overcurrent, raceways, sizes
from standfast.sheet import Value
from standfast.sheet import given as fact
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
LAW = settings(deadline=None, derandomize=True, max_examples=60)
SIZES = [size for size in sizes.order(NEC) if size not in ("18", "16")]
materials = st.sampled_from(["cu", "al"])
columns = st.sampled_from([60.0, 75.0, 90.0])


def say(number: float | str | bool, unit: str = "") -> Value:
    return fact("x", number, unit, "law")


@LAW
@given(materials, columns, st.floats(0, 250), st.floats(0, 30))
def test_more_load_never_takes_a_smaller_conductor(material: str, column: float, load: float, more: float) -> None:
    one = say(1.0, "1")
    small = conductors.smallest(NEC, say(load, "A"), one, say(material), say(column, "°C"))
    large = conductors.smallest(NEC, say(load + more, "A"), one, say(material), say(column, "°C"))
    assert sizes.not_smaller(NEC, large.size.word, small.size.word)
    assert small.ampacity.quantity >= load


@LAW
@given(columns, st.floats(-20, 85), st.floats(0, 20), st.floats(1, 60), st.floats(0, 20))
def test_more_heat_or_company_never_carries_more(
    column: float, ambient: float, hotter: float, count: float, more: float
) -> None:
    def carried(temperature: float, number: float) -> float:
        try:
            heat = conductors.ambient_factor(NEC, say(column, "°C"), say(temperature, "°C"))
        except OutsideTable:
            return 0.0
        company = conductors.bundling_factor(NEC, say(float(round(number)), "1"))
        return conductors.corrected(NEC, say(100.0, "A"), heat, company).quantity

    assert carried(ambient + hotter, count) <= carried(ambient, count)
    assert carried(ambient, count + more) <= carried(ambient, count)


@LAW
@given(st.floats(15, 6000), st.booleans())
def test_a_device_never_leaves_its_conductor_by_more_than_one_rating(ampacity: float, round_up: bool) -> None:
    found = overcurrent.largest(NEC, say(ampacity, "A"), say(round_up), None, None).quantity
    up = overcurrent.next_standard(NEC, say(ampacity, "A")).quantity
    assert found <= up
    if not round_up or ampacity > 800:
        assert found <= ampacity


@LAW
@given(st.sampled_from(SIZES), st.sampled_from(SIZES), st.sampled_from(SIZES), st.sampled_from(SIZES))
def test_larger_conductors_never_take_a_smaller_ground(base: str, original: str, one: str, other: str) -> None:
    low, high = sorted((one, other), key=SIZES.index)
    if SIZES.index(base) > SIZES.index(low):
        return
    small = grounding.equipment_upsized(NEC, say(base), say(original), say(low)).size.word
    large = grounding.equipment_upsized(NEC, say(base), say(original), say(high)).size.word
    assert sizes.not_smaller(NEC, large, small)
    assert sizes.not_smaller(NEC, high, large)


@LAW
@given(st.sampled_from(["emt", "rmc", "pvc-40", "pvc-80"]), st.sampled_from(SIZES), st.integers(0, 8))
def test_a_larger_raceway_never_takes_fewer(raceway: str, size: str, step: int) -> None:
    trades = raceways.trade_sizes(NEC, say(raceway))
    small, large = (
        raceways.most_equal(NEC, say(raceway), say(trade), say(size), say("thhn")).quantity
        for trade in (trades[step], trades[step + 1])
    )
    assert large >= small
