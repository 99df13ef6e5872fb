"""Photos, cards and other files as rows of a database: in pieces, as they came.

A piece and the count of what is there are written in one transaction: after a crash either both are there or neither.
The last piece is followed by the comparison of the hash, in the same transaction.
"""

from collections.abc import Sequence
from hashlib import sha256

from sqlalchemy import ColumnElement, Connection, Table, and_, delete, func, select, true

from standfast.store.at_rest import new_key, seal, unseal
from standfast.store.interface import StoreError, Upload, WrongHash, WrongOffset
from standfast.store.link import rows
from standfast.store.named import job_id, sha_of_file
from standfast.store.rows_of_jobs import JobRows
from standfast.store.tables import FILES, KEYS, PIECES


class FileRows(JobRows):
    """The part of a database that keeps files."""

    _master: bytes

    def upload(self, job: str, sha: str, private: bool = True) -> Upload | None:
        """How much of a file is there; see `Files.upload`."""
        job_id(job)
        with self._link.read() as db:
            return _stands(db, job, sha_of_file(sha), private)

    def write(self, job: str, sha: str, offset: int, length: int, piece: bytes, private: bool = True) -> Upload:
        """Add a piece; see `Files.write`."""
        if offset < 0 or offset + len(piece) > length:
            raise StoreError(
                "the piece goes beyond the end of the file", f"it has {length} bytes", where=self._link.where
            )
        # A job's private files are written one by one: none is sealed under a key that is being destroyed.
        alone = f"key {job_id(job)}" if private else f"file {job_id(job)} {sha_of_file(sha)}"
        with self._link.write(alone) as db:
            if private:
                self._known(db, job)
            row = _row(FILES, job, sha_of_file(sha), private)
            if db.execute(select(FILES.c.erased).where(row)).scalar():
                raise StoreError("this file was erased", "what was erased is not taken again", where=self._link.where)
            known = _stands(db, job, sha, private)
            if known is not None and known.done:
                return known
            self._fits(known, offset, length)
            if known is None:
                new = {"length": length, "there": 0, "done": False, "erased": ""}
                db.execute(FILES.insert().values(job=job, sha=sha, private=private, **new))
            kept = seal(self._key(db, job), _about(job, sha, offset, length), piece) if private else piece
            if piece:
                db.execute(PIECES.insert().values(job=job, sha=sha, private=private, start=offset, bytes=kept))
            there = offset + len(piece)
            right = there < length or sha256(self._plain(db, job, sha, private)).hexdigest() == sha
            if right:
                rows(db, FILES.update().where(row).values(there=there, done=there == length))
            else:
                db.execute(delete(FILES).where(row))
        if not right:
            raise WrongHash("the whole file has another hash than its name", todo="send it again from its beginning")
        return Upload(there, length, there == length)

    def file(self, job: str, sha: str) -> bytes | None:
        """A whole file; None where it is not there, or was erased."""
        job_id(job)
        with self._link.read() as db:
            for private in (False, True):
                whole = and_(_row(FILES, job, sha_of_file(sha), private), FILES.c.done, FILES.c.erased == "")
                if db.execute(select(FILES.c.sha).where(whole)).scalar():
                    content = self._plain(db, job, sha, private)
                    if sha256(content).hexdigest() != sha:
                        todo = "put the database back from the backup"
                        raise StoreError(f"file {sha} is not what its name says", todo=todo, where=self._link.where)
                    return content
        return None

    def files(self, job: str, private: bool | None = None) -> Sequence[str]:
        """Hashes of the whole files; see `Files.files`."""
        ours = true() if private is None else FILES.c.private == private
        whole = and_(FILES.c.job == job_id(job), FILES.c.done, FILES.c.erased == "", ours)
        with self._link.read() as db:
            return sorted(set(db.execute(select(FILES.c.sha).where(whole)).scalars()))

    def held(self, job: str) -> int:
        """Bytes of the private files that are there or begun; see `Files.held`."""
        ours = and_(FILES.c.job == job_id(job), FILES.c.private, FILES.c.erased == "")
        with self._link.read() as db:
            return int(db.execute(select(func.sum(FILES.c.length)).where(ours)).scalar() or 0)

    def erase(self, job: str, now: str) -> Sequence[str]:
        """Destroy the key of the job's photos and cards; see `Files.erase`.

        On SQLite its bytes and those of the files are written over, in the log too. On PostgreSQL they are gone from
        the tables; the server's log and its backups keep them as long as they are kept.
        """
        with self._link.write(f"key {job_id(job)}") as db:
            self._known(db, job)
            ours = and_(FILES.c.job == job, FILES.c.private)
            db.execute(delete(KEYS).where(KEYS.c.job == job))
            db.execute(delete(PIECES).where(PIECES.c.job == job, PIECES.c.private))
            db.execute(delete(FILES).where(ours, ~FILES.c.done))
            rows(db, FILES.update().where(ours, FILES.c.erased == "").values(erased=now))
            erased = sorted(db.execute(select(FILES.c.sha).where(ours)).scalars())
        self._link.scrub(KEYS.name)
        return erased

    def _fits(self, known: Upload | None, offset: int, length: int) -> None:
        if known is not None and known.length != length:
            why = f"it was begun with {known.length} bytes, not {length}"
            raise StoreError("the file has another length", why, where=self._link.where)
        at = 0 if known is None else known.offset
        if offset != at:
            raise WrongOffset(at)

    def _plain(self, db: Connection, job: str, sha: str, private: bool) -> bytes:
        """What is in a file, as far as it is there."""
        length = db.execute(select(FILES.c.length).where(_row(FILES, job, sha, private))).scalar_one()
        asked = select(PIECES.c.start, PIECES.c.bytes).where(_row(PIECES, job, sha, private)).order_by(PIECES.c.start)
        pieces = db.execute(asked).all()
        if not private:
            return b"".join(each for _, each in pieces)
        key = self._key(db, job, make=False) if pieces else b""
        return b"".join(unseal(key, _about(job, sha, start, length), each) for start, each in pieces)

    def _key(self, db: Connection, job: str, *, make: bool = True) -> bytes:
        """The key of a job; a new one where it has none yet."""
        about = f"key of job {job}"
        sealed = db.execute(select(KEYS.c.sealed).where(KEYS.c.job == job)).scalar()
        if sealed is not None:
            return unseal(self._master, about, sealed)
        if not make:
            todo = "put the database back from the backup"
            raise StoreError(f"the {about} is not there", todo=todo, where=self._link.where)
        key = new_key()
        db.execute(KEYS.insert().values(job=job, sealed=seal(self._master, about, key)))
        return key


def _row(table: Table, job: str, sha: str, private: bool) -> ColumnElement[bool]:
    return and_(table.c.job == job, table.c.sha == sha, table.c.private == private)


def _stands(db: Connection, job: str, sha: str, private: bool) -> Upload | None:
    row = db.execute(select(FILES.c.there, FILES.c.length, FILES.c.done).where(_row(FILES, job, sha, private))).first()
    return None if row is None else Upload(*row)


def _about(job: str, sha: str, start: int, length: int) -> str:
    """What a sealed piece is bound to."""
    return f"piece of file {sha} of job {job} from {start} of {length}"
