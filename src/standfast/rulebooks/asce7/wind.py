"""Velocity pressure of the wind (ASCE 7 26.10) in the metric form of the clause, and its force on a box (29.4.1).

The directionality factor stands in the pressure in the 2016 edition and in the force in the 2022 one; the product is
the same.
"""

from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, missing, work
from standfast.shelf import Edition


class Pressure(NamedTuple):
    """Exposure coefficient, ground elevation factor, and velocity pressure in Pa."""

    K_z: Value
    K_e: Value
    q_z: Value


def pressure(book: Edition, V: Value, exposure: str, z: Value, K_d: Value, K_zt: Value, z_ground: Value) -> Pressure:
    """Velocity pressure at a height.

    Args:
        book: the edition.
        V: basic wind speed, m/s.
        exposure: exposure category ``B``, ``C`` or ``D``.
        z: height over ground, m; lower than the least height counts as the least height.
        K_d: directionality factor.
        K_zt: topographic factor.
        z_ground: elevation of the ground over the sea, m.

    Raises:
        OutsideTable: for another exposure, or above the gradient height.
    """
    K_z = exposure_coefficient(book, exposure, z)
    c_e = book.number("air_density_slope")
    K_e = work("K_e", "exp(-c_e * z_g)", "1", book.clause("ground_elevation"), c_e, z_g=z_ground)
    text = "c_q * K_z * K_zt * K_d * K_e * V ** 2"
    q_z = work("q_z", text, "Pa", book.clause("velocity_pressure"), book.number("pressure_factor"), K_z, K_e,
               K_zt=K_zt, K_d=K_d, V=V)  # fmt: skip
    return Pressure(K_z, K_e, q_z)


def pressure_without_direction(book: Edition, V: Value, exposure: str, z: Value, K_zt: Value) -> Value:
    """Velocity pressure in Pa as the 2022 edition writes it: the directionality factor comes with the force.

    The ground elevation counts as 1, which the clause permits everywhere. Arguments as in `pressure`.

    Source: ASCE 7-22 26.10.2, 26.9.
    """
    K_z, K_e = exposure_coefficient(book, exposure, z), book.number("elevation_any")
    text = "c_q * K_z * K_zt * K_e * V ** 2"
    clause, c_q = book.clause("velocity_pressure"), book.number("pressure_factor")
    return work("q_z", text, "Pa", clause, c_q, K_z, K_e, K_zt=K_zt, V=V)


def on_box(book: Edition, q_z: Value, GC_r: Value, A_f: Value) -> Value:
    """Force of the wind on the face, or uplift on the top, of a box, N.

    Args:
        book: the edition.
        q_z: velocity pressure without the directionality factor, Pa.
        GC_r: gust and force coefficient together: ``book.bounding("box_coefficient", …)`` or ``"box_uplift"``.
        A_f: area of the face or the top, m2.

    Source: ASCE 7-22 29.4.1.
    """
    K_d = book.number("directionality_box")
    return work("F_w", "q_z * K_d * GC_r * A_f", "N", book.clause("box_force"), K_d, GC_r, q_z=q_z, A_f=A_f)


def exposure_coefficient(book: Edition, exposure: str, z: Value) -> Value:
    """K_z at a height in m for an exposure category."""
    table = book.table("exposure")
    alpha, z_top = (table.pick(name, name, exposure=exposure) for name in ("alpha", "z_top"))
    least, factor = book.number("least_height"), book.number("exposure_factor")
    if z.missing:
        return missing("K_z", "1", z.how, z)
    if z.quantity > z_top.quantity:
        raise OutsideTable(f"{book.clause('exposure')} ends at {z_top.quantity:g} m")
    return work("K_z", "c_z * (max(z, z_min) / z_top) ** (2 / alpha)", "1", book.clause("exposure"), factor, least,
                alpha, z_top, z=z)  # fmt: skip
