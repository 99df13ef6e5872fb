"""The demo jobs: an invented house is written out, with invented documents, and worked out like any other job."""

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

import tomli

from standfast.foreman.files import fault, read_text, write
from standfast.foreman.folder import DOCUMENTS, JOB
from standfast.paper.document import Document, Sheet, Words
from standfast.paper.pdf import Press
from standfast.paper.sheets import ANSI_A, Revision, TitleStrip
from standfast.reading.positions import Path as Path_
from standfast.survey.model import Job
from standfast.survey.read import read
from standfast.survey.write import put

DEMOS = {
    "one-wall": "one wall-hung unit in an attached garage, complete",
    "detached-pair": "two units in a detached garage on a feeder",
    "stack-outdoors": "a standing stack outdoors in strong earthquakes, with a hybrid inverter and PV",
    "cabinet": "a 48 V cabinet with an inverter-charger in a utility room",
    "many-sources": "PV, battery, generator inlet and vehicle charger in one house: who can feed what",
    "terrace": "a British terraced house with PV: a unit outdoors, a board that stays on without the grid",
    "verandah": "an Australian house with PV: MEN, limited export, settings of region A",
    "failing": "one wall with four failures of different trades",
    "half-surveyed": "one wall after the first of two visits",
    "faulty": "a job file full of faults",
}
"""Every demo job and what it shows."""
MAIN = "one-wall"
MARK = "# An invented job"
"""How each demo job begins behind its schema; no other job is written over."""
CHANGES = "changes.toml"
"""In the folder of a demo that is another one with words changed."""


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
    text, shelf = job_text(name), _shelf(name)
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


def job_text(name: str) -> str:
    """The job file of a demo; that of a demo which changes another one is put together here."""
    shelf = _shelf(name)
    if not (shelf / CHANGES).is_file():
        return (shelf / JOB).read_text("utf-8")
    made = tomli.loads((shelf / CHANGES).read_text("utf-8"))
    text = put(job_text(made["base"]), ("job", "name"), made["name"])
    for change in made["change"]:
        text = put(text, _path(tomli.loads(text), change["word"]), change["value"])
    return text


def _shelf(name: str) -> Traversable:
    return files("standfast.foreman") / "demos" / name.replace("-", "_")


def _path(data: object, word: str) -> Path_:
    """The way to a dotted word in the data of a job; items of a list are named by their ids."""
    way: list[str | int] = []
    for part in word.split("."):
        if isinstance(data, list):
            number = [each["id"] for each in data].index(part)
            way.append(number)
            data = data[number]
        else:
            way.append(part)
            data = data.get(part) if isinstance(data, dict) else None
    return tuple(way)


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
