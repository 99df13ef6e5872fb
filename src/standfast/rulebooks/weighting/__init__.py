"""Weightings of the efficiency of inverters: how often one runs at each load."""
