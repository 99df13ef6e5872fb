"""NREL/TP-6A20-62641: losses between the sun and the meter."""
