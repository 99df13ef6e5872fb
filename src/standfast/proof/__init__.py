"""Runs published cases against the calculators that the job uses."""

from standfast.proof.run import Outcome, prove

__all__ = ["Outcome", "prove"]
