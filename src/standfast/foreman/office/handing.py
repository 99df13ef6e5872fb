"""Hands a job out: its newest revision worked out, compiled into one field sheet, kept, and given to tablets."""

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory
from typing import TypeVar

from standfast.faults import FaultsFound, Refusal
from standfast.foreman.field import field_sheet
from standfast.foreman.office import tablets
from standfast.foreman.office.cabinet import Cabinet, Refused
from standfast.foreman.plan import JobPlan, make_plan

T = TypeVar("T")


def hand_out(store: Cabinet, job: str, devs: Sequence[str], firm: Path | None, now: datetime) -> str:
    """Compile the newest revision of a job and give it to tablets.

    Returns:
        Hash of the field sheet.

    Raises:
        Refused: where the job cannot be worked out, or a tablet is not there.
    """
    known = {each.id for each in tablets.devices(store) if not each.withdrawn}
    if not devs or not set(devs) <= known:
        raise Refused("No tablet was named that is there.", "", "Choose one of the list.")
    sheet = tablets.keep_sheet(store, job, compiled(store, job, firm))
    for dev in devs:
        tablets.hand_out(store, dev, job, sheet, now)
    return sheet


def compiled(store: Cabinet, job: str, firm: Path | None) -> str:
    """The field sheet of the newest revision.

    Raises:
        Refused: where it cannot be worked out, with the first fault.
    """
    return worked(store, job, firm, field_sheet)


def worked(store: Cabinet, job: str, firm: Path | None, use: Callable[[JobPlan], T]) -> T:
    """What is made of the newest revision of a job, worked out anew.

    Raises:
        Refused: where it cannot be worked out, with the first fault.
    """
    revision = store.job(job)
    with TemporaryDirectory(prefix="standfast-") as name:
        folder = Path(name)
        (folder / "job.toml").write_bytes(revision.text.encode())
        for path, sha in revision.files.items():
            data = store.file(job, sha)
            if data is not None:
                _write(folder, path, data)
        try:
            return use(make_plan(folder, firm))
        except FaultsFound as found:
            first = found.faults[0]
            raise Refused(
                "The job cannot be worked out.", f"{first.what}.", "Mend the job file; take it in again."
            ) from None
        except Refusal as refusal:
            raise Refused(
                "The job cannot be worked out.", str(refusal), "Mend the job file; take it in again."
            ) from None


def _write(folder: Path, path: str, data: bytes) -> None:
    """A file of the job, where its path stays inside the folder."""
    inside = PurePosixPath(path)
    if inside.is_absolute() or ".." in inside.parts or "\\" in path or not inside.parts:
        raise Refused("A file of the job has a path that leads out of it.", "", "Take the job in again.")
    to = folder.joinpath(*inside.parts)
    to.parent.mkdir(parents=True, exist_ok=True)
    to.write_bytes(data)
