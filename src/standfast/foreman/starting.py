"""Writes the files to start from: a job, a data sheet, and the schemas for the editor."""

import json
from datetime import date
from pathlib import Path
from typing import get_args

from standfast.equipment import schema as sheet_words
from standfast.equipment.model import Kind
from standfast.foreman.files import write, write_new
from standfast.foreman.folder import FIRM, JOB
from standfast.shelf import adopted_on
from standfast.survey import firm as firm_words
from standfast.survey import schema as job_words
from standfast.survey.write import new

KINDS: tuple[Kind, ...] = get_args(Kind)
"""The kinds of equipment that have a data sheet."""


def new_job(folder: Path, day: date, adopted: str) -> list[Path]:
    """Write ``job.toml`` and its schema into a folder.

    Raises:
        NotInEdition: where there is no adoption of that name.
        FaultsFound: where one of the files is there already.
    """
    adopted_on(adopted, day)
    job = write_new(folder / JOB, new(folder.resolve().name, day, adopted))
    return [job, _schema(folder / "job.schema.json", job_words.schema())]


def new_firm(folder: Path) -> list[Path]:
    """Write ``firm.toml`` and its schema into a folder.

    Raises:
        FaultsFound: where a firm file is there already.
    """
    firm = write_new(folder / FIRM, firm_words.new(folder.resolve().name))
    return [firm, _schema(folder / "firm.schema.json", firm_words.schema())]


def new_sheet(path: Path, kind: Kind) -> list[Path]:
    """Write a data sheet, whose id is the name of its file, and its schema beside it.

    Raises:
        FaultsFound: where the file is there already.
    """
    sheet = write_new(path, sheet_words.new(path.stem, kind))
    return [sheet, _schema(path.parent / "sheet.schema.json", sheet_words.schema())]


def _schema(path: Path, words: object) -> Path:
    """A schema is derived: an old one is written over."""
    return write(path, json.dumps(words, indent=1, ensure_ascii=False) + "\n")
