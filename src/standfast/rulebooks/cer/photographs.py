"""Whether an installation needs photographs that carry place and time."""

from standfast.sheet import Value, chosen, missing
from standfast.shelf import Edition


def required(book: Edition, installed: Value) -> Value:
    """Yes or no for the date of an installation, a word like ``2026-03-01``."""
    if installed.missing:
        return missing("photographs", "", installed.how, installed)
    first = book.number("photo_rule_from")
    # Dates with the year first stand in the order of their text.
    needed, clause = installed.word >= first.word, book.clause("photo_rule")
    return chosen("photographs", needed, "", f"the rule holds from {first.word}", clause, installed, first)
