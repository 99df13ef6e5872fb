"""The price list that orders choices which are all allowed. It decides no verdict."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import NamedTuple

import tomli


class Prices(NamedTuple):
    """Prices in one currency: whether they are invented, its name, the price of one piece by the id of its sheet."""

    invented: bool
    currency: str
    piece: Mapping[str, float]


@cache
def shipped() -> Prices:
    """The invented price list of the package."""
    data = tomli.loads((files("standfast.equipment") / "prices.toml").read_text("utf-8"))
    return Prices(data["invented"], data["currency"], data["piece"])
