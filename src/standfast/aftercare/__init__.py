"""Service and removal, from the house as built: steps, days, repeated tests, and what the rules of carriage ask."""
