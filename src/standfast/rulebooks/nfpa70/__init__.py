"""NFPA 70, National Electrical Code: small pure functions by subject; the numbers stand in the editions."""
