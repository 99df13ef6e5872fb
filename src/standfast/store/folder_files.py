"""Photos, cards and other files in the folder of a job, each named by its hash.

What is not whole yet has its length in its name, ends with ``.part`` and is hidden. A folder is not encrypted: whoever
has it can read it. What is erased is taken away, and its hash is noted, so that it is not taken again.
"""

import re
from collections.abc import Iterator, Sequence
from hashlib import sha256
from pathlib import Path

from standfast.store import disk
from standfast.store.interface import StoreError, Upload, WrongHash, WrongOffset
from standfast.store.named import SHA, sha_of_file

PHOTOS, PRIVATE, FILES = "photos", "private", "files"
"""Private pictures (JPEG); whatever else is private; what the job itself names."""
ERASED = "erased.txt"
"""A line for each: hash, length in bytes, when."""
_LENGTH = re.compile("[0-9]{1,15}")
_JPEG = b"\xff\xd8\xff"


class FolderFiles:
    """The files of one folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def upload(self, sha: str, private: bool) -> Upload | None:
        """How much of a file is there; see `Files.upload`."""
        erased = self._erased().get(sha_of_file(sha)) if private else None
        if erased is not None:
            return Upload(erased, erased, True)
        whole = self._whole(sha, private)
        if whole is not None:
            length = whole.stat().st_size
            return Upload(length, length, True)
        part = self._part(sha, private)
        return None if part is None else Upload(part.stat().st_size, _length(part), False)

    def write(self, sha: str, offset: int, length: int, piece: bytes, private: bool) -> Upload:
        """Add a piece; see `Files.write`."""
        if private and sha in self._erased():
            raise StoreError("this file was erased", "what was erased is not taken again", where=str(self._folder))
        known = self.upload(sha, private)
        if known is not None and known.done:
            return known
        place = self._folder / (PRIVATE if private else FILES)
        disk.folder(place)
        part = self._part(sha, private) or place / f".{sha}.{length}{disk.PART}"
        if _length(part) != length:
            raise StoreError(f"this file was begun with {_length(part)} bytes, not {length}", where=str(self._folder))
        if offset + len(piece) > length:
            raise StoreError("the piece goes beyond the end of the file", f"it has {length} bytes")
        at = known.offset if known is not None else 0
        if offset != at:
            raise WrongOffset(at)
        disk.write_at(part, offset, piece)
        return Upload(offset + len(piece), length, self._ended(part, sha, private))

    def file(self, sha: str) -> bytes | None:
        """A whole file; None where it is not there, or was erased."""
        for private in (False, True):
            whole = self._whole(sha_of_file(sha), private)
            if whole is not None and not (private and sha in self._erased()):
                content = disk.read(whole)
                if sha256(content).hexdigest() != sha:
                    why = "something else has written to it"
                    raise StoreError("the file is not what its name says", why, "put it back from a copy", str(whole))
                return content
        return None

    def files(self, private: bool | None) -> Sequence[str]:
        """Hashes of the whole files; see `Files.files`."""
        erased = self._erased()
        ours = set() if private else {each.name for each in self._named(FILES)}
        theirs = {each.stem for room in (PHOTOS, PRIVATE) for each in self._named(room)} - set(erased)
        return sorted(ours if private is False else ours | theirs)

    def held(self) -> int:
        """Bytes of the private files that are there or begun; see `Files.held`."""
        whole = [each for room in (PHOTOS, PRIVATE) for each in self._named(room)]
        begun = (self._folder / PRIVATE).glob(f".*{disk.PART}")
        erased = self._erased()
        return sum(each.stat().st_size for each in whole if each.stem not in erased) + sum(
            max(0, _length(each)) for each in begun
        )

    def erase(self, now: str) -> Sequence[str]:
        """Take away what is private; see `Files.erase`. It is noted first: after a crash none of it is read."""
        erased = self._erased()
        private = [each for room in (PHOTOS, PRIVATE) for each in self._named(room)]
        lines = [f"{each.stem} {each.stat().st_size} {now}\n" for each in private if each.stem not in erased]
        note = self._folder / ERASED
        if lines:
            disk.write_at(note, disk.read(note).rfind(b"\n") + 1, "".join(sorted(lines)).encode())
        for each in (*private, *(self._folder / PRIVATE).glob(f".*{disk.PART}")):
            disk.remove(each)
        return sorted(self._erased())

    def _ended(self, part: Path, sha: str, private: bool) -> bool:
        """Whether a file is whole; it gets its name then."""
        if part.stat().st_size < _length(part):
            return False
        content = disk.read(part)
        if sha256(content).hexdigest() != sha:
            disk.remove(part)
            raise WrongHash("the whole file has another hash than its name", todo="send it again from its beginning")
        picture = private and content.startswith(_JPEG)
        place = self._folder / (PHOTOS if picture else PRIVATE if private else FILES)
        disk.folder(place)
        disk.move(part, place / (f"{sha}.jpg" if picture else sha))
        return True

    def _whole(self, sha: str, private: bool) -> Path | None:
        places = [f"{PHOTOS}/{sha}.jpg", f"{PRIVATE}/{sha}"] if private else [f"{FILES}/{sha}"]
        return next((self._folder / each for each in places if (self._folder / each).is_file()), None)

    def _part(self, sha: str, private: bool) -> Path | None:
        return next((self._folder / (PRIVATE if private else FILES)).glob(f".{sha}.*{disk.PART}"), None)

    def _named(self, room: str) -> Iterator[Path]:
        return (each for each in (self._folder / room).glob("*") if SHA.fullmatch(each.stem))

    def _erased(self) -> dict[str, int]:
        """Hashes of what was erased, with lengths. A torn last line erased nothing yet."""
        lines = disk.read(self._folder / ERASED).decode("ascii", "replace").split("\n")[:-1]
        words = [line.split(" ") for line in lines]
        return {each[0]: int(each[1]) for each in words if len(each) == 3 and _LENGTH.fullmatch(each[1])}


def _length(part: Path) -> int:
    """Bytes of the whole, from the name of a part."""
    word = part.name.split(".")[-2]
    return int(word) if _LENGTH.fullmatch(word) else -1
