"""Tests that are due, their limits and verdicts."""
