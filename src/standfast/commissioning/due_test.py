"""One test that is due on a job, and what the tests are derived from."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from standfast.commissioning.limit import Limit, Relation, limit_of
from standfast.design.installation import Installation
from standfast.design.settings import Setting
from standfast.design.wiring.metric.built import Reading
from standfast.equipment.read import DataSheet
from standfast.sheet import Value
from standfast.shelf import Edition
from standfast.survey.read import Survey
from standfast.words import ENGLISH, named, say

When = Literal["before power", "connected", "before the unit", "before DC closes", "unit running"]
"""Parts of the work in which tests are done, in their order."""


EARTHED = ("230 V single-phase", "230/400 V three-phase")
"""Supplies of houses that have an earth and no ground."""


class Blank(NamedTuple):
    """A space for one reading: what, its unit, and whether the limit of the test is one for it."""

    what: str
    unit: str
    limited: bool = True


class DueTest(NamedTuple):
    """One test.

    Attributes:
        id: T1, T2, …
        when: part of the work in which it is done.
        what: what is tested.
        how: how it is done.
        limit: what the reading is compared with; empty where no source states a limit.
        ground: where the limit was read; empty where there is none.
        value: the limit on the sheet; None where there is none or it is a state.
        readings: spaces.
        of: id of the battery or array whose step does the test; empty where it is one of the whole job.
        key: kind of test: ``insulation``, ``loop``.
        bounds: the limit in a form that a reading is compared with; empty where there is none.
        shows: role and id of what is then seen on a device: ``battery/ready``; empty where it is something else.
    """

    id: str
    when: When
    what: str
    how: str
    limit: str
    ground: str
    value: Value | None
    readings: tuple[Blank, ...]
    of: str = ""
    key: str = ""
    bounds: tuple[Limit, ...] = ()
    shows: str = ""


class Site(NamedTuple):
    """What the tests are derived from: job file, data sheets by role, the graph, rules of thumb, language.

    `detector` is false where units stand only where no detector is or is to be: outdoors. `settings` are the rows of
    the settings sheet; none where no book on the grid is adopted. `metric` are the readings that rules ask which count
    in square millimetres. `runs` are the new runs by the ids of their routes, each named by what is at its ends.
    """

    survey: Survey
    sheets: Mapping[str, DataSheet]
    installation: Installation
    practice: Edition
    language: str = ENGLISH
    detector: bool = True
    settings: tuple[Setting, ...] = ()
    metric: tuple[Reading, ...] = ()
    runs: Mapping[str, str] = {}

    def say(self, key: str, /, **parts: object) -> str:
        """A text of the catalogue, in the words of the trade of the country."""
        return say(named(key, metric=self.survey.job.supply.system in EARTHED), self.language, **parts)


def blank_test(site: Site, key: str, when: When, readings: list[Blank], **parts: object) -> DueTest:
    """A test with the texts of the catalogue under a key, and no limit."""
    what, how = site.say(f"tests.{key}", **parts), site.say(f"tests.{key}_how", **parts)
    return DueTest("", when, what, how, "", "", None, tuple(readings), key=key)


def limited(test: DueTest, limit: str, value: Value, ground: str, relation: Relation) -> DueTest:
    """The test with a limit and where it was read."""
    return test._replace(limit=limit, value=value, ground=ground, bounds=limit_of(relation, value))


def ground(site: Site, value: Value) -> str:
    """Clause of a number, and how it was seen, in the language of the paper."""
    clause = "" if value.clause is None else value.clause.clause
    seen = "" if value.seen is None else site.say(f"tests.seen_{value.seen.replace(' ', '_')}")
    return "; ".join(part for part in (clause, seen) if part)


def of_each(names: list[str], what: str) -> list[str]:
    """What is read of each of several things, with its name; of one, or of none in particular, without."""
    return [f"{name}: {what}" for name in names] if len(names) > 1 else [what]
