"""Circuits in countries that count in square millimetres: one engine, and for each country the rules it asks."""
