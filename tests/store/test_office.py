"""Accounts, tablets and short texts that run out."""

import pytest
from kept import Kept
from made_logs import JOB

from standfast.store.interface import Device, Person, StoreError

NOON, LATER, LATEST = "2026-05-04T12:00:00Z", "2026-05-04T12:00:00.500Z", "2026-05-04T14:00:01+02:00"
"""Each after the one before, though not by its letters."""


def test_an_account_is_added_and_replaced(base: Kept) -> None:
    office = base.database
    assert list(office.people()) == []
    person = Person("1", "Zoë", "office", "$argon2id$x", "es")
    office.keep_person(person)
    office.keep_person(Person("2", "Ada", "crew", "x"))
    office.keep_person(person._replace(role="reader"))
    base.again()
    assert list(base.database.people()) == [Person("2", "Ada", "crew", "x"), person._replace(role="reader")]


def test_a_tablet_is_added_and_replaced(base: Kept) -> None:
    tablet = Device(JOB, "Van 2", "a key", "hash of a token", NOON)
    base.database.keep_device(tablet)
    base.database.keep_device(tablet._replace(withdrawn=LATER))
    base.again()
    assert list(base.database.devices()) == [tablet._replace(withdrawn=LATER)]


def test_a_text_counts_until_it_runs_out(base: Kept) -> None:
    office = base.database
    office.put("code", "a", "text", LATER)
    office.put("code", "b", "for ever")
    office.put("other", "a", "of another kind")
    assert office.get("code", "a", NOON) == "text"
    assert office.get("code", "a", LATER) is None, "at its end it is over"
    assert office.get("code", "a", LATEST) is None
    assert office.get("code", "nothing", NOON) is None
    assert list(office.keys("code", NOON)) == ["a", "b"]
    assert list(office.keys("code", LATEST)) == ["b"]
    assert office.get("code", "a", NOON) is None, "asked for its keys, a kind loses what has run out"
    assert office.get("code", "b", LATEST) == "for ever"
    assert office.get("other", "a", LATEST) == "of another kind"


def test_a_text_is_put_anew(base: Kept) -> None:
    office = base.database
    office.put("session", "a", "one", NOON)
    office.put("session", "a", "two", LATEST)
    assert office.get("session", "a", LATER) == "two"
    assert list(office.keys("session", LATER)) == ["a"]


def test_what_is_taken_is_gone(base: Kept) -> None:
    office = base.database
    office.put("code", "a", "text", LATER)
    assert office.take("code", "a", NOON) == "text"
    assert office.take("code", "a", NOON) is None
    office.put("code", "b", "text", NOON)
    assert office.take("code", "b", LATER) is None, "it had run out"
    assert office.get("code", "b", "2026-05-04T11:00:00Z") is None, "and is gone too"


def test_a_time_that_is_none_is_refused(base: Kept) -> None:
    for until in ("tomorrow", "2026-05-04", "2026-05-04T12:00:00"):
        with pytest.raises(StoreError, match="time"):
            base.database.put("code", "a", "text", until)
    assert list(base.database.keys("code", NOON)) == []
