"""Jobs in and out of a database: a folder is imported, a job is exported into a folder.

What goes is the job: its revisions with the files they name, its field record to the byte, photos and cards. Accounts,
tablets, keys and sessions are no part of it and never leave. Either may be done again at any time: it adds what is new.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple
from uuid import uuid4

from standfast.fieldwork.record.event import read
from standfast.foreman.files import fault, read_bytes
from standfast.foreman.folder import DOCUMENTS, JOB, SHEETS
from standfast.store.folder import ID, LOCK, Folder
from standfast.store.interface import Line, Revision, Store, StoreError

PIECE_BYTES = 262_144
AT_ONCE = 200
"""Events that go in one transaction."""


class Moved(NamedTuple):
    """What was new where a job was brought to.

    Attributes:
        job, title: which job.
        revisions, events, files: how many of each were not there before.
        forks: places of its record that have more than one text there.
    """

    job: str
    title: str
    revisions: int
    events: int
    files: int
    forks: int


def now() -> str:
    """The time now, universal, as a store keeps it."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def told(moved: Moved) -> str:
    """What was moved, in a line."""
    counts = [(moved.revisions, "revision"), (moved.events, "event"), (moved.files, "file")]
    new = ", ".join(f"{count} {word}{'' if count == 1 else 's'}" for count, word in counts if count)
    forks = f"; {moved.forks} places of its record have more than one text" if moved.forks else ""
    return f"{moved.title}: {new or 'nothing'} new{forks}"


def line_of(raw: str) -> Line:
    """An event's text with its place and hash.

    Raises:
        NotAnEvent: where it is none.
    """
    found = read(raw)
    return Line(found.dev, found.seq, found.hash, raw)


def bring_in(job: Path, store: Store, when: str) -> Moved:
    """Import the folder of a job. What was changed in it since its newest revision becomes a revision, there as here.

    Args:
        job: the folder, or the job file in it.
        store: where it goes.
        when: the time, universal.

    Raises:
        FaultsFound: where there is no job file or it is no text; a `StoreError` where folder or store refuse.
    """
    path = job if job.is_dir() or not job.suffix else job.parent
    _no_links(path)
    text = _text(path / JOB)
    folder = Folder(path, line_of, new=str(uuid4()))
    try:
        title = _keep(folder, path, text, when)
        return copy(folder, store, folder.id, when)._replace(title=title)
    finally:
        folder.close()


def hand_out(job: str, path: Path, store: Store, when: str) -> Moved:
    """Export a job into a folder: a new one, or one that has the same job.

    Args:
        job: id of the job, or how it begins.
        path: the folder.
        store: where the job is.
        when: the time, universal.

    Raises:
        StoreError: where there is no such job, or something else is in the folder.
    """
    id = _found(store, job)
    if path.is_dir() and not (path / ID).is_file() and any(each.name != LOCK for each in path.iterdir()):
        raise StoreError("something else is in this folder", "it would be mixed", "name a new folder", str(path))
    folder = Folder(path, line_of, new=id)
    try:
        if folder.id != id:
            raise StoreError(f"this folder holds job {folder.id}", "", "name a new folder", str(path))
        return copy(store, folder, id, when)
    finally:
        folder.close()


def copy(source: Store, target: Store, job: str, when: str) -> Moved:
    """Bring a job from one store to another. The files come first, so that nothing there ever names what is not there.

    Raises:
        StoreError: where the job has gone another way there, or one of the two refuses. What was brought by then stays.
    """
    title = next(each.title for each in source.jobs() if each.id == job)
    beyond = _beyond(source.revisions(job), _there(target, job))
    files = sum(_send(source, target, job, sha, False) for sha in source.files(job, private=False))
    for each in beyond:
        target.save(job, title if each is beyond[-1] else title_of(each.text, title), each)
    lines = [*source.events(job), *source.quarantine(job)]
    taken = [target.append(job, lines[at : at + AT_ONCE], when) for at in range(0, len(lines), AT_ONCE)]
    files += sum(_send(source, target, job, sha, True) for sha in source.files(job, private=True))
    return Moved(job, title, len(beyond), sum(each.new for each in taken), files, len(target.forks(job)))


