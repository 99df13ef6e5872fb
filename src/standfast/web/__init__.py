"""The pages. None is here yet."""
