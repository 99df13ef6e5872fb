"""The design of one installation: siting, wiring, anchorage, labels."""
