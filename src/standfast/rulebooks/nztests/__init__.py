"""A list of tests as New Zealand electricians use it."""
