"""Runs files of published cases, or those that ship."""

from pathlib import Path

from standfast.foreman.files import read_text
from standfast.proof.run import Outcome, prove, read, shipped


def prove_files(paths: list[Path]) -> list[Outcome]:
    """Outcomes of the cases in these files; of the shipped ones where no file is named."""
    sets = [(str(path), read(str(path), read_text(path))) for path in paths] if paths else shipped()
    return [outcome for name, cases in sets for outcome in prove(name, cases)]
