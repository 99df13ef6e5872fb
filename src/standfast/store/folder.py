"""The folder of one job as a store: job.toml, its revisions, the field record, photos and files.

    job.toml            the newest revision, and beside it the files that it names
    job.id              its id
    revisions/0001.toml each revision to the byte; 0001.json says of it who, when, and the hashes of its files
    record.ndjson       the exact texts of events, a line each; quarantine.ndjson second texts for one place
    photos/ private/    private files: pictures, and cards of people
    files/              what revisions name, under its hash

One program at a time has it open, and one thread of it.
"""

from collections.abc import Sequence
from pathlib import Path

from standfast.store import disk
from standfast.store.folder_files import FolderFiles
from standfast.store.folder_record import Reader, Record
from standfast.store.folder_revisions import FolderRevisions
from standfast.store.interface import Fork, Line, Revision, StoredJob, StoreError, Taken, Upload, Vector
from standfast.store.named import job_id, sound

ID = "job.id"
LOCK = ".standfast.lock"


class Folder:
    """A job folder that is open.

    Args:
        path: the folder; made where it is not there and `new` is given.
        read: from the text of an event to its place; raises ValueError where it is none.
        new: id that the job gets where the folder has none yet.

    Raises:
        StoreError: where there is no such folder, it has no id, or another program has it open.
    """

    def __init__(self, path: Path, read: Reader, new: str | None = None) -> None:
        if new is not None:
            disk.folder(path)
        elif not path.is_dir():
            raise StoreError("there is no such folder", todo="name the folder of a job", where=str(path))
        self._path = path
        self._lock = disk.Lock(path / LOCK)
        try:
            self.id = self._known_as(new)
        except StoreError:
            self._lock.release()
            raise
        self._revisions, self._record, self._files = FolderRevisions(path), Record(path, read), FolderFiles(path)

    def _known_as(self, new: str | None) -> str:
        kept = disk.read(self._path / ID).decode("ascii", "replace").strip()
        if kept:
            return job_id(kept)
        if new is None:
            raise StoreError("this job was never kept", f"it has no {ID}", "import it first", str(self._path))
        disk.replace(self._path / ID, job_id(new).encode() + b"\n")
        return new

    def jobs(self) -> Sequence[StoredJob]:
        """The one job, once a revision of it was saved."""
        found = self._revisions.job(self.id)
        return [] if found is None else [found]

    def job(self, job: str, number: int | None = None) -> Revision:
        """A revision of the job; see `Jobs.job`."""
        found = [each for each in self.revisions(job) if number in (None, each.number)]
        if not found:
            raise StoreError(f"there is no revision {number}", where=str(self._path))
        return found[-1]

    def revisions(self, job: str) -> Sequence[Revision]:
        """Every revision, oldest first."""
        self._have(job)
        return [each.revision for each in self._revisions.all()]

    def save(self, job: str, title: str, revision: Revision) -> Revision:
        """Keep a revision, and bring it to its place; see `Jobs.save`."""
        self._mine(job)
        contents = {}
        ours = set(self._files.files(private=False))
        for path, sha in revision.files.items():
            content = self._files.file(sha) if sha in ours else None
            if content is None:
                raise StoreError(
                    f"{path} is not there", f"no file {sha} was written", "write it first", str(self._path)
                )
            contents[path] = content
        return self._revisions.save(title, revision, contents)

    def append(self, job: str, lines: Sequence[Line], now: str) -> Taken:
        """Take events; see `Events.append`. When they arrived is not kept: the file holds their exact texts only."""
        sound(lines)
        self._have(job)
        return self._record.take(lines)

    def events(self, job: str, beyond: Vector | None = None, limit: int | None = None) -> Sequence[Line]:
        """Events beyond a vector, in the order in which they arrived."""
        self._have(job)
        return self._record.events(beyond or {}, limit)

    def acked(self, job: str) -> Vector:
        """Of each device, how far its log stands without a gap."""
        self._have(job)
        return self._record.acked()

    def forks(self, job: str) -> Sequence[Fork]:
        """Places with more than one text."""
        self._have(job)
        return self._record.forks()

    def quarantine(self, job: str) -> Sequence[Line]:
        """The texts that stand in quarantine."""
        self._have(job)
        return self._record.others()

    def upload(self, job: str, sha: str, private: bool = True) -> Upload | None:
        """How much of a file is there; see `Files.upload`."""
        self._mine(job)
        return self._files.upload(sha, private)

    def write(self, job: str, sha: str, offset: int, length: int, piece: bytes, private: bool = True) -> Upload:
        """Add a piece of a file; see `Files.write`."""
        if private:
            self._have(job)
        self._mine(job)
        return self._files.write(sha, offset, length, piece, private)

    def file(self, job: str, sha: str) -> bytes | None:
        """A whole file; None where it is not there, or was erased."""
        self._mine(job)
        return self._files.file(sha)

    def files(self, job: str, private: bool | None = None) -> Sequence[str]:
        """Hashes of the whole files; see `Files.files`."""
        self._mine(job)
        return self._files.files(private)

    def held(self, job: str) -> int:
        """Bytes of the private files that are there or begun; see `Files.held`."""
        self._mine(job)
        return self._files.held()

    def erase(self, job: str, now: str) -> Sequence[str]:
        """Take away what is private; see `Files.erase`. What a disk or a copy still has of it, this cannot reach."""
        self._have(job)
        return self._files.erase(now)

    def close(self) -> None:
        """Let the next program in."""
        self._lock.release()

    def _mine(self, job: str) -> None:
        if job_id(job) != self.id:
            raise StoreError(f"there is no job {job} here", f"this folder holds {self.id}", "", str(self._path))

    def _have(self, job: str) -> None:
        self._mine(job)
        if self._revisions.job(self.id) is None:
            raise StoreError(f"there is no job {job} here", "no revision was saved", "save it first", str(self._path))
