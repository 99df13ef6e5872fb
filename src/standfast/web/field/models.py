"""What is sent and answered on the ways of the field record; its description (OpenAPI) is made from these."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

UUID = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$"
SHA = r"^[0-9a-f]{64}$"
RAW_CHARACTERS = 64_000
"""Of one event; in bytes no more than that either."""

Uuid = Annotated[str, Field(pattern=UUID)]
Sha = Annotated[str, Field(pattern=SHA)]
Seq = Annotated[int, Field(ge=0, le=2**53 - 1)]


class Strict(BaseModel):
    """Nothing is guessed: a number is no text, and a word that is not known is refused."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class EnrolIn(Strict):
    """A tablet that wants to be known, with the code that the office shows.

    One that is known already signs `sf1-enrol`, the code and its id, a line each, with its key.
    """

    code: Annotated[str, Field(min_length=16, max_length=100)]
    dev: Uuid
    name: Annotated[str, Field(min_length=1, max_length=60)]
    key: Annotated[str, Field(min_length=43, max_length=44)]
    sig: Annotated[str, Field(max_length=88)] = ""


class EnrolOut(Strict):
    """The tablet is known from now on by the cookie that came along."""

    dev: Uuid
    now: str


class JobOut(Strict):
    """A job that was handed out: its id, its name, the revision of its job file, the hash of its field sheet."""

    job: Uuid
    title: str
    revision: str
    sheet: Sha


class JobsOut(Strict):
    """Every job that was handed to the one who asks; and which tablet that is, empty for people."""

    dev: str
    jobs: list[JobOut]


class EventsIn(Strict):
    """Events of one device, each the exact text that was hashed; and how far every log is known already."""

    dev: Uuid
    events: Annotated[list[Annotated[str, Field(max_length=RAW_CHARACTERS)]], Field(max_length=200)]
    have: Annotated[dict[Uuid, Seq], Field(max_length=200)]


class LineOut(Strict):
    """One event: place, hash, exact text."""

    dev: Uuid
    seq: Seq
    hash: Sha
    raw: str


class ForkOut(Strict):
    """Two texts for one place of one log."""

    dev: Uuid
    seq: Seq
    kept: Sha
    other: Sha


class EventsOut(Strict):
    """How far every log stands here, what the other side lacked, forks, broken links (device and place), the time."""

    acked: dict[Uuid, Seq]
    events: list[LineOut]
    more: bool
    forks: list[ForkOut]
    broken: list[str]
    now: str


class CardsOut(Strict):
    """Cards of people, each its exact text, by hash."""

    cards: dict[Sha, str]


class Error(Strict):
    """What was refused, why, and what to do."""

    what: str
    why: str
    do: str
