"""Sessions: who is signed in. What the browser shows is random; only its hash is kept, and two clocks run it out."""

from datetime import datetime, timedelta
from typing import NamedTuple

from standfast.foreman.office import accounts
from standfast.foreman.office.cabinet import Cabinet, hashed, packed, secret, stamp, unpacked, until
from standfast.store.interface import Person

IDLE = timedelta(hours=1)
LONGEST = timedelta(hours=12)
"""A day's work: after it everybody signs in again."""
_TOUCHED = timedelta(minutes=1)
_SESSION, _AGE = "session", "signed out"


class Session(NamedTuple):
    """Somebody who is signed in, and the text that the browser shows for it."""

    person: Person
    token: str


def start(store: Cabinet, person: Person, now: datetime, before: str = "") -> str:
    """Begin a session; what was shown before counts no longer.

    Returns:
        What the browser will show.
    """
    end(store, before, now)
    # Looking through them throws those away that have run out.
    list(store.keys(_SESSION, stamp(now)))
    token = secret()
    _keep(store, token, {"person": person.id, "from": stamp(now), "age": _age(store, person.id, now)}, now, now)
    return token


def session(store: Cabinet, token: str, now: datetime) -> Session | None:
    """The session of a text that a browser shows; None where it counts no longer."""
    told = unpacked(store.get(_SESSION, hashed(token), stamp(now))) if token else None
    if told is None:
        return None
    began = datetime.fromisoformat(told["from"])
    person = accounts.person(store, told["person"])
    if person is None or now - began >= LONGEST or told["age"] != _age(store, told["person"], now):
        return None
    if now - datetime.fromisoformat(told["seen"]) >= _TOUCHED:
        _keep(store, token, told, began, now)
    return Session(person, token)


def end(store: Cabinet, token: str, now: datetime) -> None:
    """Sign out."""
    if token:
        store.take(_SESSION, hashed(token), stamp(now))


def end_all(store: Cabinet, person: Person, now: datetime) -> None:
    """Sign a person out everywhere: sessions that began before count no longer."""
    store.put(_AGE, person.id, secret())


def _age(store: Cabinet, person: str, now: datetime) -> str:
    """Changes when a person is signed out everywhere."""
    return store.get(_AGE, person, stamp(now)) or ""


def _keep(store: Cabinet, token: str, told: dict[str, str], began: datetime, now: datetime) -> None:
    ends = min(now + IDLE, began + LONGEST)
    store.put(_SESSION, hashed(token), packed({**told, "seen": stamp(now)}), until(ends, timedelta()))
