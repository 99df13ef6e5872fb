"""A public model guideline for permits of home storage. Read by the siting engine."""
