"""NFPA 70E: electrical safety in the workplace."""
