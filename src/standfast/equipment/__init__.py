"""Data sheets of equipment, and their reader. The shipped sheets are invented."""
