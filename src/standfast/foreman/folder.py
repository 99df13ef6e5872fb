"""The folder of a job: job.toml, its data sheets, its documents. Read here and nowhere else."""

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from standfast.faults import Fault
from standfast.foreman.files import fault, read_bytes, read_text

JOB = "job.toml"
SHEETS = "sheets"
DOCUMENTS = "documents"
FIRM = "firm.toml"
"""In the folder of the firm: its people, tools, lifting aids, prices and stock."""
COMPARED = "compared.toml"
"""In the folder of the firm: which values somebody has compared with the firm's own printed books."""


class JobFolder(NamedTuple):
    """What was read of a job's folder.

    Attributes:
        path: the folder.
        name: the job file as the user would name it, for places and faults.
        text: text of the job file.
        sheets: data sheets of the job's own, id → text.
        firm_sheets: data sheets of the firm, id → text; looked up after the job's own.
        firm: text of the firm file; empty where there is none.
        compared: what the firm has compared with its own books, the text of its file; empty where there is none.
        documents: files of ``documents/``, name → content, in order of their names.
        paths: name in faults → path of the file that was read.
    """

    path: Path
    name: str
    text: str
    sheets: Mapping[str, str]
    firm_sheets: Mapping[str, str]
    firm: str
    compared: str
    documents: Mapping[str, bytes]
    paths: Mapping[str, Path]

    def placed(self, fault: Fault) -> Fault:
        """A fault with the path of its file, as the user can open it; papers and working keep the bare name."""
        path = self.paths.get(fault.file)
        return fault if path is None else fault._replace(file=str(path))


def open_folder(path: Path, firm: Path | None = None) -> JobFolder:
    """Read a job's folder.

    Args:
        path: the folder, or the job file in it.
        firm: folder of the firm, or the firm file in it, with ``firm.toml``, ``sheets/`` and ``compared.toml``, each
            if it likes; None where there is none.

    Raises:
        FaultsFound: where there is no job file or no firm folder, or a file of them cannot be read.
    """
    file = path / JOB if path.is_dir() or not path.suffix else path
    text = read_text(file, "name a folder with a job.toml; `standfast new FOLDER` writes one to start from")
    folder = file.parent
    if firm is not None and firm.name == FIRM and firm.is_file():
        firm = firm.parent
    if firm is not None and not firm.is_dir():
        todo = "name the folder that holds firm.toml or sheets/ of the firm"
        raise fault(firm, "there is no such folder", todo)
    of_firm = [] if firm is None else _sheets(firm)
    own = _sheets(folder)
    documents = {each.name: read_bytes(each) for each in sorted((folder / DOCUMENTS).glob("*")) if each.is_file()}
    stated = {} if firm is None else {name: firm / name for name in (FIRM, COMPARED) if (firm / name).is_file()}
    paths = {each.name: each for each in (*of_firm, *stated.values(), *own, file)}
    said, compared = (read_text(stated[name]) if name in stated else "" for name in (FIRM, COMPARED))
    return JobFolder(folder, file.name, text, _texts(own), _texts(of_firm), said, compared, documents, paths)


def _sheets(folder: Path) -> list[Path]:
    return sorted((folder / SHEETS).glob("*.toml"))


def _texts(sheets: list[Path]) -> dict[str, str]:
    return {each.stem: read_text(each) for each in sheets}
