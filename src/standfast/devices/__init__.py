"""Read-only clients of open protocols. None is here yet."""
