"""The label schedule, derived from the installation: one name per device, wording and place by clause."""

from standfast.design.labels.schedule import Label, schedule

__all__ = ["Label", "schedule"]
