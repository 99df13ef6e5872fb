"""Tightening of bolted joints (VDI 2230 part 1)."""
