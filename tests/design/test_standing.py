"""Units that stand: statics by hand, who carries what, the ground, the wind, and what a missing fact does."""

import pytest
from hung_unit import ANCHOR, BOOKS, CONCRETE, LAG, sheet
from standing_unit import (
    BRACE_ONLY,
    FOOT_ONLY,
    PAD,
    POUNDS,
    SLAB,
    SLAB_ANCHOR,
    WIND,
    check,
    job,
    quantity,
    stack,
    stand,
    symbol,
)

from standfast.design.anchorage.neighbours import apart

# By hand


def test_the_foot_alone_by_hand() -> None:
    # SDS 1.0 at grade: the minimum governs, Fp = 0.3 W; with overstrength 2 it is 0.6 W.
    # Held by (0.9 - 0.2) W. Off the wall: the foot reaches 9 in from the back, the centre of gravity is 7 - 2 = 5 in
    # out, so the arm is 4 in: M = 0.6 W x 29 - 0.7 W x 4 = 14.6 W. Rows at 9 - 2 = 7 in and 9 - 8 = 1 in, two each:
    # T = 14.6 W x 7 / (2 x 49 + 2 x 1) = 1.022 W. Across at the same time 0.18 W x 29 < 0.7 W x 12: nothing.
    found = stand(unit=stack(FOOT_ONLY))
    assert symbol(found, "concrete-pullout/battery-1/foot", "T") == pytest.approx(1.022 * POUNDS)
    # Pullout in an earthquake: 0.75 x 0.65 x 2550 lb.
    assert quantity(found, "concrete-pullout/battery-1/foot") == pytest.approx(1.022 * POUNDS / (0.75 * 0.65 * 2550))
    assert found.passes and found.fixing is None and not found.holes


def test_brace_and_foot_by_hand() -> None:
    # The brace is 50 in up in a house of 168 in: Hf = 1 + 2.5 x 50 / 168, Fp = 0.4 Hf / 1.3 / 1.5 x W.
    F_p = 0.4 * (1 + 2.5 * 50 / 168) / 1.3 / 1.5 * POUNDS
    found = stand()
    # Allowable stress: 0.7 Fp tips, (0.6 - 0.14) W holds at 4 in; the two lags of the brace share at 50 in.
    R = (0.7 * F_p * 29 - 0.46 * POUNDS * 4) / 50
    assert symbol(found, "wood-withdrawal/battery-1", "T") == pytest.approx(R / 2)
    # The foot: strength level with overstrength, all of the tipping counted too, as the maker does not say; along the
    # wall the 30 % that come with it tip over 12 in, held by (0.9 - 0.2) W: rows at 23 in and 1 in.
    across = (2 * F_p * 29 - 0.7 * POUNDS * 4) * 7 / 100
    along = max(0.0, (0.6 * F_p * 29 - 0.7 * POUNDS * 12) * 23 / 1060)
    assert symbol(found, "concrete-pullout/battery-1/foot", "T") == pytest.approx(across + along)
    # Shear: all of it, the four anchors' middle is 7 in out as the centre of gravity is: no twist.
    shear = symbol(found, "concrete-steel-shear/battery-1/foot", "V")
    assert shear == pytest.approx(((2 * F_p) ** 2 + (0.6 * F_p) ** 2) ** 0.5 / 4)
    assert found.passes


def test_the_brace_alone_carries_all_and_the_foot_must_not_swing_out_by_hand() -> None:
    found = stand(job(site={"seismic_sds": '"0.10 g"'}), stack(BRACE_ONLY))
    F_p = 0.4 * (1 + 2.5 * 50 / 168) / 1.3 / 1.5 * 0.1 * POUNDS
    # Nothing but the brace pushes back: both lags share 0.7 Fp, more than what tipping alone would ask.
    assert symbol(found, "wood-withdrawal/battery-1", "T") == pytest.approx(0.7 * F_p / 2)
    # The force acts 21 in below the brace; the weight holds the foot at the shorter arm, 4 in: 0.9 W - 0.02 W.
    assert quantity(found, "foot-stays/battery-1") == pytest.approx(F_p * 21 / (0.88 * POUNDS * 4))
    assert found.foot is not None and found.foot.anchor is None and not found.foot.holes


