"""The settings sheet: what the inverter of a job is set to on the grid, by which rule, and how it is read back.

A unit that trips too early or feeds on too long was set wrongly, and nobody sees it on the wall. The sheet states every
setting that the grid profile of the job asks for, each with its clause, who asks it and its allowed range, ready to be
ticked on site or read back by a program.
"""

from standfast.design.settings.setting import Point, Profile, Setting, SettingsSheet
from standfast.design.settings.whole import settings

__all__ = ["Point", "Profile", "Setting", "SettingsSheet", "settings"]
