"""Steel strength of an anchor, ACI 318 17.6.1 and 17.7.1. Also used for anchors in masonry, whose criteria cite it."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def usable_strength(book: Edition, f_uta: Value, f_ya: Value | None = None) -> Value:
    """Tensile strength that may be put into the formulas, psi.

    Args:
        book: the edition in force.
        f_uta: specified tensile strength of the anchor steel, psi.
        f_ya: its yield strength, psi; None where the product report gives no yield strength, and then only the
            upper limit counts.

    Source: ACI 318 17.6.1.2.
    """
    limit, clause = book.number("steel_strength_limit"), book.clause("steel_tension")
    if f_ya is None:
        return work("f_uta_used", "min(f_uta, f_uta_max)", "psi", clause, f_uta=f_uta, f_uta_max=limit)
    multiple = book.number("steel_yield_multiple")
    text = "min(f_uta, k_ya * f_ya, f_uta_max)"
    return work("f_uta_used", text, "psi", clause, multiple, f_uta=f_uta, f_ya=f_ya, f_uta_max=limit)


def steel_tension(book: Edition, A_se: Value, f_uta: Value, f_ya: Value | None = None) -> Value:
    """Nominal steel strength in tension, lb, of one anchor of effective area A_se in2. Source: ACI 318 17.6.1.2."""
    strength = usable_strength(book, f_uta, f_ya)
    return work("N_sa", "A_se * f_uta_used", "lb", book.clause("steel_tension"), strength, A_se=A_se)


def steel_shear(book: Edition, A_se: Value, f_uta: Value, k_V: Value, f_ya: Value | None = None) -> Value:
    """Nominal steel strength in shear, lb, of one anchor.

    Args:
        book: the edition in force.
        A_se: effective area in shear, in2.
        f_uta: specified tensile strength, psi.
        k_V: ``book.number("steel_shear_headed_stud")`` or ``book.number("steel_shear_other")``.
        f_ya: yield strength, psi, where known.

    Source: ACI 318 17.7.1.2.
    """
    strength = usable_strength(book, f_uta, f_ya)
    return work("V_sa", "k_V * A_se * f_uta_used", "lb", book.clause("steel_shear"), strength, k_V=k_V, A_se=A_se)
