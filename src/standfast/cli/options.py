"""Options that more than one command has."""

from importlib import import_module
from pathlib import Path

import click

firm_option = click.option(
    "--firm",
    type=click.Path(path_type=Path),
    envvar="STANDFAST_FIRM",
    help="Folder of the firm: firm.toml, data sheets in sheets/, compared.toml. Also from the variable STANDFAST_FIRM.",
)

database_option = click.option(
    "--database",
    envvar="STANDFAST_DATABASE",
    help="Address of the database: sqlite:///PATH or postgresql+psycopg://USER@HOST/NAME. Also from the variable "
    "STANDFAST_DATABASE. Without one it is a file in your own data folder.",
)

remedies_option = click.option(
    "--no-remedies",
    is_flag=True,
    help="Do not look for changes that would clear what is open; it takes about a second.",
)


class OneOf(click.ParamType[str]):
    """A word of a list that stands in another room, which is read only when the word is asked for: it is slow to load.

    Args:
        name: what the word names, for the help.
        module: where the list is.
        words: its name there.
    """

    def __init__(self, name: str, module: str, words: str) -> None:
        self.name, self.module, self.words = name, module, words

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word itself, where the list has it."""
        known = getattr(import_module(self.module), self.words)
        if value not in known:
            self.fail(f"{value!r} is not one of {', '.join(known)}", param, ctx)
        return value
