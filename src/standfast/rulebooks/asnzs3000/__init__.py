"""AS/NZS 3000, Wiring Rules."""