def title_of(text: str, otherwise: str) -> str:
    """The name that a job file gives its job."""
    name = _head(text).get("name")
    return name if isinstance(name, str) and name else otherwise


def _keep(folder: Folder, path: Path, text: str, when: str) -> str:
    """Make a revision of what stands in a folder, where it is another than the newest; the title of the job."""
    files = dict(_named(path))
    for content in files.values():
        _write(folder, folder.id, content, 0, private=False)
    title, revision = title_of(text, path.resolve().name), _head(text).get("revision")
    named = {name: sha256(content).hexdigest() for name, content in files.items()}
    label = revision if isinstance(revision, str) else "A"
    folder.save(folder.id, title, Revision(0, label, text, when, "import", named))
    return title


def _no_links(path: Path) -> None:
    """Nothing, where no link stands in a folder: one that came from elsewhere could name any file of this machine.

    Raises:
        FaultsFound: with the first link.
    """
    link = next((each for each in sorted(path.rglob("*")) if each.is_symlink()), None)
    if link is not None:
        raise fault(link, "this is a link, and what it names would be taken in", "put the file itself there")


def _named(path: Path) -> Iterator[tuple[str, bytes]]:
    """The files beside a job file that belong to it: data sheets and documents."""
    for room, pattern in ((SHEETS, "*.toml"), (DOCUMENTS, "*")):
        for each in sorted((path / room).glob(pattern)):
            if each.is_file() and not each.name.startswith("."):
                yield f"{room}/{each.name}", read_bytes(each)


def _text(path: Path) -> str:
    """A job file to the byte, its line ends as they are."""
    try:
        return read_bytes(path, "name a folder with a job.toml").decode()
    except UnicodeDecodeError:
        raise fault(path, "this is no UTF-8 text", "save the file as UTF-8") from None


def _head(text: str) -> Mapping[str, Any]:
    """What a job file says of itself; nothing where it has a fault: it is kept all the same."""
    import tomli

    try:
        head = tomli.loads(text.removeprefix("\ufeff")).get("job")
    except (tomli.TOMLDecodeError, RecursionError):
        return {}
    return head if isinstance(head, dict) else {}


def _found(store: Store, words: str) -> str:
    found = [each for each in store.jobs() if each.id.startswith(words.lower())] if words else []
    if len(found) != 1:
        known = "; ".join(f"{each.id} {each.title}" for each in (found or store.jobs())[:10])
        raise StoreError(f"{len(found)} jobs have the id {words}", f"there are: {known or 'none'}", "name one of them")
    return found[0].id


def _there(target: Store, job: str) -> Sequence[Revision]:
    return target.revisions(job) if any(each.id == job for each in target.jobs()) else ()


def _beyond(ours: Sequence[Revision], theirs: Sequence[Revision]) -> list[Revision]:
    """Revisions that are not there yet.

    Raises:
        StoreError: where another revision has the number of one of ours.
    """
    for one, other in zip(ours, theirs, strict=False):
        if (one.text, dict(one.files)) != (other.text, dict(other.files)):
            why = f"revision {one.number} there is another one (saved {other.saved}, here {one.saved})"
            todo = "export the job into a new folder, bring the changes together there by hand, and import that one"
            raise StoreError("the job has gone two ways", why, todo)
    return list(ours[len(theirs) :])


def _send(source: Store, target: Store, job: str, sha: str, private: bool) -> int:
    """Send a file from where it stands there; how many were sent."""
    known = target.upload(job, sha, private)
    content = source.file(job, sha) if known is None or not known.done else None
    if content is None:
        return 0
    _write(target, job, content, 0 if known is None else known.offset, private)
    return 1


def _write(target: Store, job: str, content: bytes, begin: int, private: bool) -> None:
    sha = sha256(content).hexdigest()
    for at in range(begin, max(len(content), begin + 1), PIECE_BYTES):
        target.write(job, sha, at, len(content), content[at : at + PIECE_BYTES], private)
