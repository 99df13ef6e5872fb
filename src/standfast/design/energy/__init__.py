"""Energy of a house with a battery: how long it lasts in an outage, what it costs, and the clock that tariffs go by.

Plain lists of numbers go in and named tuples come out, since a year has 35 040 quarter hours; a job wraps results once.
"""
