"""Naumann et al.: how iron phosphate cells age, on the shelf and in use."""
