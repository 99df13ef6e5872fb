"""The crew's day: how long each step takes, who does it and when, and when the house is without power."""
