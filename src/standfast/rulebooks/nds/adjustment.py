"""Adjustment factors of fasteners, combined loading, and where a fastener may stand (NDS 2.3, 11.3, 12.1 to 12.5)."""

from standfast.faults import OutsideTable
from standfast.sheet import Value, missing, work
from standfast.shelf import Edition


def load_duration(book: Edition, duration: str) -> Value:
    """C_D by the shortest load of a combination: ``permanent``, ``ten years``, ``ten minutes`` (wind, earthquake)…"""
    return book.table("load_duration").pick("C_D", "C_D", duration=duration)


def temperature(book: Edition, moisture: str, celsius: Value) -> Value:
    """C_t by the sustained temperature of the wood in °C; ``dry`` or ``wet``."""
    fahrenheit = work("t_F", "t * 9 / 5 + 32", "°F", None, t=celsius)
    return book.table("temperature").look("C_t", "C_t", moisture=moisture, t_F=fahrenheit)


def moisture(book: Edition, in_service: str, load: str) -> Value:
    """C_M by moisture in service (``dry`` up to 19 %, ``wet``) and load (``withdrawal`` or ``lateral``)."""
    return book.table("wet_service").pick("C_M", "C_M", load=load, in_service=in_service)


def specific_gravity(book: Edition, species: str) -> Value:
    """G of a species group as its grade stamp names it."""
    return book.table("specific_gravity").pick("G", "G", species=species)


def specific_gravity_unknown(book: Edition, why: str) -> Value:
    """G where nobody knows the species: the least of the table, safe for every one; `why` says what to find out."""
    return book.bounding("specific_gravity_least", why, "G")


def adjusted(symbol: str, book: Edition, reference: Value, C_D: Value, C_M: Value, C_t: Value) -> Value:
    """A reference value of a fastener with the factors that matter in side grain of a stud: load, moisture, heat."""
    return work(symbol, "R * C_D * C_M * C_t", reference.unit, book.clause("adjustment"), R=reference, C_D=C_D,
                C_M=C_M, C_t=C_t)  # fmt: skip


def combined(book: Edition, W_adjusted: Value, Z_adjusted: Value, alpha: Value) -> Value:
    """Z'_alpha: what a lag or wood screw holds when it is pulled and sheared at once (12.4.1), lb.

    Args:
        book: the edition.
        W_adjusted: adjusted withdrawal value of the fastener, lb.
        Z_adjusted: adjusted lateral value, lb.
        alpha: angle of the resultant from the surface of the wood, degrees: 0 is pure shear.
    """
    text = "W_p * Z / (W_p * cos(alpha * pi / 180) ** 2 + Z * sin(alpha * pi / 180) ** 2)"
    return work("Z_alpha", text, "lb", book.clause("combined"), W_p=W_adjusted, Z=Z_adjusted, alpha=alpha)


def least_penetration(book: Edition, fastener: str, D: Value) -> Value:
    """Least length of a fastener in the main member under lateral load, in."""
    n = book.number(f"penetration_{fastener}")
    return work("p_min", "n_D * D", "in", book.clause(f"penetration_{fastener}"), n, D=D)


def least_edge(book: Edition, D: Value) -> Value:
    """Least distance from the middle of a fastener to the edge of the wood, load along the grain, in."""
    return work("e_min", "n_D * D", "in", book.clause("edge_distance"), book.number("edge_parallel"), D=D)


def least_loaded_edge(book: Edition, D: Value) -> Value:
    """Least distance to an edge that the load pushes towards, across the grain, in."""
    return work("e_min", "n_D * D", "in", book.clause("edge_distance"), book.number("edge_loaded"), D=D)


def least_spacing(book: Edition, D: Value) -> Value:
    """Least spacing between fasteners in a row for the full value, in."""
    return work("s_min", "n_D * D", "in", book.clause("spacing"), book.number("spacing_in_row"), D=D)


def lag(book: Edition, symbol: str, column: str, size: str) -> Value:
    """A dimension or strength of a lag screw by its size: ``D``, ``D_r``, ``E`` (in), ``F_yb`` (psi)."""
    return book.table("lag_screws").pick(symbol, column, size=size)


def lag_thread(book: Edition, L: Value) -> Value:
    """T: threaded length of a lag screw of length L with its tip, in."""
    half, most = book.number("lag_thread_more"), book.number("lag_thread_most")
    return work("T", "min(L, min(L / 2 + T_more, T_most))", "in", book.clause("lag_thread"), half, most, L=L)


def wood_screw(book: Edition, symbol: str, column: str, size: str) -> Value:
    """A dimension of a wood screw by its number: ``D`` and ``D_r``, in."""
    return book.table("wood_screws").pick(symbol, column, size=size)


def bending_yield(book: Edition, D: Value) -> Value:
    """F_yb of a wood screw or nail by its diameter, psi."""
    if D.missing:
        return missing("F_yb", "psi", D.how, D)
    if D.quantity < book.number("bending_yield_from").quantity:
        raise OutsideTable(f"{book.clause('bending_yield')} begins above {D.quantity:g} in")
    return book.table("bending_yield").look("F_yb", "F_yb", D=D)
