"""Efficiency of an inverter, weighted by how often it runs at each load."""

from collections.abc import Sequence
from typing import Literal

from standfast.faults import OutsideTable
from standfast.sheet import Value, total, work
from standfast.shelf import Edition

Weighting = Literal["euro", "cec"]


def load_points(book: Edition, weighting: Weighting) -> list[float]:
    """Loads in per cent of the rated power at which the efficiency counts."""
    return [float(each) for each in book.table(weighting).column("load_pct")]


def weights(book: Edition, weighting: Weighting) -> list[Value]:
    """Weight of each load point."""
    return [book.table(weighting).pick("w", "weight", load_pct=load) for load in load_points(book, weighting)]


def weighted_efficiency(book: Edition, weighting: Weighting, efficiencies: Sequence[Value]) -> Value:
    """Weighted efficiency in per cent, from those at the load points in per cent.

    Raises:
        OutsideTable: where there is not one efficiency for each load point.
    """
    clause, each_weight = book.clause(weighting), weights(book, weighting)
    if len(efficiencies) != len(each_weight):
        points = ", ".join(f"{load:g}" for load in load_points(book, weighting))
        raise OutsideTable(f"{clause} asks for efficiencies at {points} per cent of the load")
    parts = [
        work("eta_w", "w * eta", "%", clause, w=weight, eta=eta)
        for weight, eta in zip(each_weight, efficiencies, strict=True)
    ]
    return total("eta_weighted", parts, "%", clause)
