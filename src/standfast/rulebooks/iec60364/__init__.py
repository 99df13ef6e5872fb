"""IEC 60364-5-52: wiring systems, the tables that national rules are made from."""
