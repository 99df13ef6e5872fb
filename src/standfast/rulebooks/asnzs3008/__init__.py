"""AS/NZS 3008.1.1: selection of cables."""
