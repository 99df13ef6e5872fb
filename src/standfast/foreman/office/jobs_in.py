"""Takes jobs in from the folder that the server was given: only folders that stand in it, by their names."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from standfast.faults import FaultsFound
from standfast.foreman import keeping
from standfast.foreman.office.cabinet import Cabinet, Refused, stamp


def folders(shelf: Path | None) -> Sequence[str]:
    """Names of the folders with a job file, that are no links to elsewhere."""
    if shelf is None or not shelf.is_dir():
        return []
    return sorted(each.name for each in shelf.iterdir() if not each.is_symlink() and (each / "job.toml").is_file())


def take_in(store: Cabinet, shelf: Path | None, name: str, now: datetime) -> str:
    """Take a job in, or a newer revision of it; its id.

    Raises:
        Refused: where no folder of that name stands there, or it has faults.
    """
    if shelf is None or name not in folders(shelf):
        raise Refused("There is no such folder.", "Only folders on the server's shelf are taken in.", "Choose one.")
    try:
        return keeping.bring_in(shelf / name, store, stamp(now)).job
    except FaultsFound as found:
        first = found.faults[0]
        raise Refused("The job was not taken in.", f"{first.what}. {first.why}", first.todo) from None
