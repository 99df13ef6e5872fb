"""Laws of lifting, earthquake, wood and statics that hold for every input."""

from hypothesis import given as every
from hypothesis import settings
from hypothesis import strategies as st

from standfast.design.anchorage import statics
from standfast.rulebooks.asce7 import components
from standfast.rulebooks.nds import adjustment, bearing, lateral
from standfast.rulebooks.niosh import equation, frequency
from standfast.rulebooks.tr12 import dowel
from standfast.sheet import Value, chosen, given
from standfast.shelf import edition

NIOSH, NDS, TR12, ASCE7 = (edition(*each) for each in
                           (("niosh", "1994"), ("nds", "2018"), ("tr12", "2015"), ("asce7", "2022")))  # fmt: skip
quick = settings(deadline=None, derandomize=True, max_examples=60)
ZERO = given("g", 0.0, "in", "test")


def v(number: float, unit: str = "1") -> Value:
    return given("x", number, unit, "test")


@st.composite
def joints(draw: st.DrawFn) -> lateral.Joint:
    D = draw(st.sampled_from([0.19, 0.25, 0.3125, 0.375, 0.5]))
    theta, nominal = v(draw(st.sampled_from([0.0, 45.0, 90.0])), "deg"), v(D, "in")
    root = v(D * draw(st.floats(0.65, 1.0)), "in")
    F_em = bearing.strength(NDS, v(draw(st.floats(0.35, 0.6))), nominal, theta)
    return lateral.Joint(nominal, root, root, v(draw(st.floats(40e3, 1e5)), "psi"), v(draw(st.floats(0.5, 5)), "in"),
                         v(draw(st.floats(0.06, 1.5)), "in"), F_em, v(draw(st.floats(2e3, 9e4)), "psi"), theta,
                         "single")  # fmt: skip


def with_gap(joint: lateral.Joint, gap: Value) -> dowel.Lateral:
    R_d = lateral.reduction(NDS, joint.D_nominal, joint.D, joint.D_K, joint.theta)
    return dowel.strength(TR12, dowel.Dowel(joint.D, joint.F_yb, joint.l_m, joint.l_s, joint.F_em, joint.F_es, gap,
                                            *R_d))  # fmt: skip


@quick
@every(joints())
def test_without_a_gap_both_books_give_the_same_in_every_mode(joint: lateral.Joint) -> None:
    wood, general = lateral.strength(NDS, joint), with_gap(joint, ZERO)
    for mode, value in wood.modes.items():
        assert abs(general.modes[mode].quantity - value.quantity) <= 1e-9 * value.quantity, mode


@quick
@every(joints(), st.floats(0, 3), st.floats(0, 3))
def test_a_wider_gap_never_holds_more(joint: lateral.Joint, a: float, b: float) -> None:
    near, far = (with_gap(joint, v(g, "in")).Z.quantity for g in sorted((a, b)))
    assert far <= near * (1 + 1e-12)


@quick
@every(st.floats(50, 900), st.floats(50, 900), st.floats(0, 90))
def test_a_combined_value_lies_between_pull_and_shear(W: float, Z: float, alpha: float) -> None:
    found = adjustment.combined(NDS, v(W, "lb"), v(Z, "lb"), v(alpha, "deg")).quantity
    assert min(W, Z) * (1 - 1e-9) <= found <= max(W, Z) * (1 + 1e-9)


@quick
@every(st.floats(0, 25), st.floats(0, 25), st.floats(0, 70), st.sampled_from(["good", "fair", "poor"]))
def test_hands_farther_out_never_lift_more(a: float, b: float, height: float, grip: str) -> None:
    band = equation.height_band(NIOSH, v(height, "in"))
    FM = frequency.multiplier(NIOSH, v(0.2, "1/min"), "short", band)

    def limit(H: float) -> float:
        m = equation.Multipliers(
            equation.horizontal(NIOSH, v(H, "in")),
            equation.vertical(NIOSH, v(height, "in")),
            equation.travel(NIOSH, v(20, "in")),
            equation.asymmetry(NIOSH, v(0, "deg")),
            FM,
            equation.coupling(NIOSH, v(height, "in"), grip),
        )
        return equation.weight_limit(NIOSH, "lb", m).quantity

    near, far = sorted((a, b))
    assert limit(far) <= limit(near) <= NIOSH.number("load_constant_lb").quantity


