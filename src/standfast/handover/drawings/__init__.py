"""Drawings of the job: each is made once, from the survey and the design."""
