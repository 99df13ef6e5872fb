"""What every concrete mode asks of the concrete: strength that counts, extent of a projected area, edge factor."""

from collections.abc import Sequence

from standfast.sheet import Clause, Value, chosen, total, work, worst
from standfast.shelf import Edition


def concrete_strength(book: Edition, f_c: Value, install: str) -> Value:
    """Concrete strength that may be put into the formulas, psi.

    Args:
        book: the edition in force.
        f_c: specified compressive strength, psi.
        install: ``cast-in`` or ``post-installed``.

    Source: ACI 318 17.3.1.
    """
    key = "concrete_strength_cast_in" if install == "cast-in" else "concrete_strength_post_installed"
    return work("f_c_used", "min(f_c, f_c_max)", "psi", book.clause("concrete_strength"), book.number(key), f_c=f_c)


def extent(
    symbol: str, clause: Clause, reach: Value, near: Value | None, spacings: Sequence[Value], far: Value | None
) -> Value:
    """Side of a projected area, in: from edge or reach on one side, over the gaps, to edge or reach on the other.

    A gap wider than twice the reach counts as two reaches, so an area never exceeds that of as many single anchors.

    Args:
        symbol: symbol of the result.
        clause: the clause that defines the area.
        reach: how far the body of one anchor spreads, in.
        near: edge distance on one side, in; None where the concrete goes on far enough.
        spacings: gaps between the rows, in.
        far: edge distance on the other side, in; None as for `near`.
    """
    parts = [_side(clause, reach, near)]
    parts += [work("s_used", "min(s, 2 * c_reach)", "in", clause, s=gap, c_reach=reach) for gap in spacings]
    parts.append(_side(clause, reach, far))
    return total(symbol, parts, "in", clause)


def edge_factor(book: Edition, symbol: str, clause: Clause, reach: Value, edges: Sequence[Value | None]) -> Value:
    """Loss by the nearest edge, never above 1: 0.7 + 0.3 c / reach. One where no edge is near."""
    near = [edge for edge in edges if edge is not None]
    if not near:
        return chosen(symbol, 1.0, "1", "no edge is near", clause, reach)
    base, slope = book.number("edge_base"), book.number("edge_slope")
    nearest = worst("c_a_min", near, "min", clause)
    text = "min(1, a_ed + b_ed * c_a_min / c_reach)"
    return work(symbol, text, "1", clause, base, slope, nearest, c_reach=reach)


def _side(clause: Clause, reach: Value, edge: Value | None) -> Value:
    if edge is None:
        return work("c_side", "c_reach", "in", clause, c_reach=reach)
    return work("c_side", "min(c_a, c_reach)", "in", clause, c_a=edge, c_reach=reach)
