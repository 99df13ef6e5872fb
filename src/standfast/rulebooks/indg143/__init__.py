"""Guideline weights for lifting by hand, alone and as a team (HSE INDG143 and L23)."""