def test_a_brace_alone_in_a_strong_earthquake_is_refused_with_the_way_out() -> None:
    found = stand(unit=stack(BRACE_ONLY))
    stays = check(found, "foot-stays/battery-1")
    assert stays.verdict == "fail" and "friction does not count" in stays.reason


def test_wind_tips_at_the_middle_of_the_height_and_lifts_by_hand() -> None:
    quiet = {**WIND, "seismic_sds": '"0 g"'}
    found = stand(job(PAD, site=quiet, room="yard"), stack(FOOT_ONLY))
    K_z = 2.41 * (4.572 / 749.808) ** (2 / 9.8)
    psf = 0.613 * K_z * (100 * 0.44704) ** 2 * 0.85 / 4.4482216152605 * 0.3048**2
    out, up = psf * 1.9 * 26 * 62 / 144, psf * 1.5 * 26 * 12 / 144
    T = (out * 31 - (0.9 * POUNDS - up) * 4) * 7 / 100
    assert symbol(found, "concrete-pullout/battery-1/foot", "T") == pytest.approx(T)
    demand = check(found, "concrete-pullout/battery-1/foot").demand
    assert demand is not None and demand.how.startswith("r_wind_out is the greatest")


# What is not known


WORDS = ("held_by", "stands_on", "feet", "foot_area", "base_holes", "base_hole", "base_plate", "hung")


@pytest.mark.parametrize("word", WORDS)
def test_a_word_that_the_data_sheet_lacks_is_never_a_pass(word: str) -> None:
    text = next(line for line in _lines() if line.startswith(f"{word} = "))
    found = stand(unit=stack((text + "\n", "")))
    assert not found.passes
    assert any(each.verdict == "cannot tell" and word in each.reason for each in found.checks)
    assert not any(each.verdict == "fail" for each in found.checks)


def _lines() -> list[str]:
    from standfast.equipment.read import shipped

    return shipped()["demo-stack-15"].splitlines()


@pytest.mark.parametrize("way", [(), (FOOT_ONLY,), (BRACE_ONLY,)])
def test_no_word_of_body_or_fixing_fails_by_being_absent(way: tuple[tuple[str, str], ...]) -> None:
    # A weak earthquake, little wind and wide posts, so that nothing fails with every word in its place.
    quiet = {**WIND, "seismic_sds": '"0.05 g"', "wind_speed": '"40 mph"'}
    at = job(PAD, site=quiet, room="yard", wall={"stud_width": '"3-1/2 in"'})
    words = [line for line in _lines() if line.startswith(tuple("abcdefghijklmnopqrstuvwxyz"))]
    words = words[words.index('width = "26 in"') : words.index('level_within = "1/8 in"')]
    assert len(words) > 25 and stand(at, stack(*way)).passes
    for line in words:
        if not line.startswith("held_by"):
            found = stand(at, stack(*way, (f"\n{line}\n", "\n")))
            assert not any(each.verdict == "fail" for each in found.checks), line


@pytest.mark.parametrize("word", ["depth", "thickness", "concrete_strength", "concrete_kind", "kind"])
def test_a_fact_that_the_survey_of_the_ground_lacks_is_never_a_pass(word: str) -> None:
    found = stand(job({word: None}))
    assert not found.passes and not any(each.verdict == "fail" for each in found.checks)
    assert any(each.verdict == "cannot tell" and f"footing.{word}" in each.reason for each in found.checks)


def test_no_ground_at_all_cannot_be_told() -> None:
    carries = check(stand(job({})), "footing-carries/battery-1/foot")
    assert carries.verdict == "cannot tell" and "walls.east.footing.kind" in carries.reason


