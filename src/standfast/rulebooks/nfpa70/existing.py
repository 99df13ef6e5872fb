"""Existing branch circuits that are moved: when arc-fault protection is asked of them."""

from standfast.sheet import Value, chosen
from standfast.shelf import Edition


def short_extension(book: Edition, added: Value) -> bool:
    """Whether a circuit is made so little longer that protection is not asked (210.12, exception).

    Args:
        book: the code.
        added: length of conductor added outside enclosures and boxes, in ft; no outlet or device is added.
    """
    return not added.missing and added.quantity <= book.number("extension_free").quantity


def arc_fault_out_of_scope(book: Edition, breaker: Value, connected: Value, serves: Value) -> str:
    """Why arc-fault protection is not asked of a branch circuit of a dwelling; empty where it is, or may be.

    Args:
        book: the code.
        breaker: rating of its breaker, in A.
        connected: ``line to line``, ``line to neutral`` or ``both``.
        serves: words, the rooms in which its outlets are.
    """
    if not connected.missing and connected.word == "line to line":
        return "its loads are connected line to line: it is no 120-volt circuit"
    most = book.number("arc_fault_rating")
    if not breaker.missing and breaker.quantity > most.quantity:
        return f"its breaker is rated above {most.quantity:g} A"
    if not serves.missing and not set(_words(serves)) & set(_words(book.number("arc_fault_areas"))):
        return f"its outlets are in rooms that are not named: {', '.join(_words(serves))}"
    return ""


def second_electrode(book: Edition, kinds: Value) -> Value:
    """Whether the electrodes do not rest on a water pipe alone, yes or no (250.53(D)(2)).

    Args:
        book: the code.
        kinds: words, the electrodes that are there.
    """
    clause = book.clause("second_electrode")
    alone = not kinds.missing and set(_words(kinds)) == {"metal water pipe"}
    return chosen("supplemented", not alone, "", "a metal water pipe is not the only electrode", clause, kinds)


def _words(value: Value) -> tuple[str, ...]:
    return value.number if isinstance(value.number, tuple) else ()
