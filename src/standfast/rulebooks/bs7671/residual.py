"""Residual current devices in a row: what blinds the one nearer to the supply, and which of them trips.

Kinds in rising order: AC (sinusoidal), A (pulsating d.c. too), F (mixed frequencies too), B (smooth d.c. too). A kind
sees all that those before it see.
"""

from standfast.sheet import Check, Value, at_least, chosen, is_, missing, not_applicable, work
from standfast.shelf import Edition


def upstream(book: Edition, id: str, title: str, device: Value, asked: Value) -> Check:
    """A device nearer to the supply is not blinded by what passes it from a circuit beyond.

    Smooth d.c. saturates every kind but B: where equipment may leak more of it than others bear, its maker asks for
    type B, and every residual current device that its leakage passes is then of type B, or does not stand in its way.

    Args:
        book: the wiring rules.
        id: of the check.
        title: of the check.
        device: the kind of the device upstream.
        asked: the kind that the maker of the equipment beyond it asks for.
    """
    clause = book.clause("residual_blinding")
    if asked.number == "none" or (not asked.missing and asked.word != "B"):
        reason = f"the maker asks for {asked.word}: no more smooth direct current than such devices bear"
        return not_applicable(id, title, clause, reason)
    if asked.missing:
        return is_(id, title, clause, device, missing("needed", "", asked.how, asked))
    needed = chosen("needed", "B", "", "every device that smooth direct current passes sees it", clause, asked)
    return is_(id, title, clause, device, needed)


def selective(book: Edition, id: str, title: str, above: Value, delayed: Value, below: Value) -> Check:
    """Of two devices in a row only the one nearer to the fault trips: that above is delayed and three times as great.

    Args:
        book: the wiring rules.
        id: of the check.
        title: of the check.
        above: rated residual current in A of the device nearer to the supply.
        delayed: whether that one is time-delayed.
        below: rated residual current in A of the other.
    """
    clause = book.clause("residual_selective")
    if delayed.missing or not delayed.yes:
        needed = chosen("needed", True, "", "a device without delay trips together with the one below it", clause)
        return is_(id, title, clause, delayed, needed)
    ratio = book.number("residual_ratio")
    least = work("I_dn_least", "k_dn * I_dn", "A", clause, k_dn=ratio, I_dn=below)
    return at_least(id, title, clause, above, least)
