"""International Residential Code: where energy storage may stand in and at a house. Read by the siting engine."""
