"""Enters every rule of siting."""

from standfast.design.siting import energy, openings, places, surroundings, vehicles, working_space, zones
from standfast.design.siting.asking import RULES, Ask, bound, judge, stated

__all__ = [
    "RULES",
    "Ask",
    "bound",
    "energy",
    "judge",
    "openings",
    "places",
    "stated",
    "surroundings",
    "vehicles",
    "working_space",
    "zones",
]
