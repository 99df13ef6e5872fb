"""Lateral strength of dowel fasteners by the yield limit equations (NDS 12.3.1, Tables 12.3.1A and 12.3.1B)."""

from typing import NamedTuple

from standfast.faults import NotInEdition, OutsideTable
from standfast.sheet import Value, missing, work
from standfast.shelf import Edition


class Joint(NamedTuple):
    """One fastener through a side member into a main member; lengths in inches, strengths in psi.

    Attributes:
        D_nominal: nominal diameter.
        D: diameter in the yield equations: the root diameter of a threaded fastener.
        D_K: diameter put into K_D.
        F_yb: bending yield strength of the fastener.
        l_m: bearing length in the main member.
        l_s: bearing length in the side member (each side member in double shear).
        F_em: bearing strength of the main member.
        F_es: bearing strength of the side member.
        theta: greatest angle of load to grain, degrees.
        shear: ``single`` or ``double``.
    """

    D_nominal: Value
    D: Value
    D_K: Value
    F_yb: Value
    l_m: Value
    l_s: Value
    F_em: Value
    F_es: Value
    theta: Value
    shear: str


class Lateral(NamedTuple):
    """The reference lateral value in lb, the mode that governs, and the value of every mode."""

    Z: Value
    mode: str
    modes: dict[str, Value]


class Reduction(NamedTuple):
    """R_d of modes I, II, and III with IV."""

    I: Value  # noqa: E741 - the book names its modes so
    II: Value
    III: Value


def bearing_length(book: Edition, p: Value, E: Value) -> Value:
    """l_m of a fastener with a tapered tip: penetration less half the tip, in (12.3.5)."""
    l_m = work("l_m", "p - E / 2", "in", book.clause("bearing_length"), p=p, E=E)
    if not l_m.missing and l_m.quantity <= 0:
        raise OutsideTable(f"{l_m.clause}: the fastener does not reach into the main member")
    return l_m


def reduction(book: Edition, D_nominal: Value, D: Value, D_K: Value, theta: Value) -> Reduction:
    """R_d (Table 12.3.1B): by diameter for slender fasteners, by mode and angle of load for thick ones.

    A threaded fastener whose nominal diameter is large but whose root is slender takes K_D with the angle factor.
    """
    clause, edge = book.clause("reduction"), book.number("large_diameter")
    unknown = next((value for value in (D_nominal, D, D_K) if value.missing), None)
    if unknown is not None:
        lacking = missing("R_d", "1", unknown.how, unknown)
        return Reduction(lacking, lacking, lacking)
    slope = book.number("angle_slope")
    K_theta = work("K_theta", "1 + k_a * theta / 90", "1", clause, slope, theta=theta)
    if D.quantity < edge.quantity:
        K_D = _slender(book, D_K)
        R_d = K_D if D_nominal.quantity < edge.quantity else work("R_d", "K_D * K_theta", "1", clause, K_D, K_theta)
        return Reduction(R_d, R_d, R_d)
    factors = (book.number(f"reduction_{mode}", "k_R") for mode in ("I", "II", "III"))
    return Reduction(*(work("R_d", "k_R * K_theta", "1", clause, k_R, K_theta) for k_R in factors))


def strength(book: Edition, joint: Joint) -> Lateral:
    """Z: the least of the modes. NotInEdition for another kind of shear."""
    if joint.shear not in ("single", "double"):
        raise NotInEdition(f"{book.short} {book.edition}: shear is single or double, not {joint.shear!r}")
    R_d = reduction(book, joint.D_nominal, joint.D, joint.D_K, joint.theta)
    modes = _modes(book, joint, R_d)
    if any(value.missing for value in modes.values()):
        lacking = next(value for value in modes.values() if value.missing)
        return Lateral(missing("Z", "lb", lacking.how, lacking), "", modes)
    mode = min(modes, key=lambda name: modes[name].quantity)
    names = {f"Z_{name}": value for name, value in modes.items()}
    Z = work("Z", f"min({', '.join(names)})", "lb", book.clause("yield_limit"), **names)
    return Lateral(Z, mode, modes)


def _modes(book: Edition, joint: Joint, R_d: Reduction) -> dict[str, Value]:
    clause = book.clause("yield_limit")
    D, F_yb, l_m, l_s, F_em, F_es = joint.D, joint.F_yb, joint.l_m, joint.l_s, joint.F_em, joint.F_es
    R_e = work("R_e", "F_em / F_es", "1", clause, F_em=F_em, F_es=F_es)
    R_t = work("R_t", "l_m / l_s", "1", clause, l_m=l_m, l_s=l_s)
    n = 2 if joint.shear == "double" else 1
    times = f"{n} * " if n > 1 else ""

    def lb(name: str, text: str, R: Value, **named: Value) -> Value:
        return work(f"Z_{name}", text, "lb", clause, R_d=R, D=D, **named)

    k_3 = work("k_3", "-1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D ** 2 / (3 * F_em * l_s ** 2))", "1",
               clause, R_e, F_yb=F_yb, D=D, F_em=F_em, l_s=l_s)  # fmt: skip
    found = {
        "Im": lb("Im", "D * l_m * F_em / R_d", R_d.I, l_m=l_m, F_em=F_em),
        "Is": lb("Is", f"{times}D * l_s * F_es / R_d", R_d.I, l_s=l_s, F_es=F_es),
    }
    if n == 1:
        k_1 = work("k_1", "(sqrt(R_e + 2 * R_e ** 2 * (1 + R_t + R_t ** 2) + R_t ** 2 * R_e ** 3) - R_e * (1 + R_t))"
                   " / (1 + R_e)", "1", clause, R_e, R_t)  # fmt: skip
        k_2 = work("k_2", "-1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D ** 2 / (3 * F_em * l_m ** 2))", "1",
                   clause, R_e, F_yb=F_yb, D=D, F_em=F_em, l_m=l_m)  # fmt: skip
        found["II"] = lb("II", "k_1 * D * l_s * F_es / R_d", R_d.II, k_1=k_1, l_s=l_s, F_es=F_es)
        found["IIIm"] = lb("IIIm", "k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)", R_d.III, k_2=k_2, l_m=l_m,
                           F_em=F_em, R_e=R_e)  # fmt: skip
    found["IIIs"] = lb("IIIs", f"{times}k_3 * D * l_s * F_em / ((2 + R_e) * R_d)", R_d.III, k_3=k_3, l_s=l_s,
                       F_em=F_em, R_e=R_e)  # fmt: skip
    found["IV"] = lb("IV", f"{times}D ** 2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))", R_d.III, F_em=F_em,
                     F_yb=F_yb, R_e=R_e)  # fmt: skip
    return found


def _slender(book: Edition, D: Value) -> Value:
    least, edge = book.number("slender_least"), book.number("slender_diameter")
    if D.quantity <= edge.quantity:
        return work("K_D", "K_D0", "1", book.clause("reduction"), K_D0=least)
    slope, base = book.number("slender_slope"), book.number("slender_base")
    return work("K_D", "k_D * D + K_D1", "1", book.clause("reduction"), slope, base, D=D)
