"""The folder of a job: job.toml, its data sheets, its documents. Read here and nowhere else."""

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from standfast.faults import Fault, FaultsFound
from standfast.foreman.files import read_text

JOB = "job.toml"
SHEETS = "sheets"
DOCUMENTS = "documents"


class JobFolder(NamedTuple):
    """What was read of a job's folder.

    Attributes:
        path: the folder.
        name: the job file as the user would name it, for places and faults.
        text: text of the job file.
        sheets: data sheets of the job's own, id → text.
        firm_sheets: data sheets of the firm, id → text; looked up after the job's own.
        documents: files of ``documents/``, name → content, in order of their names.
    """

    path: Path
    name: str
    text: str
    sheets: Mapping[str, str]
    firm_sheets: Mapping[str, str]
    documents: Mapping[str, bytes]


def open_folder(path: Path, firm: Path | None = None) -> JobFolder:
    """Read a job's folder.

    Args:
        path: the folder, or the job file in it.
        firm: folder of the firm, with ``sheets/``; None where there is none.

    Raises:
        FaultsFound: where there is no job file or no firm folder, or a file of them cannot be read.
    """
    file = path / JOB if path.is_dir() or not path.suffix else path
    text = read_text(file, "name a folder with a job.toml; `standfast new FOLDER` writes one to start from")
    folder = file.parent
    if firm is not None and not firm.is_dir():
        todo = "name the folder that holds sheets/ of the firm"
        raise FaultsFound([Fault(str(firm), 0, 0, "there is no such folder", "", todo)])
    firm_sheets = {} if firm is None else _sheets(firm)
    documents = {each.name: _bytes(each) for each in sorted((folder / DOCUMENTS).glob("*")) if each.is_file()}
    return JobFolder(folder, file.name, text, _sheets(folder), firm_sheets, documents)


def _sheets(folder: Path) -> dict[str, str]:
    return {each.stem: read_text(each) for each in sorted((folder / SHEETS).glob("*.toml"))}


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise FaultsFound([Fault(str(path), 0, 0, f"cannot be read: {error.strerror}", "", "check the file")]) from None


def write_new(path: Path, text: str) -> Path:
    """Write a file that is not there yet.

    Raises:
        FaultsFound: where it is there, or cannot be written: nothing that somebody wrote is ever overwritten.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        todo = "name another folder or file, or take the old one away first"
        raise FaultsFound([Fault(str(path), 0, 0, "is there already and was left as it is", "", todo)]) from None
    except OSError as error:
        raise FaultsFound([Fault(str(path), 0, 0, f"cannot be written: {error.strerror}", "", "")]) from None
    return path
