"""Loads on equipment (ASCE 7): earthquake on nonstructural components, load combinations, wind pressure."""
