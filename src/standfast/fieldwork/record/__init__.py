"""The field record: what was done, read, photographed and signed, as chained logs; and what follows from it."""
