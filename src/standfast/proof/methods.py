"""Which adapter answers which method. An adapter turns words and numbers of a case into a call of a calculator."""

from collections.abc import Callable
from importlib import import_module
from typing import Any

from standfast.proof.inputs import Inputs

Adapter = Callable[[Inputs], dict[str, Any]]
_KNOWN: dict[str, Adapter] = {}

ADAPTERS: dict[str, str] = {
    "nec": "nec_circuits",
    "nec.load": "nec_loads",
    "nec.cooking_demand": "nec_loads",
    "nec.motor": "nec_loads",
    "nec.raceway_fill": "nec_raceways",
    "nec.box_fill": "nec_raceways",
    "drop": "voltage_drop",
    "fault": "fault_current",
    "bs7671": "uk",
    "g98": "uk",
    "iec60949": "iec",
    "iec62446": "iec",
    "asnzs3000": "australia",
    "asnzs4777": "australia",
    "asnzs5139": "australia",
    "niosh": "lifting",
    "seismic": "earthquake",
    "anchorage": "earthquake",
    "wind": "earthquake",
    "nds": "wood",
    "bolt": "bolts",
    "aci318": "concrete",
    "en1992_4": "concrete",
    "ac58": "masonry",
    "tms402": "masonry",
    "siting": "siting",
    "code": "limits",
    "label": "limits",
    "grid": "grid_settings",
    "power": "grid_settings",
    "safety": "arcs",
    "arc": "arcs",
    "thermal": "arcs",
    "modbus": "fieldbus",
    "fieldbus": "fieldbus",
    "sunspec": "sunspec",
    "transport": "transport",
    "fire": "transport",
    "au": "transport",
    "energy.outage": "outage",
    "energy.dispatch": "dispatch",
    "energy.bill": "dispatch",
    "energy.rule": "dispatch",
    "energy.wear": "dispatch",
    "energy.clock": "clock",
    "pv": "sun",
    "ageing": "ageing",
    "reliability": "supply",
    "load": "supply",
    "inverter": "supply",
}
"""Method, or the part of it before a dot, to the module of this room that holds its adapter."""


def method(name: str) -> Callable[[Adapter], Adapter]:
    """Enter an adapter under the dotted key of its method."""

    def enter(adapter: Adapter) -> Adapter:
        _KNOWN[name] = adapter
        return adapter

    return enter


def adapter_of(name: str) -> Adapter | None:
    """The adapter of a method; None where no calculator answers it."""
    if name not in _KNOWN:
        head = name
        while head and head not in ADAPTERS:
            head = head.rpartition(".")[0]
        if head:
            import_module(f"standfast.proof.{ADAPTERS[head]}")
    return _KNOWN.get(name)
