"""Accounts: who may use the office, in which role; and the one-time links by which an account is made."""

import uuid
from collections.abc import Sequence
from datetime import datetime, timedelta

from standfast.foreman.office import passwords
from standfast.foreman.office.cabinet import (
    Cabinet,
    Refused,
    hashed,
    one_line,
    packed,
    secret,
    stamp,
    unpacked,
    until,
)
from standfast.store.interface import Person
from standfast.words import languages

ROLES = ("office", "crew", "reader")
"""office: everything; crew: jobs and their records; reader: looks at records and changes nothing."""
INVITATION = timedelta(hours=24)
LONGEST_NAME = 80
_INVITED, _AWAY = "invitation", "withdrawn"


def invite(store: Cabinet, role: str, now: datetime) -> str:
    """A code by which one account of a role can be made, once, within a day."""
    if role not in ROLES:
        raise Refused(f"{role!r} is no role.", "", f"Take one of {', '.join(ROLES)}.")
    code = secret()
    store.put(_INVITED, hashed(code), packed({"role": role}), until(now, INVITATION))
    return code


def invited(store: Cabinet, code: str, now: datetime) -> str:
    """The role that an invitation gives; empty where it counts no longer."""
    told = unpacked(store.get(_INVITED, hashed(code), now=stamp(now)))
    return "" if told is None else str(told["role"])


def accept(store: Cabinet, code: str, name: str, password: str, language: str, now: datetime) -> Person:
    """Make the account of an invitation. The invitation is gone afterwards; a refusal leaves it as it was."""
    role = invited(store, code, now)
    if not role:
        raise Refused("This link counts no longer.", "It is good for one account, and for a day.", "Ask for another.")
    person = _checked(store, name, role, password, language)
    if store.take(_INVITED, hashed(code), stamp(now)) is None:
        raise Refused("This link counts no longer.", "Somebody used it just now.", "Ask for another.")
    store.keep_person(person)
    return person


def add(store: Cabinet, name: str, role: str, password: str, language: str = "en") -> Person:
    """Make an account at once, without an invitation."""
    person = _checked(store, name, role, password, language)
    store.keep_person(person)
    return person


def people(store: Cabinet) -> Sequence[Person]:
    """Every account that counts, by name."""
    return sorted((each for each in store.people() if each.secret), key=lambda each: each.name.casefold())


def named(store: Cabinet, name: str) -> Person | None:
    """The account of a name, however it is spelt in capitals; None where there is none that counts."""
    asked = one_line(name).casefold()
    return next((each for each in people(store) if each.name.casefold() == asked), None)


def person(store: Cabinet, id: str) -> Person | None:
    """An account that counts, by its id."""
    return next((each for each in store.people() if each.id == id and each.secret), None)


def sign_in(store: Cabinet, name: str, password: str) -> Person | None:
    """The account, where name and password are right. A wrong name takes as long as a wrong password."""
    found = named(store, name)
    return found if passwords.right(found.secret if found else "", password) else None


def change_password(store: Cabinet, person: Person, old: str, new: str) -> Person:
    """Another password in the place of one that is known."""
    if not passwords.right(person.secret, old):
        raise Refused("The password is not right.", "", "Type the one that you sign in with.")
    _accepted(new, person.name)
    changed = person._replace(secret=passwords.kept(new))
    store.keep_person(changed)
    return changed


def withdraw(store: Cabinet, person: Person, now: datetime) -> None:
    """Take an account away: it signs in no more, and its sessions end with it. Its name stays, for the records.

    Invitations that are open count no longer: who is sent away may have made one for themselves.
    """
    office = [each for each in people(store) if each.role == "office"]
    if person.role == "office" and len(office) < 2:
        raise Refused("The last account of the office stays.", "Nobody could let anybody in.", "Make another first.")
    store.keep_person(person._replace(secret=""))
    for code in list(store.keys(_INVITED, stamp(now))):
        store.take(_INVITED, code, stamp(now))
    store.put(_AWAY, person.id, stamp(now))


def has_office(store: Cabinet) -> bool:
    """True where somebody can run the office."""
    return any(each.role == "office" for each in people(store))


def _checked(store: Cabinet, name: str, role: str, password: str, language: str) -> Person:
    if role not in ROLES:
        raise Refused(f"{role!r} is no role.", "", f"Take one of {', '.join(ROLES)}.")
    plain = one_line(name)
    if not plain or len(plain) > LONGEST_NAME:
        raise Refused("An account has a name.", f"It has 1 to {LONGEST_NAME} characters.", "Write it as people say it.")
    if named(store, plain) is not None:
        raise Refused("There is an account of that name.", "Two could not be told apart.", "Add a letter.")
    _accepted(password, plain)
    spoken = language if language in languages() else "en"
    return Person(str(uuid.uuid4()), plain, role, passwords.kept(password), spoken)


def _accepted(password: str, name: str) -> None:
    why = passwords.refusal(password, name)
    if why:
        raise Refused("This password is not taken.", _WHY[why], "Take several words that only you put together.")


_WHY = {
    "short": f"It has fewer than {passwords.LEAST_CHARACTERS} characters.",
    "long": f"It has more than {passwords.MOST_CHARACTERS} characters.",
    "common": "Many people take it, so it is guessed first.",
    "name": "It is the name of the account.",
}
