"""Options that more than one command has."""

from pathlib import Path

import click

firm_option = click.option(
    "--firm",
    type=click.Path(path_type=Path),
    envvar="STANDFAST_FIRM",
    help="Folder of the firm: firm.toml, data sheets in sheets/, compared.toml. Also from the variable STANDFAST_FIRM.",
)

remedies_option = click.option(
    "--no-remedies",
    is_flag=True,
    help="Do not look for changes that would clear what is open; it takes about a second.",
)
