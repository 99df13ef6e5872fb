"""The circuits of the unit: conductors, devices, sources, faults, disconnects; loads and backup stand beside them."""
