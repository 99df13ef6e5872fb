"""Data sheets of equipment, and their reader. The shipped sheets are invented."""

from standfast.equipment.read import DataSheet, Reading, find, read

__all__ = ["DataSheet", "Reading", "find", "read"]
