"""The record of a job in a folder: exact texts of events, a line each, in the order in which they arrived.

A line is there once its line feed is on the disk. A program that dies while it writes leaves at most one line without:
it was never acknowledged, and is put aside when the file is opened next. Of what was brought in one call the first
lines may be there then and the last ones not; bringing all of it again adds the rest.
"""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from standfast.store import disk
from standfast.store.interface import Fork, Line, StoreError, Taken, Vector

Reader = Callable[[str], Line]
"""From the text of an event to its place; raises ValueError where it is none."""


class Lines:
    """A file with an event a line; read when it is first asked for, and mended where its last line is torn."""

    def __init__(self, path: Path, read: Reader) -> None:
        self._path, self._read = path, read
        self._known: list[Line] | None = None
        self._end = 0

    def all(self) -> list[Line]:
        """Every line.

        Raises:
            StoreError: where one before the last is no event.
        """
        if self._known is None:
            content = disk.read(self._path)
            *whole, tail = content.split(b"\n")
            known = [self._line(*each) for each in enumerate(whole, 1)]
            self._end = len(content) - len(tail)
            if tail and self._whole(tail):
                known.append(self._line(len(whole) + 1, tail))
                disk.write_at(self._path, len(content), b"\n")
                self._end = len(content) + 1
            elif tail:
                torn = self._path.with_suffix(".torn")
                disk.write_at(torn, len(disk.read(torn)), tail + b"\n")
                disk.write_at(self._path, self._end, b"")
            self._known = known
        return self._known

    def add(self, lines: Sequence[Line]) -> None:
        """Add lines: all of them, or none where the disk refuses.

        Raises:
            StoreError: where the disk refuses, or a line would be read back as another one.
        """
        known = self.all()
        if not lines:
            return
        content = "".join(f"{each.raw}\n" for each in lines).encode()
        for number, (each, raw) in enumerate(zip(lines, content.split(b"\n"), strict=False), 1):
            if self._line(number, raw) != each:
                raise self._spoiled(number, "it is not what it was brought as")
        disk.write_at(self._path, self._end, content)
        self._end += len(content)
        known.extend(lines)

    def cut(self, count: int) -> None:
        """Take so many lines away from the end: they were added just now, and what belongs to them was refused."""
        known = self.all()
        if count:
            self._end -= sum(len(each.raw.encode()) + 1 for each in known[-count:])
            disk.write_at(self._path, self._end, b"")
            del known[-count:]

    def _whole(self, raw: bytes) -> bool:
        try:
            self._read(raw.decode())
        except ValueError:
            return False
        return True

    def _line(self, number: int, raw: bytes) -> Line:
        try:
            return self._read(raw.decode())
        except ValueError as error:
            raise self._spoiled(number, str(error)) from None

    def _spoiled(self, number: int, why: str) -> StoreError:
        todo = "put the file back from a copy; everything before this line is in order"
        return StoreError(f"line {number} is no event", why, todo, str(self._path))


class Record:
    """Events of a folder and what stands in quarantine beside them."""

    def __init__(self, folder: Path, read: Reader) -> None:
        self._lines = Lines(folder / "record.ndjson", read)
        self._others = Lines(folder / "quarantine.ndjson", read)
        self._kept: dict[tuple[str, int], Line] | None = None
        self._aside: dict[tuple[str, int, str], Line] = {}
        self._acked: dict[str, int] = {}

    def take(self, lines: Sequence[Line]) -> Taken:
        """Take events; see `Events.append`."""
        kept = self._open()
        new: dict[tuple[str, int], Line] = {}
        forks: dict[tuple[str, int, str], Line] = {}
        for each in lines:
            before = kept.get(each[:2]) or new.setdefault(each[:2], each)
            if before.hash != each.hash:
                forks[each[:3]] = each
        aside = {place: line for place, line in forks.items() if place not in self._aside}
        self._others.add(list(aside.values()))
        try:
            self._lines.add(list(new.values()))
        except StoreError:
            self._others.cut(len(aside))
            raise
        kept.update(new)
        self._aside.update(aside)
        self._count(new)
        return Taken(len(new), dict(self._acked), tuple(self._fork(each) for each in forks.values()))

    def events(self, beyond: Vector, limit: int | None) -> Sequence[Line]:
        """Events beyond a vector, in the order in which they arrived."""
        found = [each for each in self._open().values() if each.seq > beyond.get(each.dev, 0)]
        return found if limit is None else found[:limit]

    def acked(self) -> Vector:
        """Of each device, how far its log stands without a gap."""
        self._open()
        return dict(self._acked)

    def forks(self) -> Sequence[Fork]:
        """Places with more than one text."""
        return [self._fork(each) for each in self.others()]

    def others(self) -> Sequence[Line]:
        """The texts that stand in quarantine."""
        kept = self._open()
        return [each for each in self._aside.values() if each[:2] in kept and kept[each[:2]].hash != each.hash]

    def _fork(self, other: Line) -> Fork:
        return Fork(other.dev, other.seq, self._open()[other[:2]].hash, other.hash)

    def _open(self) -> dict[tuple[str, int], Line]:
        """The line that is kept for each place, in the order in which they arrived."""
        if self._kept is None:
            kept: dict[tuple[str, int], Line] = {}
            self._aside = {}
            for each in self._lines.all():
                if kept.setdefault(each[:2], each).hash != each.hash:
                    self._aside.setdefault(each[:3], each)
            for each in self._others.all():
                self._aside.setdefault(each[:3], each)
            self._kept = kept
            self._count(kept)
        return self._kept

    def _count(self, places: Iterable[tuple[str, int]]) -> None:
        """Go on counting where logs were lengthened. A log whose beginning is not there stands at 0."""
        kept = self._kept or {}
        for dev in dict.fromkeys(dev for dev, _ in places):
            far = self._acked.get(dev, 0)
            while (dev, far + 1) in kept:
                far += 1
            self._acked[dev] = far
