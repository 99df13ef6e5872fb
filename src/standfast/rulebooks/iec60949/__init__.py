"""IEC 60949: thermally permissible short-circuit currents of cables."""
