"""Walls, units and facts that are not as they should be: the right check refuses, in words that a fitter understands.

The numbers of the sound unit are worked out here once more, by hand, from the clauses.
"""

from math import atan2, cos, hypot, radians, sin, sqrt

import pytest
from hung_unit import BOOKS, TIMBER, UNIT, job, of, on_concrete, on_wood, place, sheet, used

from standfast.design.anchorage import loads
from standfast.design.anchorage.rails import rail_shear
from standfast.design.anchorage.statics import Point, group_shear
from standfast.design.anchorage.task import Task
from standfast.design.anchorage.whole import Anchorage
from standfast.sheet import Value, given

HOLES = ((4, 37), (20, 37), (4, 34), (20, 34), (4, 6), (20, 6))
W = (7 + 108 + 3) / 0.45359237
"""Weight of the parts, lb: more than the 118 kg that the sheet states for the whole."""
D, D_R, F_YB, TIP = 0.3125, 0.227, 60_000.0, 0.1875
PLATE, F_ES, BOARD = 0.125, 61_850.0, 0.5
PENETRATION = 4 - 0.08 - PLATE - BOARD


def lateral(theta: float, gap: float) -> float:
    """Least of the six yield modes with a gap (TR12), NDS reductions, Douglas fir, lb."""
    along, across = 11_200 * 0.5, round(6100 * 0.5**1.45 / sqrt(D) / 50) * 50
    t = radians(theta)
    q_m = along * across / (along * sin(t) ** 2 + across * cos(t) ** 2) * D_R
    q_s, l_m, M = F_ES * D_R, PENETRATION - TIP / 2, F_YB * D_R**3 / 6

    def root(a: float, b: float, c: float) -> float:
        return (sqrt(b * b + 4 * a * c) - b) / (2 * a)

    bent_s, bent_m = q_s * PLATE**2 / 4, q_m * l_m**2 / 4
    modes = (
        q_m * l_m,
        q_s * PLATE,
        root(1 / (4 * q_s) + 1 / (4 * q_m), PLATE / 2 + gap + l_m / 2, bent_s + bent_m),
        root(1 / (2 * q_s) + 1 / (4 * q_m), gap + l_m / 2, M + bent_m),
        root(1 / (4 * q_s) + 1 / (2 * q_m), PLATE / 2 + gap, M + bent_s),
        root(1 / (2 * q_s) + 1 / (2 * q_m), gap, 2 * M),
    )
    return min(modes) / ((10 * D_R + 0.5) * (1 + 0.25 * theta / 90))


def test_the_weight_alone_by_hand_with_the_board_as_a_gap() -> None:
    """Four screws of the upper rail take the weight for good: C_D 0.9; combined with the pull by 12.4.1."""
    arms = [up - 2 for _, up in HOLES]
    T, V = W * 4 * 35 / sum(arm**2 for arm in arms), W / 4
    Z = lateral(0, BOARD) * 0.9
    pull = 1800 * 0.5**1.5 * D**0.75 * (2.5 - TIP) * 0.9
    found = on_wood()
    assert used(found, "wood-lateral") == pytest.approx(V / Z, rel=1e-9)
    alpha = atan2(T, V)
    held = pull * Z / (pull * cos(alpha) ** 2 + Z * sin(alpha) ** 2)
    assert used(found, "wood-combined") == pytest.approx(hypot(T, V) / held, rel=1e-9)


def test_the_gap_halves_what_a_screw_holds() -> None:
    """Forgetting the board would more than double the strength: the mistake that the gap equations exist for."""
    assert lateral(0, 1e-9) / lateral(0, BOARD) == pytest.approx(2.24, abs=0.01)