@pytest.mark.parametrize("word", ["wind_speed", "wind_exposure", "wind_hill"])
def test_outdoors_an_unknown_wind_cannot_be_told(word: str) -> None:
    found = stand(job(PAD, site={**WIND, word: None}, room="yard"))
    for id in ("wood-withdrawal/battery-1", "concrete-pullout/battery-1/foot"):
        assert check(found, id).verdict == "cannot tell" and f"conditions.{word}" in check(found, id).reason


def test_a_hill_is_left_to_an_engineer() -> None:
    found = stand(job(PAD, site={**WIND, "wind_hill": "true"}, room="yard"))
    assert "engineer" in check(found, "wood-withdrawal/battery-1").reason and not found.passes


def test_no_base_anchor_was_chosen() -> None:
    found = stand(anchors=())
    assert "base_anchor" in check(found, "fixing/battery-1/foot").reason and not found.passes


# Refusals


@pytest.mark.parametrize("kind", ["pavers", "earth"])
def test_what_sinks_is_refused_with_the_way_out(kind: str) -> None:
    carries = check(stand(job({"kind": f'"{kind}"'})), "footing-carries/battery-1/foot")
    assert carries.verdict == "fail" and "cast a concrete pad" in carries.reason


def test_a_wood_floor_is_left_to_who_knows_its_joists_and_the_maker_decides_first() -> None:
    found = stand(job({"kind": '"wood floor"'}))
    assert check(found, "footing-carries/battery-1/foot").verdict == "cannot tell"
    assert check(found, "maker-footing/battery-1/foot").verdict == "fail"


def test_a_foot_over_the_edge_of_its_pad_is_refused() -> None:
    assert check(stand(job(PAD)), "footing-extent/battery-1/foot").verdict == "pass"
    over = check(stand(job(PAD), left=14.5 + 96 - 5), "footing-extent/battery-1/foot")
    assert over.verdict == "fail" and "hangs over" in over.reason


def test_thin_concrete_is_refused() -> None:
    assert check(stand(job({"thickness": '"3 in"'})), "concrete-thickness/battery-1/foot").verdict == "fail"


def test_unknown_concrete_behind_the_wall_may_pass_and_is_shown_but_never_fails() -> None:
    near = stack(("standoff = \"2 in\"", "standoff = \"0 in\""), ('["2 in", "2 in"], ["24 in", "2 in"]',
                 '["2 in", "1 in"], ["24 in", "1 in"]'))  # fmt: skip
    assert check(stand(job({"behind": None})), "concrete-edge-distance/battery-1/foot").basis == "assumed"
    assert check(stand(job({"behind": None}), near), "concrete-edge-distance/battery-1/foot").verdict == "cannot tell"
    assert check(stand(unit=near), "concrete-edge-distance/battery-1/foot").verdict == "fail"
    assert check(stand(job({"behind": '"8 in"'}), near), "concrete-edge-distance/battery-1/foot").verdict == "pass"


def test_a_stud_missed_by_the_brace_is_refused_and_asks_nothing_of_the_lag() -> None:
    found = stand(left=LEFT_OFF)
    assert check(found, "every-hole-in-a-stud/battery-1").verdict == "fail"
    assert check(found, "wood-withdrawal/battery-1").verdict == "cannot tell"


LEFT_OFF = 50.0


# The pad


