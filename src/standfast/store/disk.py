"""Writing to a disk so that it holds after a crash: whole, or not at all. And one writer at a time.

Every write here ends with `fsync`: of the file, and of the folder where a name came or went.
"""

import os
import sys
from pathlib import Path

from standfast.store.interface import StoreError

PART = ".part"
"""Ends the name of a file that is not whole yet."""


def refused(path: Path, error: OSError) -> StoreError:
    """What a disk refused, with what to do."""
    todo = "make room on the disk and do it again: nothing of this was kept half"
    if not _full(error):
        todo = "check that the folder is there and may be written"
    return StoreError("the disk did not take it", error.strerror or type(error).__name__, todo, str(path))


def _full(error: OSError) -> bool:
    import errno

    return error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


def folder(path: Path) -> None:
    """Make a folder, and the folders around it.

    Raises:
        StoreError: where the disk refuses.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise refused(path, error) from None


def settle(path: Path) -> None:
    """Bring the names of a folder onto the disk. Windows does that itself."""
    if sys.platform == "win32":
        return
    known = os.open(path, os.O_RDONLY)
    try:
        os.fsync(known)
    finally:
        os.close(known)


def replace(path: Path, content: bytes) -> None:
    """Write a file whole, in the place of an older one.

    Raises:
        StoreError: where the disk refuses; the older one stands then as it was.
    """
    part = path.with_name(path.name + PART)
    try:
        _write_at(part, 0, content)
        part.replace(path)
        settle(path.parent)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise refused(path, error) from None


def write_at(path: Path, offset: int, content: bytes) -> None:
    """Write beyond a place of a file; what stood there before is written over, what stands before it stays.

    Raises:
        StoreError: where the disk refuses; the file ends at the place then.
    """
    fresh = not path.exists()
    try:
        _write_at(path, offset, content)
        if fresh:
            settle(path.parent)
    except OSError as error:
        if path.exists():
            os.truncate(path, offset)
        raise refused(path, error) from None


def _write_at(path: Path, offset: int, content: bytes) -> None:
    known = os.open(path, os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o600)
    try:
        os.ftruncate(known, offset)
        os.lseek(known, offset, os.SEEK_SET)
        rest = memoryview(content)
        while rest:
            rest = rest[os.write(known, rest) :]
        os.fsync(known)
    finally:
        os.close(known)


def move(old: Path, new: Path) -> None:
    """Give a file its final name.

    Raises:
        StoreError: where the disk refuses; it has its old name then.
    """
    try:
        old.replace(new)
        settle(new.parent)
        settle(old.parent)
    except OSError as error:
        raise refused(new, error) from None


def remove(path: Path) -> None:
    """Take a file away, where it is there.

    Raises:
        StoreError: where the disk refuses.
    """
    try:
        path.unlink(missing_ok=True)
        settle(path.parent)
    except OSError as error:
        raise refused(path, error) from None


def read(path: Path) -> bytes:
    """What stands in a file; nothing where there is none.

    Raises:
        StoreError: where it cannot be read.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return b""
    except OSError as error:
        todo = "check that it is a file and may be read"
        raise StoreError("cannot be read", error.strerror or type(error).__name__, todo, str(path)) from None


class Lock:
    """One writer at a time, by a lock of the operating system: it falls with the program that holds it.

    Args:
        path: file of the lock; it stays, and being there means nothing.

    Raises:
        StoreError: where another program holds it.
    """

    def __init__(self, path: Path) -> None:
        try:
            self._file = path.open("a+b")
        except OSError as error:
            raise refused(path, error) from None
        try:
            _take(self._file.fileno())
        except OSError:
            self._file.close()
            why = "two that write at a time would spoil the record"
            todo = "end the other one, or wait until it is done"
            raise StoreError("another program has this folder open", why, todo, str(path.parent)) from None

    def release(self) -> None:
        """Let the next one in."""
        self._file.close()


def _take(known: int) -> None:
    if sys.platform == "win32":
        import msvcrt

        msvcrt.locking(known, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(known, fcntl.LOCK_EX | fcntl.LOCK_NB)
