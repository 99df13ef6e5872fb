"""What hangs outdoors has the wind on it, an inverter too; screws that miss their stud leave their share to others."""

import pytest
from hung_unit import BOOKS, LAG, mm, on_wood, sheet, used
from standing_unit import WIND, check, job, symbol

from standfast.design.anchorage.held import Anchorage
from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import anchor

INVERTER = sheet("demo-hybrid-8")


def hang(room: str, site: dict[str, str | None], left: float = 14.5 + 48 - 1) -> Anchorage:
    place = Place("east", mm("left", left), mm("bottom", 40))
    return anchor(job(room=room, site=site), INVERTER, [LAG], BOOKS, place, unit="inverter-1")


def test_an_inverter_hangs_by_the_same_rules_under_its_own_name() -> None:
    found = hang("garage", {})
    assert found.passes and found.foot is None
    assert all(each.id.split("/")[1] == "inverter-1" for each in found.checks)


@pytest.mark.parametrize("word", ["wind_speed", "wind_exposure", "wind_hill"])
def test_outdoors_the_wind_must_be_known_and_indoors_not(word: str) -> None:
    there = check(hang("yard", {**WIND, word: None}), "wood-withdrawal/inverter-1")
    assert there.verdict == "cannot tell" and f"conditions.{word}" in there.reason
    assert check(hang("garage", {}), "wood-withdrawal/inverter-1").verdict == "pass"


def test_the_wind_off_the_wall_by_hand() -> None:
    # No earthquake, 130 mph. Allowable stress: the whole weight and 0.6 of the wind on 18 x 27 in at its middle, about
    # the edge at 2 in; rows of two at 23 and 20 in.
    found = hang("yard", {**WIND, "wind_speed": '"130 mph"', "seismic_sds": '"0 g"'})
    psf = (
        0.613 * 2.41 * (4.572 / 749.808) ** (2 / 9.8) * (130 * 0.44704) ** 2 * 0.85 * 1.9 / 4.4482216152605 * 0.3048**2
    )
    weight = 32 / 0.45359237
    M = weight * 4.5 + 0.6 * psf * 18 * 27 / 144 * (13.5 - 2)
    T = M * 21 / (2 * 21**2 + 2 * 18**2)
    outward, pulled = 0.6 * psf * 18 * 27 / 144, T * (2 + 2 * 18 / 21)
    # The lower edge lifts off: the screws alone balance the force and its moment about their middle, and since the wind
    # acts below them the lower row is pulled the most.
    assert outward > pulled
    lower = outward / 4 + (outward * 19.5 - M) * 1.5 / (4 * 1.5**2)
    assert symbol(found, "wood-withdrawal/inverter-1", "T") == pytest.approx(lower)


def test_screws_beside_their_stud_leave_their_share_to_the_others() -> None:
    holes = (
        ('["4 in", "34 in"], ["20 in", "34 in"]', '["4 in", "34 in"], ["16 in", "34 in"]'),
        ('["4 in", "6 in"], ["20 in", "6 in"]', '["4 in", "6 in"], ["16 in", "6 in"]'),
    )
    whole, lost = on_wood(), on_wood(battery=sheet("demo-wall-10", *holes))
    assert check(lost, "every-hole-in-a-stud/battery-1").verdict == "fail"
    assert used(lost, "wood-withdrawal") > used(whole, "wood-withdrawal")
    assert used(lost, "wood-lateral") > used(whole, "wood-lateral")
