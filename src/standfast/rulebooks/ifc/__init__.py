"""International Fire Code as a state adopts it."""
