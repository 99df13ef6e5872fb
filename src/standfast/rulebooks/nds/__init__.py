"""Fasteners in wood (NDS, allowable stress; lb, in, psi)."""
