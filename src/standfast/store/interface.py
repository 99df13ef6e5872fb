"""What every store does: the one interface of a job folder, SQLite and PostgreSQL.

Texts are kept to the byte. Events are never altered or taken away; a file is named by the SHA-256 of what is in it.
Times are arguments: ISO 8601 in universal time.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple, Protocol

from standfast.faults import Fault, FaultsFound

Vector = Mapping[str, int]
"""Of each device, how far its log is known without a gap."""


class StoredJob(NamedTuple):
    """One job as the store has it: its id (UUID), its title, the number and the label of its newest revision."""

    id: str
    title: str
    number: int
    revision: str


class Revision(NamedTuple):
    """One revision of a job file, to the byte. `number` counts from 1; `files` are the files it names, by path, as
    hashes of `file`."""

    number: int
    revision: str
    text: str
    saved: str
    by: str
    files: Mapping[str, str] = {}


class Line(NamedTuple):
    """One event as it is kept: place in its log, hash, exact text."""

    dev: str
    seq: int
    hash: str
    raw: str


class Fork(NamedTuple):
    """Two texts for one place of one log. Both are kept, and neither is believed."""

    dev: str
    seq: int
    kept: str
    other: str


class Taken(NamedTuple):
    """What became of events that were brought.

    Attributes:
        new: how many were not there before.
        acked: of each device, how far its log stands without a gap.
        forks: places for which another text was there; what was brought stands in quarantine.
    """

    new: int
    acked: Vector
    forks: tuple[Fork, ...] = ()


class Upload(NamedTuple):
    """How much of a file is there, and of how much; `done` once its hash was found right."""

    offset: int
    length: int
    done: bool


class Person(NamedTuple):
    """An account. `secret` is the hash of the password, never the password; roles: office, crew, reader."""

    id: str
    name: str
    role: str
    secret: str
    language: str = "en"


class Device(NamedTuple):
    """A tablet that was enrolled. `token` is a hash of what it shows; `key` its public key (Ed25519, base64)."""

    id: str
    name: str
    key: str
    token: str
    enrolled: str
    withdrawn: str = ""


class StoreError(FaultsFound):
    """The store cannot do what was asked.

    Args:
        what: what is wrong.
        why: why it is so, or matters; may be empty.
        todo: what the user can do about it.
        where: the folder, file or database, never with a password.
    """

    def __init__(self, what: str, why: str = "", todo: str = "", where: str = "store") -> None:
        self.what, self.why, self.todo, self.where = what, why, todo, where
        super().__init__([Fault(where, 0, 0, what, why, todo)])


class WrongOffset(StoreError):
    """A piece of a file that does not begin where the last one ended; `offset` is where it has to begin."""

    def __init__(self, offset: int) -> None:
        super().__init__(f"the next piece has to begin at byte {offset}", todo="ask for the offset and go on there")
        self.offset = offset


class WrongHash(StoreError):
    """A whole file whose hash is not its name: it was thrown away, and has to be sent again from its beginning."""


class Jobs(Protocol):
    """Jobs and their revisions."""

    def jobs(self) -> Sequence[StoredJob]:
        """Every job, by title."""

    def job(self, job: str, number: int | None = None) -> Revision:
        """A revision of a job, the newest where no number is given.

        Raises:
            StoreError: where there is none.
        """

    def revisions(self, job: str) -> Sequence[Revision]:
        """Every revision, oldest first."""

    def save(self, job: str, title: str, revision: Revision) -> Revision:
        """Keep a revision; its number is given by the store. Text and files of the newest once more add none.

        The files that it names are written first (`Files.write`, not private): so no revision is there without them.

        Raises:
            StoreError: where a file that it names is not there.
        """


class Events(Protocol):
    """The field record of a job."""

    def append(self, job: str, lines: Sequence[Line], now: str) -> Taken:
        """Take events in one transaction: all of them, or none.

        What is there already (same place, same hash) changes nothing. Another text for a place goes into quarantine.
        A gap is kept, and is not acknowledged.
        """

    def events(self, job: str, beyond: Vector | None = None, limit: int | None = None) -> Sequence[Line]:
        """Events beyond a vector, in the order in which they arrived."""

    def acked(self, job: str) -> Vector:
        """Of each device, how far its log stands without a gap."""

    def forks(self, job: str) -> Sequence[Fork]:
        """Places with more than one text."""

    def quarantine(self, job: str) -> Sequence[Line]:
        """The texts that stand in quarantine, in the order in which they arrived."""


class Files(Protocol):
    """Photos, cards and other files of a job, each named by its SHA-256 in hexadecimal."""

    def upload(self, job: str, sha: str, private: bool = True) -> Upload | None:
        """How much of a file is there; None where nothing is. One that was erased is done: nobody sends it again."""

    def write(self, job: str, sha: str, offset: int, length: int, piece: bytes, private: bool = True) -> Upload:
        """Add a piece; the last one is followed by the comparison of the hash. What is whole already stays.

        Args:
            job, sha: of which job, and its name.
            offset: where the piece begins.
            length: bytes of the whole file.
            piece: its bytes.
            private: a photo or a card: encrypted in a database, and taken away by `erase`. What the job itself names
                (data sheets, documents, field sheets) is not, and may be written before the job is there.

        Raises:
            WrongOffset: where the piece does not begin where the last one ended.
            WrongHash: where the whole has another hash.
            StoreError: where it was erased, or the job is not there.
        """

    def file(self, job: str, sha: str) -> bytes | None:
        """A whole file; None where it is not there, or was erased."""

    def files(self, job: str, private: bool | None = None) -> Sequence[str]:
        """Hashes of the whole files: all, or those that are private, or those that are not; in their order."""

    def held(self, job: str) -> int:
        """Bytes of the private files that are there or begun, each counted whole; those that were erased hold none."""

    def erase(self, job: str, now: str) -> Sequence[str]:
        """Destroy the key of the job's photos and cards: their hashes stay in the record, nobody reads them again.

        Returns:
            Hashes of all that was erased, now or before.
        """


class Store(Jobs, Events, Files, Protocol):
    """A job folder, or a database."""

    def close(self) -> None:
        """Let go of files and connections."""


class Office(Protocol):
    """What a database keeps besides, and what never leaves it: accounts, devices, sessions, passkeys."""

    def people(self) -> Sequence[Person]:
        """Every account."""

    def keep_person(self, person: Person) -> None:
        """Add or replace an account."""

    def devices(self) -> Sequence[Device]:
        """Every tablet."""

    def keep_device(self, device: Device) -> None:
        """Add or replace a tablet."""

    def put(self, kind: str, key: str, value: str, until: str = "") -> None:
        """Keep a short text that may run out: a session, an enrolment code, a challenge, a count of attempts.

        Args:
            kind: what it is.
            key: hash of what names it; never the secret itself.
            value: its text.
            until: when it counts no longer; empty for never.
        """

    def get(self, kind: str, key: str, now: str) -> str | None:
        """The text, where it is there and still counts."""

    def take(self, kind: str, key: str, now: str) -> str | None:
        """The same, and it is gone: of two who take one code, one gets it."""

    def keys(self, kind: str, now: str) -> Iterator[str]:
        """Keys of a kind that still count."""

    def seal(self, about: str, plain: bytes) -> bytes:
        """Encrypt a small secret of the office, the key of its own log, under the master key of the database.

        Args:
            about: what it belongs to; the same has to be given to `unseal`.
            plain: the secret.
        """

    def unseal(self, about: str, sealed: bytes) -> bytes:
        """What `seal` encrypted.

        Raises:
            StoreError: where it was altered, or belongs elsewhere.
        """
