"""Existing parts of the house that the chosen work brings under the adopted editions, and what is asked of them.

* `work`: which kinds of work the job does;
* `parts`: the existing parts, what was surveyed of them, and when an edition asks nothing of them;
* `whole`: trigger and facts → checks and rows, with adders.
"""
