"""standfast: works out, proves and documents one home battery installation from a surveyed house and chosen equipment.

Only the names below are promised; everything else may change. They are loaded when they are asked for.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from standfast.faults import BadFormula, Fault, FaultsFound, NotInEdition, OutsideTable, Refusal, UnitMismatch
    from standfast.foreman.opened import Job, open_job
    from standfast.sheet import Check, Value

__version__ = "0.1.0"

_DOORS = {
    "Job": "standfast.foreman.opened",
    "open_job": "standfast.foreman.opened",
    "Check": "standfast.sheet",
    "Value": "standfast.sheet",
    "Fault": "standfast.faults",
    "FaultsFound": "standfast.faults",
    "Refusal": "standfast.faults",
    "NotInEdition": "standfast.faults",
    "OutsideTable": "standfast.faults",
    "UnitMismatch": "standfast.faults",
    "BadFormula": "standfast.faults",
}

__all__ = [
    "BadFormula",
    "Check",
    "Fault",
    "FaultsFound",
    "Job",
    "NotInEdition",
    "OutsideTable",
    "Refusal",
    "UnitMismatch",
    "Value",
    "open_job",
]


def __getattr__(name: str) -> object:
    """Load a promised name when it is asked for."""
    from importlib import import_module

    try:
        return getattr(import_module(_DOORS[name]), name)
    except KeyError:
        raise AttributeError(f"standfast promises no name {name!r}") from None
