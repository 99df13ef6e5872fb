"""Generators beside the grid: their conductors, and what they have to carry."""

from standfast.sheet import Check, Value, at_least, at_most, work
from standfast.shelf import Edition


def generator_conductors(book: Edition, output: Value) -> Value:
    """Least ampacity in A of the conductors between a generator and the first device outside it.

    Args:
        book: the code.
        output: rated output of the generator in A.
    """
    clause, factor = book.clause("generator_conductors"), book.number("generator_factor")
    return work("I_least", "k_gen * I_gen", "A", clause, factor, I_gen=output)


def automatic(book: Edition, id: str, output: Value, load: Value) -> Check:
    """A generator that takes over by itself carries the whole load that is joined to it, both in A."""
    title = "The generator carries all that it takes over by itself"
    return at_least(id, title, book.clause("standby_automatic"), output, load)


def conductors(book: Edition, id: str, usable: Value, output: Value) -> Check:
    """The conductors from a generator reach what its rated output asks."""
    title, clause = "Conductors of the generator", book.clause("generator_conductors")
    return at_most(id, title, clause, generator_conductors(book, output), usable)
