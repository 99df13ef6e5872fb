"""Protection against faults: how fast, by what, and the earthing conductor."""

from standfast.faults import NotInEdition
from standfast.sheet import Value, chosen
from standfast.shelf import Edition

_KINDS = ("A", "F", "B")
"""Kinds of residual current device: each sees what those before it see."""


def disconnection_time(book: Edition, earthing: str, *, final: bool) -> Value:
    """Longest disconnection time in s at 230 V.

    NotInEdition for other earthing than that by a multiple earthed neutral, which is the only one that is held.
    """
    if earthing not in book.table("earthing").column("earthing"):
        raise NotInEdition(f"{book.short} {book.edition}: no disconnection time is held for {earthing} supplies")
    return book.table("disconnection_times").pick("t_max", "longest", circuit="final" if final else "distribution")


def trip_multiple(book: Edition, curve: str) -> Value:
    """Multiple of its rating at which a breaker of a curve, a letter, trips at once."""
    return book.table("instantaneous_trips").pick("n_trip", "multiple", curve=curve)


def earthing_conductor(book: Edition, area: Value) -> Value:
    """Least copper earthing conductor in mm2 by the area of the active conductor in mm2."""
    return book.table("earthing_conductors").look("S_p", "earth", area=area)


def residual_time(book: Edition, multiple: Value, *, delayed: bool) -> Value:
    """Longest tripping time in s at a multiple of the rated residual current; OutsideTable where it need not trip."""
    if multiple.missing:
        return multiple
    table, kind = book.table("residual_times"), "yes" if delayed else "no"
    return table.look("t_rcd", "longest", delayed=kind, multiple=multiple)


def kinds_enough(book: Edition, asked: Value) -> Value:
    """The kinds of residual current device that may be put in and see what the maker of the inverter asks for.

    Args:
        book: AS/NZS 3000.
        asked: kind that the maker asks for: ``A``, ``F`` or ``B``; ``none`` where he asks for none.
    """
    allowed = book.number("residual_kinds")
    least, words = (
        "A" if asked.word == "none" else asked.word,
        allowed.number if isinstance(allowed.number, tuple) else (),
    )
    enough = tuple(sorted(each for each in _KINDS[_KINDS.index(least) :] if each in words))
    how = f"the maker asks for type {asked.word}"
    return chosen("kinds", enough, "", how, book.clause("residual_kind"), asked, allowed)
