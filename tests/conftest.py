"""One profile for every law: no deadline, since a first lazy import is slow; the same cases in every run."""

from hypothesis import settings

settings.register_profile("standfast", deadline=None, derandomize=True)
settings.load_profile("standfast")
