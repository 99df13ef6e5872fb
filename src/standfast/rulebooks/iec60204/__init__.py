"""IEC 60204-1: electrical equipment of machines, here for stored energy."""
