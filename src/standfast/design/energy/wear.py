"""What wear may cost before cycling stops paying."""

from standfast.sheet import Value, work


def break_even(buy: Value, value: Value, eta_ch: Value, eta_dis: Value) -> Value:
    """Wear price per stored kWh at which a kWh through the battery neither earns nor loses.

    Args:
        buy: cost of the charging energy per ac kWh.
        value: what the discharged energy is worth per ac kWh.
        eta_ch: stored energy per ac energy.
        eta_dis: ac energy per stored energy.
    """
    text = "v * eta_dis - b / eta_ch"
    return work("w", text, "1/kWh", None, v=value, b=buy, eta_dis=eta_dis, eta_ch=eta_ch)
