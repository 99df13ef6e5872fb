"""Published papers on direct-current arcs."""
