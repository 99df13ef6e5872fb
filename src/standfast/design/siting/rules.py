"""Enters every rule of siting."""

from standfast.design.siting import (
    energy,
    instructions,
    openings,
    places,
    rooms,
    surroundings,
    vehicles,
    wishes,
    working_space,
    zones,
)
from standfast.design.siting.asking import RULES, Ask, bound, judge, stated, unstated

__all__ = [
    "RULES",
    "Ask",
    "bound",
    "energy",
    "instructions",
    "judge",
    "openings",
    "places",
    "rooms",
    "stated",
    "surroundings",
    "unstated",
    "vehicles",
    "wishes",
    "working_space",
    "zones",
]