@quick
@every(st.floats(0.1, 3), st.floats(0.1, 3), st.floats(0, 1), st.floats(10, 500))
def test_a_stronger_earthquake_never_pushes_less(a: float, b: float, z: float, weight: float) -> None:
    def force(S_DS: float) -> float:
        H_f = components.height_factor(ASCE7, v(z), None)
        R_mu = components.ductility_unknown(ASCE7)
        found = components.force_by_resonance(ASCE7, v(S_DS), v(1), v(weight, "lb"), H_f, R_mu, v(1), v(1.5))
        assert found.minimum.quantity <= found.F_p.quantity <= found.maximum.quantity
        return found.F_p.quantity

    weak, strong = sorted((a, b))
    assert force(weak) <= force(strong)


@quick
@every(st.floats(0, 500), st.just(0.0) | st.floats(1, 500), st.floats(1, 8), st.floats(4, 30),
       st.lists(st.tuples(st.integers(1, 4), st.floats(1, 40)), min_size=2, max_size=4))  # fmt: skip
def test_a_hung_body_is_in_balance(W: float, E: float, e: float, y: float, rows: list[tuple[int, float]]) -> None:
    arms = [statics.Row(v(n), v(arm, "in")) for n, arm in rows]
    found = statics.hung(v(W, "lb"), v(e, "in"), v(E, "lb"), v(y, "in"), arms)
    moment = W * e + E * y
    far = max(arm for _, arm in rows)
    if found.bearing.quantity >= 0:
        by_rows = sum(n * found.tension.quantity * arm / far * arm for n, arm in rows)
        assert abs(by_rows - moment) <= 1e-6 * max(1, moment)
        assert abs(found.total.quantity - E - found.bearing.quantity) <= 1e-6 * max(1, E)
    else:
        assert found.tension.quantity * sum(n for n, _ in rows) >= E * (1 - 1e-9)


@quick
@every(st.floats(0, 400), st.floats(0, 400), st.floats(-20, 20), st.floats(-20, 20),
       st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=1, max_size=6, unique=True))  # fmt: skip
def test_the_worst_fastener_carries_at_least_an_even_share(
    W: float, E: float, x: float, y: float, holes: list[tuple[float, float]]
) -> None:
    points = [statics.Point(v(a, "in"), v(b, "in")) for a, b in holes]
    loads = (v(W, "lb"), v(E, "lb"))
    found = statics.group_shear(*loads, v(x, "in"), v(y, "in"), points).resultant.quantity
    assert found >= (W**2 + E**2) ** 0.5 / len(holes) * (1 - 1e-9)
    group = statics.middle(points)
    each = [statics.on_point(p, *loads, s, v(x, "in"), v(y, "in"), group).resultant for p in points for s in (1, -1)]
    assert abs(found - max(value.quantity for value in each)) <= 1e-9 * max(1.0, found)


@quick
@every(st.floats(0, 500), st.floats(0, 500), st.floats(1, 60), st.floats(1, 30))
def test_more_weight_never_pulls_more_on_a_standing_base(a: float, b: float, h: float, x: float) -> None:
    rows = [statics.Row(v(2), v(2 * x, "in"))]

    def pull(weight: float) -> float:
        M = statics.tipping_moment(v(100, "lb"), v(h, "in"), v(weight, "lb"), v(x, "in"))
        return statics.tension(M, rows, "lb").quantity

    light, heavy = sorted((a, b))
    assert pull(heavy) <= pull(light)


def test_a_band_of_height_is_chosen_at_its_edge() -> None:
    assert equation.height_band(NIOSH, v(30, "in")).word == "at or above"
    assert chosen("band", "below", "", "test", None).word == equation.height_band(NIOSH, v(74.9, "cm")).word
