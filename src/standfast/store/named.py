"""Names that the store takes: ids of jobs, hashes of files, paths in a job's folder. Nothing else becomes a path."""

import re
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime

from standfast.store.interface import Line, StoreError

OWN = frozenset({"job.toml", "job.id", "revisions", "record.ndjson", "record.torn", "quarantine.ndjson",
    "quarantine.torn", "erased.txt", "photos", "private", "files", "out"})  # fmt: skip
"""What the folder of a job has of its own beside the files that a revision names."""
LONGEST_PATH = 200
LAST = 2**53
"""Number of the last event that a log can have; up to it whole numbers are exact in a browser too."""
_JOB = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
SHA = re.compile(r"[0-9a-f]{64}")
"""The name of a file: SHA-256 in hexadecimal."""


def job_id(job: str) -> str:
    """The id of a job, where it is one.

    Raises:
        StoreError: where it is no UUID in small letters.
    """
    if not _JOB.fullmatch(job):
        raise StoreError(
            f"{job[:80]!r} is no id of a job", "it is a UUID in small letters", "look it up in the list of jobs"
        )
    return job


def sha_of_file(sha: str) -> str:
    """The name of a file, where it is one.

    Raises:
        StoreError: where it is no SHA-256 in hexadecimal.
    """
    if not SHA.fullmatch(sha):
        raise StoreError(f"{sha[:80]!r} names no file", "a file is named by its SHA-256, 64 small hexadecimal digits")
    return sha


def named_files(files: Mapping[str, str]) -> Mapping[str, str]:
    """The files that a revision names, where each stays inside the job's folder and out of the way of its own files.

    Raises:
        StoreError: with the path that does not.
    """
    for path, sha in files.items():
        sha_of_file(sha)
        parts = path.split("/")
        inside = path.isprintable() and len(path.encode("utf-8", "surrogatepass")) <= LONGEST_PATH
        if not inside or "\\" in path or ":" in path or any(part.startswith(".") or not part for part in parts):
            why = "it has to be a path inside the folder, with / between its parts, none of them hidden"
            raise StoreError(f"{path[:80]!r} is no path that a revision can name", why, "name the file otherwise")
        if parts[0].casefold() in OWN:
            raise StoreError(f"{path[:80]!r} is in the way", "the store keeps its own there", "name the file otherwise")
    return files


def sound(lines: Sequence[Line]) -> None:
    """Nothing, where every line can be kept to the byte.

    Raises:
        StoreError: with the first that cannot.
    """
    for each in lines:
        if not 1 <= each.seq <= LAST:
            raise StoreError(f"an event has the number {each.seq}", f"a log counts from 1 to {LAST}")
        try:
            each.raw.encode()
        except UnicodeEncodeError:
            raise StoreError(f"event {each.seq} is no text", "half a character stands in it") from None
        if any(mark in each.raw for mark in "\0\r\n"):
            raise StoreError(f"event {each.seq} is no line", "a line break or a zero byte stands in it")


def moment(text: str) -> datetime:
    """A time of the store.

    Raises:
        StoreError: where it is no time, or does not say that it is universal.
    """
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        raise StoreError(f"{text[:40]!r} is no time", "it has to be ISO 8601, such as 2026-05-04T16:20:00Z") from None
    if found.tzinfo is None:
        raise StoreError(f"{text[:40]!r} does not say that it is universal time", todo="end it with Z")
    return found.astimezone(UTC)
