"""The order of the work: one order in which it can be done, and what holds in every order that the steps allow."""