def test_the_earthquake_at_both_bounds_by_hand() -> None:
    """F_p = 0.4 S_DS W (H_f / 1.3) (1.0 / 1.5), never under 0.3 S_DS W nor over 1.6 S_DS W."""
    ratio = (4 + 24 + 41) / 168
    for s_ds in (0.5, 1.05):
        site: dict[str, str | None] = {"seismic_sds": f'"{s_ds} g"'}
        task = Task("battery-1", job(TIMBER, site), UNIT, place(), BOOKS)
        trail = {value.symbol: value for value in loads.earthquake(task).F_p.trail()}
        assert trail["F_p_calc"].quantity == pytest.approx(0.4 * s_ds * W * (1 + 2.5 * ratio) / 1.3 / 1.5)
        assert trail["F_p_min"].quantity == pytest.approx(0.3 * s_ds * W)
        assert trail["F_p_max"].quantity == pytest.approx(1.6 * s_ds * W)
        out, light = loads.for_wood(task)[1], loads.for_wood(task)[3]
        assert out.W.quantity == pytest.approx((1 + 0.14 * s_ds) * W)
        assert light.W.quantity == pytest.approx((0.6 - 0.14 * s_ds) * W)
        assert out.along.quantity == pytest.approx(0.3 * out.out.quantity)
        assert out.out.quantity == pytest.approx(0.7 * trail["F_p_calc"].quantity)


def test_breakout_of_the_group_in_cracked_concrete_by_hand() -> None:
    """ACI 318-19: two columns more than 3 h_ef apart, the upper two rows closer; nothing near an edge."""
    h_ef, f_c = 2.4, 3000.0
    A_Nc = (2 * 3 * h_ef) * ((3 * h_ef) + (3 * h_ef + 3))
    N_cb = A_Nc / (9 * h_ef**2) * 17 * sqrt(f_c) * h_ef**1.5
    demand = of(on_concrete(concrete_strength='"3000 psi"', concrete_thickness='"6 in"'), "concrete-breakout").demand
    assert demand is not None
    by_name = {value.symbol: value.quantity for value in demand.trail() if isinstance(value.number, float)}
    assert by_name["N_cb"] == pytest.approx(N_cb)
    assert by_name["phi_N_cb"] == pytest.approx(0.75 * 0.65 * N_cb)