def test_a_doweled_pad_stays_with_its_condition_and_one_by_itself_by_numbers() -> None:
    strong = {"seismic_sds": '"2.5 g"'}
    tied = check(stand(job(PAD, site=strong)), "pad-slides/battery-1/foot")
    assert tied.verdict == "pass" and "bars that tie the pad" in tied.condition
    assert tied.demand is not None and tied.demand.quantity > 1  # by itself it would slide
    for state, word in ((None, "footing.state"), ('"new"', "have an engineer draw them")):
        open = check(stand(job({**PAD, "state": state}, site=strong)), "pad-slides/battery-1/foot")
        assert open.verdict == "cannot tell" and word in open.reason
    calm = {"seismic_sds": '"0.30 g"'}
    alone = stand(job({**PAD, "doweled": "false"}, site=calm))
    # Fp at strength level 0.112 W by the height of the brace, with 30 % across; friction 0.25 on (0.9 - 0.06) of the
    # unit and of a pad of 6 x 3 x 0.5 ft at 135 lb/ft3.
    F_p = 0.4 * 0.3 * (1 + 2.5 * 50 / 168) / 1.3 / 1.5 * POUNDS
    pad = 6 * 3 * 0.5 * 135
    slides = F_p * 1.09**0.5 / (0.25 * 0.84 * (POUNDS + pad))
    assert quantity(alone, "pad-slides/battery-1/foot") == pytest.approx(slides)
    tips = F_p * (29 + 6) / (0.84 * (POUNDS * (36 - 7) + pad * 18))
    assert quantity(alone, "pad-tips/battery-1/foot") == pytest.approx(tips)


def test_a_light_pad_in_a_strong_earthquake_cannot_be_told_without_its_soil() -> None:
    thin = {**PAD, "doweled": "false", "thickness": '"4 in"'}
    found = check(stand(job(thin, site={"seismic_sds": '"1.75 g"'})), "pad-slides/battery-1/foot")
    assert found.verdict == "cannot tell" and "soil" in found.reason


def test_whether_a_pad_is_tied_must_be_known() -> None:
    found = check(stand(job({**PAD, "doweled": None})), "pad-tips/battery-1/foot")
    assert found.verdict == "cannot tell" and "footing.doweled" in found.reason


def test_units_share_the_weight_of_one_pad() -> None:
    alone, pair = (job({**PAD, "doweled": "false"}, more=f"[equipment]\nquantity = {n}") for n in (1, 2))
    weights = [symbol(stand(at), "pad-slides/battery-1/foot", "W_pad") for at in (alone, pair)]
    assert weights == [pytest.approx(6 * 3 * 0.5 * 135), pytest.approx(6 * 3 * 0.5 * 135 / 2)]


def test_a_unit_whose_weight_lies_outside_its_feet_is_refused() -> None:
    assert (
        check(stand(unit=stack(('cg_out = "7 in"', 'cg_out = "12 in"'))), "foot-stands/battery-1/foot").verdict
        == "fail"
    )


def test_weight_outside_the_feet_keeps_no_foot_from_swinging() -> None:
    """The moment that should hold is below nothing there: a plain ratio would be negative and read as held."""
    found = stand(job(site={"seismic_sds": '"0.10 g"'}), stack(BRACE_ONLY, ('cg_out = "7 in"', 'cg_out = "12 in"')))
    assert check(found, "foot-stays/battery-1").verdict == "fail"
    assert quantity(found, "foot-stays/battery-1") == pytest.approx(100)


# Before the slab is drilled


def test_a_slab_is_drilled_only_where_it_is_known_what_lies_in_it() -> None:
    id = "footing-scan/battery-1/foot"
    assert check(stand(), id).verdict == "pass" and not check(stand(), id).condition
    assert "scanned for tendons" in check(stand(job({"scan": '"not scanned"'})), id).condition
    assert check(stand(job({"scan": '"tendons or pipes"'})), id).verdict == "fail"
    assert check(stand(job({"scan": None})), id).verdict == "cannot tell"


# Data for drawings, and other walls


def test_the_holes_of_the_foot_in_plan() -> None:
    foot = stand().foot
    assert foot is not None and foot.anchor is not None and foot.anchor.content.id == "demo-slab-anchor-1-2"
    left = 14.5 + 48 - 5
    inches = [(each.id, round(each.x.quantity / 25.4, 3), round(each.out.quantity / 25.4, 3)) for each in foot.holes]
    places = [(left + 2, 4), (left + 24, 4), (left + 2, 10), (left + 24, 10)]
    assert inches == [(f"foot-{number}", *place) for number, place in enumerate(places, 1)]


