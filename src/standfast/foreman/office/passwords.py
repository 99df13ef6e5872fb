"""Passwords: what is accepted, how they are kept, how one is compared.

Long ones are asked for and nothing else: no classes of characters, no change by the calendar. They are kept as Argon2id
hashes (RFC 9106) with the second recommended setting of that document as the library has it: 64 MiB, three passes.
"""

import threading
import unicodedata
from functools import cache
from importlib.resources import files
from itertools import pairwise

LEAST_CHARACTERS = 12
MOST_CHARACTERS = 200
"""Beyond that nobody types, and hashing would be a way to keep the machine busy."""
_AT_ONCE = threading.BoundedSemaphore(2)
"""Each comparison takes 64 MiB: more than two at once wait for one another."""


def refusal(password: str, *names: str) -> str:
    """Why a password is not accepted, as a word of the catalogue under ``office.password_``; empty where it is."""
    plain = _plain(password)
    if len(plain) < LEAST_CHARACTERS:
        return "short"
    if len(plain) > MOST_CHARACTERS:
        return "long"
    small = plain.casefold()
    if small in _commonest() or len(set(small)) < 4 or _counts_on(small):
        return "common"
    if any(name and small.replace(name.casefold(), "") in ("", "1", "12", "123", "1234") for name in names):
        return "name"
    return ""


def kept(password: str) -> str:
    """The hash of a password, with its salt and setting."""
    from argon2 import PasswordHasher

    with _AT_ONCE:
        return PasswordHasher().hash(_plain(password))


def right(secret: str, password: str) -> bool:
    """True where the password is that of the hash. It takes as long where there is no account."""
    from argon2 import PasswordHasher
    from argon2.exceptions import Argon2Error, InvalidHashError

    if len(password) > MOST_CHARACTERS:
        return False
    with _AT_ONCE:
        try:
            return PasswordHasher().verify(secret or _nobody(), _plain(password)) and bool(secret)
        except (Argon2Error, InvalidHashError):
            return False


def _plain(password: str) -> str:
    """One text however the keyboard put the accents together."""
    return unicodedata.normalize("NFKC", password)


def _counts_on(text: str) -> bool:
    """True for a run of neighbours: 123456789012, abcdefghijkl, and both backwards."""
    steps = {ord(right) - ord(left) for left, right in pairwise(text)}
    return steps <= {1, -9} or steps <= {-1, 9}


@cache
def _commonest() -> frozenset[str]:
    text = (files("standfast.foreman.office") / "commonest.txt").read_text("utf-8")
    return frozenset(line for line in text.split("\n") if line and not line.startswith("#"))


@cache
def _nobody() -> str:
    """A hash that no password has, for the comparison where there is no account."""
    from argon2 import PasswordHasher

    from standfast.foreman.office.cabinet import secret

    return PasswordHasher().hash(secret())
