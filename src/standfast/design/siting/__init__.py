"""Where battery units may stand: rules measured exactly, in whole tenths of a millimetre.

``solid`` measures, ``layout`` is what is judged, ``asking`` binds a rule to the edition that states it, the modules
named after subjects hold the rules, ``ruling`` sums up. ``ground`` makes a wall of a job ready, ``several`` chooses the
places of its units with ``search``, ``judged`` judges them, ``whole`` is the entry, ``later`` tells of one unit more.
"""

from standfast.design.siting import rules

__all__ = ["rules"]
"""Entered first, so that the order of the checks is the same whatever is imported."""
