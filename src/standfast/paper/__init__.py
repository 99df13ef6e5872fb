"""Pages and drawings. Knows no rule."""
