"""AS/NZS 4777.2: inverters on the grid, their settings by region."""
