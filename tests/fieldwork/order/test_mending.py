"""What is said to make an act safe does, and harms nothing."""

import pytest
from test_decide import random_job

from standfast.fieldwork.order.acts import Act, Acts, Gate, Site
from standfast.fieldwork.order.decide import unsafe
from standfast.fieldwork.order.mending import mending, with_waits


@pytest.mark.parametrize("seed", range(0, 1000, 5))
def test_a_mended_act_is_safe_and_nothing_else_is_worse(seed: int) -> None:
    site, acts = random_job(seed)
    before = {(each.act, each.what) for each in unsafe(site, acts)}
    for each in unsafe(site, acts):
        waits = mending(site, acts, each)
        if waits:
            after = {(other.act, other.what) for other in unsafe(site, with_waits(acts, waits))}
            assert (each.act, each.what) not in after and after <= before


def test_power_that_may_come_too_early_waits_for_the_hands() -> None:
    site = Site((Gate("main", "grid", "bars", closed=True),), {"grid": "grid"})
    acts = Acts([
        Act("off", gate="main", change="open"), Act("lock", ("off",), gate="main", change="lock"),
        Act("dead", ("lock",), proves=("bars",)), Act("land", ("dead",), touches=("bars",)),
        Act("unlock", ("dead",), gate="main", change="unlock"), Act("on", ("unlock",), gate="main", change="close"),
    ])  # fmt: skip
    (found,) = unsafe(site, acts)
    assert (found.act, found.what, found.why) == ("land", "bars", "live")
    assert found.order == ("off", "lock", "dead", "unlock", "land")
    assert mending(site, acts, found) == (("unlock", "land"),)


def test_hands_that_come_too_early_wait_for_the_proof() -> None:
    site = Site((Gate("main", "grid", "bars", closed=True),), {"grid": "grid"})
    acts = Acts([
        Act("off", gate="main", change="open"), Act("lock", ("off",), gate="main", change="lock"),
        Act("dead", ("lock",), proves=("bars",)), Act("land", touches=("bars",)),
    ])  # fmt: skip
    (found,) = unsafe(site, acts)
    assert found.why == "live" and mending(site, acts, found) == (("land", "dead"),)
