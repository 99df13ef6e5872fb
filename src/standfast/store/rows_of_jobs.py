"""Jobs and their revisions as rows of a database."""

from collections.abc import Sequence

from sqlalchemy import Connection, select, true

from standfast.store.interface import Revision, StoredJob, StoreError
from standfast.store.link import Link, rows
from standfast.store.named import job_id, named_files
from standfast.store.tables import FILES, JOBS, NAMED, REVISIONS


class JobRows:
    """The part of a database that keeps jobs."""

    _link: Link

    def jobs(self) -> Sequence[StoredJob]:
        """Every job, by title."""
        with self._link.read() as db:
            found = [StoredJob(*each) for each in db.execute(select(JOBS))]
        return sorted(found, key=lambda each: (each.title, each.id))

    def job(self, job: str, number: int | None = None) -> Revision:
        """A revision of a job, the newest where no number is given; see `Jobs.job`."""
        with self._link.read() as db:
            newest = self._known(db, job)
            found = self._read(db, job, newest if number is None else number)
        if not found:
            raise StoreError(f"there is no revision {number} of job {job}", where=self._link.where)
        return found[0]

    def revisions(self, job: str) -> Sequence[Revision]:
        """Every revision, oldest first."""
        with self._link.read() as db:
            self._known(db, job)
            return self._read(db, job)

    def save(self, job: str, title: str, revision: Revision) -> Revision:
        """Keep a revision; see `Jobs.save`."""
        files = dict(named_files(revision.files))
        with self._link.write(f"job {job_id(job)}") as db:
            number = db.execute(select(JOBS.c.number).where(JOBS.c.job == job)).scalar()
            newest = self._read(db, job, number)[0] if number is not None else None
            if newest is not None and newest.text == revision.text and newest.files == files:
                return newest
            self._are_there(db, job, files)
            kept = revision._replace(number=(number or 0) + 1, files=files)
            head = {"title": title, "number": kept.number, "revision": kept.revision}
            if not rows(db, JOBS.update().where(JOBS.c.job == job).values(head)):
                db.execute(JOBS.insert().values(job=job, **head))
            row = kept._asdict()
            del row["files"]
            db.execute(REVISIONS.insert().values(job=job, **row))
            if files:
                named = [{"job": job, "number": kept.number, "path": path, "sha": sha} for path, sha in files.items()]
                db.execute(NAMED.insert(), named)
        return kept

    def _are_there(self, db: Connection, job: str, files: dict[str, str]) -> None:
        whole = select(FILES.c.sha).where(FILES.c.job == job, ~FILES.c.private, FILES.c.done)
        there = set(db.execute(whole).scalars()) if files else set()
        for path, sha in files.items():
            if sha not in there:
                why = f"no file {sha} was written"
                raise StoreError(f"{path} is not there", why, "write it first", self._link.where)

    def _known(self, db: Connection, job: str) -> int:
        """The number of the newest revision of a job.

        Raises:
            StoreError: where there is no such job.
        """
        number = db.execute(select(JOBS.c.number).where(JOBS.c.job == job_id(job))).scalar()
        if number is None:
            raise StoreError(
                f"there is no job {job} here", todo="look it up in the list of jobs", where=self._link.where
            )
        return int(number)

    def _read(self, db: Connection, job: str, number: int | None = None) -> list[Revision]:
        """Revisions of a job, or the one of a number."""
        ours = true() if number is None else REVISIONS.c.number == number
        columns = (REVISIONS.c[name] for name in Revision._fields[:-1])
        asked = select(*columns).where(REVISIONS.c.job == job, ours).order_by(REVISIONS.c.number)
        found = [Revision(*each) for each in db.execute(asked)]
        files: dict[int, dict[str, str]] = {each.number: {} for each in found}
        named = select(NAMED.c.number, NAMED.c.path, NAMED.c.sha).where(NAMED.c.job == job)
        for one, path, sha in db.execute(named):
            files.get(one, {})[path] = sha
        return [each._replace(files=dict(sorted(files[each.number].items()))) for each in found]
