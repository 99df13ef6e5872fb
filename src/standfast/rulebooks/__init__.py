"""Editions of codes and standards as data, with the small pure functions that apply them. They know nothing of jobs."""
