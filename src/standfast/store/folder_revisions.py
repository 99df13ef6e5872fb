"""Revisions of a job in its folder: each to the byte under its number; the newest in its place as job.toml.

A revision is there once its ``.json`` is. Before that, job.toml and the files it names were brought to their places: so
what a crash leaves is an unfinished change by hand, which saving once more completes.
"""

import json
from collections.abc import Mapping, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from standfast.store import disk
from standfast.store.interface import Revision, StoredJob, StoreError
from standfast.store.named import named_files

JOB = "job.toml"
REVISIONS = "revisions"


class Saved(NamedTuple):
    """A revision and the title that the job had."""

    title: str
    revision: Revision


class FolderRevisions:
    """The revisions of one folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._known: list[Saved] | None = None

    def all(self) -> Sequence[Saved]:
        """Every revision, oldest first; read once, since nobody else writes them meanwhile."""
        if self._known is None:
            self._known = [self._read(each) for each in sorted((self._folder / REVISIONS).glob("*.json"))]
        return self._known

    def job(self, id: str) -> StoredJob | None:
        """The job as it stands; None where no revision was saved yet."""
        found = self.all()
        if not found:
            return None
        title, newest = found[-1]
        return StoredJob(id, title, newest.number, newest.revision)

    def save(self, title: str, revision: Revision, contents: Mapping[str, bytes]) -> Revision:
        """Keep a revision; see `Jobs.save`.

        Args:
            title, revision: what is saved.
            contents: of every file that it names what is in it, by its path.
        """
        named_files(revision.files)
        found = self.all()
        newest = found[-1].revision if found else None
        if newest is not None and newest.text == revision.text and dict(newest.files) == dict(revision.files):
            return newest
        wanted = {JOB: revision.text.encode(), **contents}
        before = {} if newest is None else {JOB: _sha(newest.text.encode()), **newest.files}
        self._place(wanted, before)
        self._known = None
        number = newest.number + 1 if newest is not None else 1
        kept = revision._replace(number=number, files=dict(sorted(revision.files.items())))
        disk.folder(self._folder / REVISIONS)
        disk.replace(self._path(number, "toml"), revision.text.encode())
        data = {**kept._asdict(), "title": title, "text": _sha(revision.text.encode())}
        disk.replace(self._path(number, "json"), json.dumps(data, ensure_ascii=False, indent=1).encode() + b"\n")
        return kept

    def _place(self, wanted: Mapping[str, bytes], before: Mapping[str, str]) -> None:
        """Bring files to their places, and take away what the revision before named and this one does not.

        Raises:
            StoreError: where somebody changed one of them since the revision before. Nothing is written then.
        """
        there = {path: self._at(path) for path in {**wanted, **before}}
        for path, sha in there.items():
            if sha not in (None, before.get(path), _sha(wanted[path]) if path in wanted else None):
                why = "it is not what the newest revision says, and would be written over"
                todo = "import the folder first, or take the file away"
                raise StoreError(f"{path} was changed by hand", why, todo, str(self._folder))
        for path, content in wanted.items():
            if there[path] != _sha(content):
                disk.folder((self._folder / path).parent)
                disk.replace(self._folder / path, content)
        for path in set(before) - set(wanted):
            disk.remove(self._folder / path)

    def _at(self, path: str) -> str | None:
        place = self._folder / path
        return _sha(disk.read(place)) if place.exists() else None

    def _path(self, number: int, kind: str) -> Path:
        return self._folder / REVISIONS / f"{number:04}.{kind}"

    def _read(self, path: Path) -> Saved:
        text = disk.read(path.with_suffix(".toml"))
        try:
            data: dict[str, Any] = json.loads(disk.read(path))
            if data.pop("text") != _sha(text):
                raise ValueError("the text beside it is not the one that was saved")
            title = data.pop("title")
            found = Revision(**{**data, "text": text.decode()})
            if not all(isinstance(each, str) for each in (title, found.revision, found.saved, found.by)):
                raise ValueError("a text is not there")
            if path.stem != f"{found.number:04}":
                raise ValueError("it has another number")
            return Saved(title, found._replace(files=named_files(dict(found.files))))
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
            todo = "put both files of this revision back from a copy"
            raise StoreError("this revision was altered", str(error), todo, str(path)) from None


def _sha(content: bytes) -> str:
    return sha256(content).hexdigest()
