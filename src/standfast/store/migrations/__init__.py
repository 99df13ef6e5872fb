"""The steps in which the tables of a database came to be, run by `standfast.store.schema`."""
