"""Takes in the copy that a tablet made of its record: one zip file, brought by hand where no signal ever was."""

from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from standfast.fieldwork.record.event import NotAnEvent, read
from standfast.fieldwork.record.verify import Given
from standfast.foreman.files import fault
from standfast.foreman.keeping import AT_ONCE, PIECE_BYTES, Moved, line_of
from standfast.foreman.office.cabinet import Cabinet, Refused
from standfast.foreman.office.uploads import Uploads
from standfast.foreman.verifying import given_of_zip
from standfast.store.interface import Line, StoreError

ROOMS = (("photos",), ("private",))
"""Folders of a copy in which photos and cards lie, each named by its hash."""


def bring_copy(path: Path, store: Cabinet, when: str) -> Moved:
    """Take in a copy. Its entries and files are those that a tablet would have sent; doing it again adds nothing.

    Args:
        path: the zip file.
        store: where the job is already: a copy has no job file.
        when: the time, universal.

    Raises:
        FaultsFound: where it is no copy of one job, or a file in it is refused. A `StoreError` where the job is not
            there, or the store refuses.
    """
    given = given_of_zip(path)
    lines = list(_lines(path, given))
    jobs = {read(each.raw).job for each in lines}
    if len(jobs) != 1:
        raise fault(path, f"this copy is of {len(jobs)} jobs", "name the copy that a tablet made of one job")
    (job,) = jobs
    title = next((each.title for each in store.jobs() if each.id == job), None)
    if title is None:
        raise StoreError(f"there is no job {job} here", "a copy holds the record only", "import the folder of the job")
    taken = [store.append(job, lines[at : at + AT_ONCE], when) for at in range(0, len(lines), AT_ONCE)]
    uploads = Uploads(store)
    named = uploads.named(job)
    files = 0
    for name, sha in given.files:
        place = PurePosixPath(name)
        if place.parts[:1] in ROOMS and sha in named and place.name.partition(".")[0] == sha:
            try:
                files += _send(uploads, store, job, sha, given.content(sha) or b"")
            except Refused as refused:
                raise fault(path, f"{name}: {refused.what}", refused.todo or "look at the copy") from None
    return Moved(job, title, 0, sum(each.new for each in taken), files, len(store.forks(job)))


def _lines(path: Path, given: Given) -> Iterator[Line]:
    """The events of a copy, in the order of its files."""
    for name, content in given.texts:
        for raw in content.split(b"\n"):
            if raw:
                try:
                    yield line_of(raw.decode())
                except (NotAnEvent, UnicodeDecodeError) as error:
                    raise fault(path, f"{name} holds a line that is no entry: {error}", "make the copy again") from None


def _send(uploads: Uploads, store: Cabinet, job: str, sha: str, content: bytes) -> int:
    """Bring a file from where it stands; how many were brought."""
    known = store.upload(job, sha)
    if known is not None and known.done:
        return 0
    for at in range(0 if known is None else known.offset, len(content), PIECE_BYTES):
        uploads.write(job, sha, at, len(content), content[at : at + PIECE_BYTES])
    return 1
