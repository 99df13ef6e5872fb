"""NFPA 54, National Fuel Gas Code: distance of ignition sources from relief vents. Read by the siting engine."""
