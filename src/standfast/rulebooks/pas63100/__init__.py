"""PAS 63100: where battery storage may stand in and at a dwelling. Read by the siting engine."""
