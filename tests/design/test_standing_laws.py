"""Laws of units that stand: what makes tipping worse never makes it better, and left and right are alike."""

from hypothesis import given as forall
from hypothesis import settings
from hypothesis import strategies as some
from standing_unit import BRACE_ONLY, FOOT_ONLY, job, stack, stand, symbol

from standfast.design.anchorage.held import Anchorage
from standfast.equipment.read import DataSheet

LAW = settings(deadline=None, derandomize=True, max_examples=12)
ways = some.sampled_from([(), (FOOT_ONLY,), (BRACE_ONLY,)])
Change = tuple[str, str]


def failures(found: Anchorage) -> set[str]:
    return {check.id for check in found.checks if check.open}


def high(cg_in: float, *more: Change) -> DataSheet:
    return stack(('cg_height = "29 in"', f'cg_height = "{cg_in:.2f} in"'), *more)


@LAW
@forall(some.floats(10, 40), some.floats(0, 15), some.floats(0.2, 2))
def test_a_higher_centre_of_gravity_never_asks_less_of_brace_or_foot(cg: float, more: float, sds: float) -> None:
    at = job(site={"seismic_sds": f'"{sds:.3f} g"'})
    low, tall = stand(at, high(cg)), stand(at, high(cg + more))
    for id in ("wood-withdrawal/battery-1", "concrete-pullout/battery-1/foot"):
        assert symbol(low, id, "T") <= symbol(tall, id, "T") * (1 + 1e-9)


@LAW
@forall(some.floats(0.05, 1.4), some.floats(1, 2), ways)
def test_a_stronger_earthquake_never_clears_a_failure(sds: float, times: float, way: tuple[Change, ...]) -> None:
    weak, strong = (stand(job(site={"seismic_sds": f'"{g:.4f} g"'}), stack(*way)) for g in (sds, sds * times))
    assert failures(weak) <= failures(strong)


@LAW
@forall(some.integers(3, 23), some.floats(0.3, 2), ways)
def test_a_unit_and_its_mirror_image_are_held_alike(cg_left: int, sds: float, way: tuple[Change, ...]) -> None:
    at = job(site={"seismic_sds": f'"{sds:.3f} g"'})
    one, other = (
        stand(at, stack(('cg_left = "13 in"', f'cg_left = "{place} in"'), *way)) for place in (cg_left, 26 - cg_left)
    )
    pairs = list(zip(one.checks, other.checks, strict=True))
    assert [(a.id, a.verdict) for a, _ in pairs] == [(b.id, b.verdict) for _, b in pairs]
    for a, b in pairs:
        if a.margin is not None and b.margin is not None:
            assert abs(a.margin - b.margin) < 1e-6, a.id


@LAW
@forall(some.floats(1, 4), some.floats(0, 3), some.floats(0.3, 2))
def test_a_wider_foot_never_asks_more_of_the_brace(front: float, more: float, sds: float) -> None:
    at = job(site={"seismic_sds": f'"{sds:.3f} g"'})
    near, far = (
        stand(at, stack(('["1 in", "9 in"], ["25 in", "9 in"]',
                         f'["1 in", "{5 + reach:.3f} in"], ["25 in", "{5 + reach:.3f} in"]')))
        for reach in (front, front + more)
    )  # fmt: skip
    id = "wood-withdrawal/battery-1"
    assert symbol(far, id, "T") <= symbol(near, id, "T") * (1 + 1e-9)
