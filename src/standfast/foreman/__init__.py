"""Runs the rooms in order. Alone touches disk and printer; holds no formula."""
