"""ANSI/NETA MTS: maintenance testing, here the table of temperature differences."""
