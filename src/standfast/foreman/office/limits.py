"""How often somebody may try: sign in, enrol a tablet, use a link. Counted in the store: a restart forgets none.

Each attempt is a line of its own that runs out; two at one moment are two lines, and none is lost.
"""

from datetime import datetime, timedelta
from typing import NamedTuple

from standfast.foreman.office.cabinet import Cabinet, Refused, hashed, secret, stamp, until


class Limit(NamedTuple):
    """So many attempts within so long."""

    most: int
    within: timedelta


WINDOW = timedelta(minutes=15)
SIGN_IN = {"account and address": Limit(5, WINDOW), "address": Limit(30, WINDOW), "account": Limit(50, WINDOW)}
"""Few for one account from one place; many for the account from all places, since else anybody could lock it."""
ENROL = {"address": Limit(10, WINDOW), "anybody": Limit(100, WINDOW)}
PASSKEY = {"address": Limit(60, WINDOW)}
LINK = {"address": Limit(20, WINDOW)}


def attempt(store: Cabinet, what: str, limits: dict[str, Limit], names: dict[str, str], now: datetime) -> None:
    """Count an attempt.

    Args:
        what: what is tried, a word.
        limits: by what is counted.
        names: of each, who it is: an address, the name of an account.

    Raises:
        Refused: where there were too many already; that one is not counted. Of many at one moment more may be refused
            than had to be, and never fewer: each writes its line before it counts.
    """
    mine = {by: _who(names[by]) + secret() for by in limits}
    _stop(store, what, limits, names, now, least=1)
    for by, limit in limits.items():
        store.put(_kind(what, by), mine[by], "", until(now, limit.within))
    try:
        _stop(store, what, limits, names, now, least=0)
    except TooOften:
        for by, key in mine.items():
            store.take(_kind(what, by), key, stamp(now))
        raise


def _stop(
    store: Cabinet, what: str, limits: dict[str, Limit], names: dict[str, str], now: datetime, *, least: int
) -> None:
    """Raise where there are too many, with `least` more to come."""
    for by, limit in limits.items():
        if len(_counted(store, what, by, names[by], now)) + least > limit.most:
            minutes = int(limit.within.total_seconds() // 60)
            raise TooOften("That was tried too often.", "Guessing is stopped by waiting.", f"Wait {minutes} minutes.")


def forgive(store: Cabinet, what: str, by: str, name: str, now: datetime) -> None:
    """Forget the attempts that led to a success."""
    for key in _counted(store, what, by, name, now):
        store.take(_kind(what, by), key, stamp(now))


class TooOften(Refused):
    """Something was tried more often than anybody needs."""


def _counted(store: Cabinet, what: str, by: str, name: str, now: datetime) -> list[str]:
    """Lines of the attempts of one; looking through them throws those away that have run out."""
    who = _who(name)
    return [key for key in store.keys(_kind(what, by), stamp(now)) if key.startswith(who)]


def _kind(what: str, by: str) -> str:
    return f"tries {what} {by}"


def _who(name: str) -> str:
    return hashed(name.casefold())[:32] + " "
