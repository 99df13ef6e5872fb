"""The installation as one graph: what is there, what is joined to what, and who can feed it.

One-line diagram, source checks, labels and isolation are all derived from it, so a device has one name everywhere.
"""

from standfast.design.installation.graph import Installation, Link, Part

__all__ = ["Installation", "Link", "Part"]
