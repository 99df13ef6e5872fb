"""The language catalogue of what people read."""
