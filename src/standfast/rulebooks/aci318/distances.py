"""Least spacing, edge distance and member thickness against splitting, ACI 318 17.9."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def least_spacing(book: Edition, d_a: Value, install: str, torqued: bool) -> Value:
    """Least gap between anchors, in, where the product report does not state one.

    Args:
        book: the edition in force.
        d_a: diameter, in.
        install: ``cast-in`` or ``post-installed``.
        torqued: whether the anchor is tightened to a torque.

    Source: ACI 318 17.9.2.
    """
    key = "spacing_cast_in" if install == "cast-in" and not torqued else "spacing_post_installed"
    return work("s_min", "k_s * d_a", "in", book.clause("distances"), book.number(key), d_a=d_a)


def least_edge_torqued(book: Edition, d_a: Value) -> Value:
    """Least edge distance of a cast-in anchor that is torqued, in; post-installed anchors go by their product report.

    Source: ACI 318 17.9.2.
    """
    return work("c_min", "k_e * d_a", "in", book.clause("distances"), book.number("edge_torqued"), d_a=d_a)


def greatest_depth(book: Edition, h_a: Value) -> Value:
    """Greatest embedment of a post-installed anchor in a member h_a in thick, in. Source: ACI 318 17.9.4."""
    return work(
        "h_ef_max", "k_ha * h_a", "in", book.clause("member_thickness"), book.number("depth_of_member"), h_a=h_a
    )
