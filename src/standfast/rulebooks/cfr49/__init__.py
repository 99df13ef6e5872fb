"""49 CFR: carriage of hazardous materials in the United States."""
