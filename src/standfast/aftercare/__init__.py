"""Service, removal, transport. Nothing is here yet."""
