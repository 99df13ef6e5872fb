"""Laws of anchors: less concrete never gives more strength, one more load never uses less."""

from hypothesis import given as forall
from hypothesis import settings
from hypothesis import strategies as some

from standfast.rulebooks.ac58 import breakout as masonry
from standfast.rulebooks.aci318 import bond, shear, tension
from standfast.rulebooks.aci318.interaction import interaction
from standfast.rulebooks.en1992_4 import shear as en_shear
from standfast.sheet import Value, given
from standfast.shelf import edition

ACI, EN, AC58 = edition("aci318", "2019"), edition("en1992_4", "2018"), edition("ac58", "undated")
LAW = settings(deadline=None, derandomize=True, max_examples=60)
length = some.floats(0.5, 40)
closer = some.floats(0.05, 1)


def inch(number: float) -> Value:
    return given("x", number, "in", "law")


def one(number: float = 1.0) -> Value:
    return given("k", number, "1", "law")


STRENGTH = given("f_c", 3000.0, "psi", "law")


def tension_strength(h_ef: float, layout: tension.Layout) -> float:
    return tension.breakout(
        ACI,
        f_c=STRENGTH,
        h_ef=inch(h_ef),
        lambda_a=one(),
        cracked=given("cracked", True, "", "law"),
        install="post-installed",
        layout=layout,
    ).N_cb.quantity


@LAW
@forall(some.floats(1, 12), length, length, closer, length)
def test_a_nearer_edge_never_gives_more_tension(h: float, c: float, other: float, share: float, gap: float) -> None:
    # With three near edges the clause lets the depth that counts shrink instead, so the law is for two.
    far, near = (tension.Layout((inch(gap),), (), inch(c * k), None, inch(other)) for k in (1.0, share))
    assert tension_strength(h, near) <= tension_strength(h, far) * (1 + 1e-12)


@LAW
@forall(some.floats(1, 12), length, length, closer)
def test_closer_anchors_never_give_more_and_never_more_than_apart(h: float, c: float, gap: float, share: float) -> None:
    wide, tight = (tension_strength(h, tension.Layout((inch(gap * k),), (), inch(c))) for k in (1.0, share))
    single = tension_strength(h, tension.Layout(c_x_neg=inch(c)))
    assert single * (1 - 1e-12) <= tight <= wide * (1 + 1e-12)
    assert wide <= 2 * tension_strength(h, tension.Layout()) * (1 + 1e-12)


def shear_strength(c_a1: float, side: float, gap: float) -> float:
    area = shear.shear_area(ACI, shear.EdgeRow(inch(c_a1), (inch(gap),), inch(side)))
    facts = {"d_a": inch(0.5), "h_ef": inch(4), "f_c": STRENGTH, "lambda_a": one(), "psi_c": one()}
    return shear.shear_breakout(ACI, area, attachment="loose", direction="to edge", **facts).V_cb.quantity


@LAW
@forall(length, length, length, closer)
def test_a_nearer_edge_never_gives_more_shear(c: float, side: float, gap: float, share: float) -> None:
    here = shear_strength(c, side, gap) * (1 + 1e-12)
    assert shear_strength(c, side * share, gap) <= here
    assert shear_strength(c, side, gap * share) <= here


@LAW
@forall(length, closer, some.floats(300, 3000))
def test_a_nearer_edge_never_gives_more_bond(c: float, share: float, tau: float) -> None:
    stress = given("tau", tau, "psi", "law")

    def strength(edge: float) -> float:
        facts = {"tau": stress, "tau_uncr": stress, "d_a": inch(0.5), "h_ef": inch(4)}
        return bond.bond(ACI, edge=inch(edge), **facts).N_ag.quantity

    assert strength(c * share) <= strength(c) * (1 + 1e-12)


@LAW
@forall(length, closer)
def test_a_nearer_joint_never_gives_more_masonry(c: float, share: float) -> None:
    facts = {"f_m": STRENGTH, "h_ef": inch(4), "A_Nm": given("A_Nm", 100.0, "in2", "law")}
    far, near = (masonry.masonry_breakout(AC58, edge=inch(c * k), **facts).N_mbg.quantity for k in (1.0, share))
    assert near <= far


@LAW
@forall(some.floats(20, 400), some.floats(20, 400), closer)
def test_a_nearer_side_edge_never_gives_more_shear_in_europe(c_1: float, c_2: float, share: float) -> None:
    def strength(side: float) -> float:
        facts = {"d": 12.0, "l_f": 80.0, "f": 25.0, "c_1": c_1, "c_2": side, "k_9": 1.7, "gamma_Mc": 1.5}
        values = {name: given(name, number, "", "law") for name, number in facts.items()}
        return en_shear.concrete_edge(EN, **values).V_Rd_c.quantity

    assert strength(c_2 * share) <= strength(c_2) * (1 + 1e-12)


@LAW
@forall(some.floats(0, 150), some.floats(0, 150), some.floats(0, 50), some.sampled_from(["sum", "powers"]))
def test_more_load_never_turns_a_failure_into_a_pass(n: float, v: float, more: float, form: str) -> None:
    def holds(n_lb: float, v_lb: float) -> bool:
        loads = {"N_ua": given("N_ua", n_lb, "lb", "law"), "V_ua": given("V_ua", v_lb, "lb", "law")}
        hundred = given("phi_R", 100.0, "lb", "law")
        found = interaction(ACI, phi_N=hundred, phi_V=hundred, form=form, **loads)  # type: ignore[arg-type]
        return found.demand.quantity <= found.limit.quantity

    if holds(n + more, v) or holds(n, v + more):
        assert holds(n, v)
