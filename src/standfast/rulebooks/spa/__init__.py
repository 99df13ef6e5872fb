"""NREL/TP-560-34302: where the sun stands, to 0.0003 degrees from the year −2000 to 6000."""
