"""IEC 60909-0: short-circuit currents in three-phase a.c. systems."""
