"""AS/NZS 5139: safety of battery systems for use with power conversion equipment."""
