"""Options that more than one command has."""

from pathlib import Path

import click

firm_option = click.option(
    "--firm",
    type=click.Path(path_type=Path, file_okay=False),
    envvar="STANDFAST_FIRM",
    help="Folder of the firm: data sheets in sheets/, compared.toml. Also from the variable STANDFAST_FIRM.",
)
