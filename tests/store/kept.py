"""A store of some kind that a test closes and opens again."""

import base64
from hashlib import sha256
from pathlib import Path
from types import TracebackType

from made_logs import FIRST_REVISION, JOB

from standfast.foreman.keeping import line_of
from standfast.store.database import Database, open_store
from standfast.store.folder import Folder
from standfast.store.interface import Store, Upload

kinds = ("folder", "sqlite", "postgresql")
KEYED = {"STANDFAST_KEY": base64.b64encode(bytes(range(32))).decode()}
"""The environment in which the tests open databases."""


def sha(content: bytes) -> str:
    return sha256(content).hexdigest()


def send(store: Store, content: bytes, piece: int = 1000, private: bool = True, job: str = JOB) -> Upload | None:
    """Send a file in pieces, going on where it stands."""
    done = store.upload(job, sha(content), private)
    at = done.offset if done is not None else 0
    while done is None or not done.done:
        done = store.write(job, sha(content), at, len(content), content[at : at + piece], private)
        at += piece
    return done


class Kept:
    """A store of a kind, open at first, with one job where `job` is asked for."""

    def __init__(self, kind: str, folder: Path, url: str = "") -> None:
        self.kind, self.folder = kind, folder
        self.url = url or f"sqlite:///{folder}/kept.db"
        self.path = folder / ("job" if kind == "folder" else "kept.db")
        self.store = self.open()

    def open(self) -> Store:
        """Another one of the same; of a folder the first has to be closed before."""
        if self.kind == "folder":
            return Folder(self.path, line_of, new=JOB)
        return open_store(self.url, KEYED)

    @property
    def database(self) -> Database:
        assert isinstance(self.store, Database)
        return self.store

    def again(self) -> Store:
        """Close it and open it again."""
        self.store.close()
        self.store = self.open()
        return self.store

    def with_job(self) -> Store:
        """The store with the first revision of a job."""
        self.store.save(JOB, "Straße – invented", FIRST_REVISION)
        return self.store

    def __enter__(self) -> "Kept":
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.store.close()
