"""The demo jobs: an invented house is written out, with invented documents, and worked out like any other job."""

from importlib.resources import files
from pathlib import Path

from standfast.foreman.files import fault, read_text, write
from standfast.foreman.folder import DOCUMENTS, JOB
from standfast.paper.document import Document, Sheet, Words
from standfast.paper.pdf import Press
from standfast.paper.sheets import ANSI_A, Revision, TitleStrip
from standfast.survey.model import Job
from standfast.survey.read import read

DEMOS = {"one_wall": "one wall, one unit, complete", "faulty": "full of faults"}
MARK = "# An invented job"
"""How each demo job begins behind its schema; no other job is written over."""


def write_demo(name: str, folder: Path) -> Path:
    """Write a demo job into a folder, over what an earlier demo left there.

    Args:
        name: one of DEMOS.
        folder: where to.

    Returns:
        The folder.

    Raises:
        FaultsFound: where a job is there that is no demo, or a file cannot be written.
    """
    shelf = files("standfast.foreman") / "demos" / name
    text = (shelf / JOB).read_text("utf-8")
    if (folder / JOB).exists() and MARK not in read_text(folder / JOB):
        raise fault(folder / JOB, "is no demo job and was left as it is", "name another folder with --out")
    write(folder / JOB, text)
    if (shelf / DOCUMENTS).is_dir():
        for paper in (shelf / DOCUMENTS).iterdir():
            write(folder / DOCUMENTS / paper.name, paper.read_bytes())
    survey, _ = read(text)
    if survey is not None:
        _documents(survey.job, folder / DOCUMENTS)
    return folder


def _documents(job: Job, folder: Path) -> None:
    """A page for each document that the job names, where there is none: it says that it is invented."""
    wanted = [paper for paper in job.documents if paper.file is not None and not (folder / paper.file).exists()]
    if not wanted:
        return
    with Press() as press:
        for paper in wanted:
            write(folder / str(paper.file), press.pdf(_page(paper.title, job.job.date.isoformat())).pdf)


def _page(title: str, date: str) -> Document:
    nobody = "nobody: this document is invented"
    strip = TitleStrip(
        job=title, address="no place", parcel="none", owner=nobody, contractor=nobody, licence="none", scope=title,
        codes=(), date=date, revisions=(Revision("1", date, "invented"),), state="INVENTED",
        warning="INVENTED DOCUMENT",
    )  # fmt: skip
    body = Words(f"{title}. It stands in for the document that a real job has here. No maker or utility issued it.", 11)
    return Document(title, "standfast demo", date, ANSI_A, strip, [Sheet("1", title, [body])])