def v(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def test_a_rail_that_carries_all_the_weight_is_asked_more_than_an_even_share() -> None:
    points = [Point(v(x, "in"), v(y, "in")) for x, y in HOLES]
    loads = (v(240, "lb"), v(60, "lb"), v(12, "in"), v(20, "in"))
    alone = rail_shear(*loads, points, (0, 1, 2, 3)).resultant.quantity
    assert alone > group_shear(*loads, points).resultant.quantity
    assert rail_shear(*loads, points, range(6)).resultant.quantity == group_shear(*loads, points).resultant.quantity
    still = rail_shear(v(240, "lb"), v(0, "lb"), v(12, "in"), v(20, "in"), points, (0, 1, 2, 3))
    assert still.resultant.quantity == pytest.approx(60)


def test_a_unit_that_only_an_even_share_would_hold_cannot_be_told() -> None:
    """Six screws would hold it, the four of the upper rail would not: the maker must say which carry weight."""
    heavy = sheet("demo-wall-10", ('mass = "118 kg"', 'mass = "135 kg"'))
    check = of(on_wood(battery=heavy, site={"temperature_high": '"104 °F"'}), "wood-lateral")
    assert check.verdict == "cannot tell"
    assert "fixing.lower_carry: demo-wall-10.toml does not say" in check.reason


def test_a_unit_of_200_kg_is_refused_by_what_the_weight_alone_asks() -> None:
    heavy = sheet("demo-wall-10", ('mass = "118 kg"', 'mass = "200 kg"'))
    found = on_wood(battery=heavy, site={"temperature_high": '"104 °F"'})
    assert failing(found) == {"wood-lateral", "wood-combined"}
    reason = of(found, "wood-lateral").reason
    assert reason.startswith("the weight alone asks 110 % of what holds: ") and "stand the unit on the floor" in reason


def test_parts_that_weigh_more_than_the_whole_count() -> None:
    light = sheet("demo-wall-10", ('mass = "118 kg"', 'mass = "18 kg"'))
    assert used(on_wood(battery=light), "wood-lateral") == used(on_wood(), "wood-lateral")


def test_a_missing_mass_or_centre_of_gravity_is_never_a_pass() -> None:
    for old, open_checks in (
        ('mass = "118 kg"\n', {"wood-edge", "wood-withdrawal", "wood-lateral", "wood-combined"}),
        ('cg_out = "4 in"\n', {"wood-withdrawal", "wood-combined"}),
        ('cg_left = "12 in"\n', {"wood-edge", "wood-lateral", "wood-combined"}),
    ):
        found = on_wood(battery=sheet("demo-wall-10", (old, "")))
        assert {check.id.split(".")[1].split("/")[0] for check in found.checks if check.open} == open_checks
        assert all(old.split()[0] in check.reason for check in found.checks if check.open)


def test_a_strong_earthquake_across_a_narrow_stud_asks_for_a_wider_one() -> None:
    found = on_wood(site={"seismic_sds": '"2.0 g"'})
    assert failing(found) == {"wood-edge"}
    assert "across the grain" in of(found, "wood-edge").reason and "blocking" in of(found, "wood-edge").reason


@pytest.mark.parametrize(
    ("wall", "words"),
    [({"kind": '"steel studs"'}, "backing plate"), ({"kind": '"brick veneer"', "lining": '"none"'}, "only itself")],
)
def test_plasterboard_over_steel_and_veneer_carry_nothing(wall: dict[str, str | None], words: str) -> None:
    found = on_wood(**wall)
    assert failing(found) == {"wall-carries", "maker-wall"} and found.fixing is None
    assert words in of(found, "wall-carries").reason
    assert "the maker allows timber frame and concrete only" in of(found, "maker-wall").reason


def test_concrete_of_six_inches_that_may_be_cracked_holds_as_cracked() -> None:
    found = on_concrete(concrete_strength='"3000 psi"', concrete_thickness='"6 in"')
    assert found.passes and of(found, "concrete-breakout").basis == "assumed"
    assert "cracked" in {value.symbol for value in of(found, "concrete-breakout").assumptions()}


def test_a_screw_anchor_through_a_thin_bracket_needs_a_deeper_hole() -> None:
    """4 in of anchor through 1/8 in of bracket go 3-7/8 in deep: the hole of the report, 3-5/8 in, would stop it."""
    check = of(on_concrete(), "concrete-hole")
    assert check.demand is not None and check.demand.quantity == pytest.approx(4 - 0.125 + 3.625 - 3.25)
    thin = of(on_concrete(concrete_thickness='"4 in"'), "concrete-hole")
    assert thin.verdict == "fail" and "shorter" in thin.reason


def test_every_refusal_says_what_to_do() -> None:
    """No failing check of this room is left without a reason."""
    short = sheet("demo-lag-5-16", ('length = "4 in"', 'length = "2 in"'))
    loose = sheet("demo-lag-5-16", ('washer = "7/8 in"', 'washer = "3/8 in"'), ('"3/16 in"\npilot', '"1/4 in"\npilot'))
    few = sheet("demo-wall-10", ('  ["4 in", "34 in"], ["20 in", "34 in"],\n', ""))
    found = [
        on_wood(left=12.0), on_wood(left=10.9), on_wood(fixings=(short,)), on_wood(fixings=(loose,)),
        on_wood(battery=few), on_wood(site={"seismic_sds": '"2.0 g"'}), on_concrete(left=-2.5),
        on_concrete(concrete_thickness='"3 in"'), on_concrete(lining='"gypsum board"', lining_thickness='"1/2 in"'),
        on_wood(kind='"steel studs"'),
    ]  # fmt: skip
    for each in found:
        assert failing(each)
        assert [check.id for check in each.checks if check.verdict == "fail" and not check.reason] == []


def failing(found: Anchorage) -> set[str]:
    return {check.id.split(".")[1].split("/")[0] for check in found.checks if check.verdict == "fail"}
