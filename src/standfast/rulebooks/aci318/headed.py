"""Pullout and side-face blowout of headed anchors, ACI 318 17.6.3 and 17.6.4."""

from standfast.faults import OutsideTable
from standfast.rulebooks.aci318.concrete import concrete_strength
from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


def pullout(book: Edition, A_brg: Value, f_c: Value) -> Value:
    """Pullout strength of a headed stud or bolt in cracked concrete, lb.

    Args:
        book: the edition in force.
        A_brg: net bearing area of the head, in2.
        f_c: concrete strength, psi.

    Source: ACI 318 17.6.3.2.2.
    """
    strength, clause = concrete_strength(book, f_c, "cast-in"), book.clause("pullout_headed")
    return work("N_p", "k_p * A_brg * f_c_used", "lb", clause, strength, book.number("pullout_bearing"), A_brg=A_brg)


def pullout_in_concrete(book: Edition, N_p: Value, cracked: Value) -> Value:
    """Pullout strength in the concrete at hand, lb: of a head by formula, or of a product report. ACI 318 17.6.3.3."""
    clause = book.clause("pullout_cracking")
    if cracked.missing:
        return chosen("N_pn", 0.0, "lb", "", clause, cracked, N_p)
    factor = book.number("pullout_cracked" if cracked.yes else "pullout_uncracked")
    return work("N_pn", "psi_c_P * N_p", "lb", clause, factor, N_p=N_p)


def side_face(book: Edition, *, c_a1: Value, A_brg: Value, h_ef: Value, lambda_a: Value, f_c: Value) -> Value:
    """Side-face blowout strength of one headed anchor that is deep and close to an edge, lb.

    Args:
        book: the edition in force.
        c_a1: distance to the edge, in.
        A_brg: net bearing area of the head, in2.
        h_ef: embedment depth, in.
        lambda_a: factor of lightweight concrete.
        f_c: concrete strength, psi.

    Raises:
        OutsideTable: where the anchor is not deep against its edge distance; the clause then asks nothing.

    Source: ACI 318 17.6.4.1.
    """
    clause, deep = book.clause("side_face"), book.number("side_face_depth")
    known = not (h_ef.missing or c_a1.missing)
    if known and h_ef.quantity <= deep.quantity * c_a1.quantity:
        raise OutsideTable(f"{clause} asks nothing: {h_ef.quantity:g} in is not deep for {c_a1.quantity:g} in of edge")
    strength, factor = concrete_strength(book, f_c, "cast-in"), book.number("side_face_coefficient")
    text = "k_sb * c_a1 * sqrt(A_brg) * lambda_a * sqrt(f_c_used)"
    return work("N_sb", text, "lb", clause, factor, strength, c_a1=c_a1, A_brg=A_brg, lambda_a=lambda_a)
