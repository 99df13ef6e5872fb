"""Velocity pressure of the wind (ASCE 7-16 26.10) in the metric form of the clause."""

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
