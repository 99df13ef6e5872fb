"""NFPA 855: where energy storage may stand at one- and two-family dwellings. Read by the siting engine."""