def test_a_brace_in_a_concrete_wall_is_judged_by_the_anchor_chapter() -> None:
    bare = {**dict.fromkeys(("stud_spacing", "first_stud", "stud_width", "stud_depth", "species", "moisture",
                             "lining_thickness")), **CONCRETE}  # fmt: skip
    found = stand(job(wall=bare), fixings=(LAG, ANCHOR))
    assert found.base == "concrete" and found.fixing is ANCHOR and found.passes
    assert {each.id for each in found.checks} >= {"anchorage.concrete-breakout/battery-1",
                                                  "anchorage.concrete-breakout/battery-1/foot"}  # fmt: skip


def test_a_brace_is_refused_on_steel_studs_without_the_advice_to_stand() -> None:
    found = check(stand(job(wall={"kind": '"steel studs"'})), "wall-carries/battery-1")
    assert found.verdict == "fail" and "stand the unit" not in found.reason


def test_the_anchor_of_the_slab_is_chosen_by_price_among_those_that_pass() -> None:
    found = stand(anchors=(ANCHOR, SLAB_ANCHOR))
    assert found.foot is not None and found.foot.anchor is SLAB_ANCHOR
    assert SLAB["kind"] == '"concrete slab"'


# Neighbours


def test_two_units_whose_anchors_break_out_together_cannot_be_told() -> None:
    # Three times 2.07 in is 6.21 in; the outer anchors of one unit stand 22 in apart.
    def pair(apart_in: float) -> str:
        second = stand(left=LEFT_OFF + apart_in)._replace(unit="battery-2")
        one, _ = apart((stand(left=LEFT_OFF), second), BOOKS)
        return check(one, "concrete-neighbours/battery-1/foot").verdict

    assert pair(22 + 6.2) == "cannot tell"
    assert pair(22 + 6.3) == "pass"


def test_a_unit_alone_or_on_another_wall_is_not_asked_about_neighbours() -> None:
    one, other = stand(), stand()._replace(wall="north")
    assert all(
        each.checks == found.checks for each, found in zip((one, other), apart((one, other), BOOKS), strict=True)
    )


def test_an_anchor_that_sits_deeper_than_its_row_asks_for_as_much_more_concrete() -> None:
    """It goes in until its head stops it: 3-1/4 in long, through 1/4 in of plate, 1/4 in beyond the row of 2-3/4 in."""
    id, long = "concrete-thickness/battery-1/foot", sheet("demo-slab-anchor-1-2", ('"3 in"', '"3-1/4 in"'))
    enough = check(stand(job({"thickness": '"3-3/4 in"'}), anchors=(long,)), id)
    assert (enough.verdict, enough.margin) == ("pass", pytest.approx(0))
    assert "measured at the first hole" in enough.condition
    thin = check(stand(job({"thickness": '"3-5/8 in"'}), anchors=(long,)), id)
    assert thin.verdict == "cannot tell" and "sits deeper than this row" in thin.reason
    assert check(stand(job({"thickness": '"3-5/8 in"'})), id).verdict == "pass"
    assert check(stand(job({"thickness": '"3-3/8 in"'}), anchors=(long,)), id).verdict == "fail"


def test_a_new_pad_is_cast_and_cures_and_one_of_no_stated_age_is_asked_for() -> None:
    id = "pad-cast/battery-1/foot"
    new = check(stand(job({**PAD, "state": '"new"'})), id)
    assert new.verdict == "pass" and "28 days" in new.condition
    assert check(stand(job(PAD)), id).verdict == "not applicable"
    unknown = check(stand(job({**PAD, "state": None})), id)
    assert unknown.verdict == "cannot tell" and "footing.state" in unknown.reason
    assert not [each for each in stand().checks if "pad-" in each.id]
