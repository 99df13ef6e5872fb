"""standfast new-sheet."""

from pathlib import Path

import click

from standfast.cli.options import OneOf


@click.command(epilog='Example: standfast new-sheet my-job/sheets/our-battery.toml --kind "battery unit"')
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option(
    "--kind",
    type=OneOf("kind", "standfast.foreman.starting", "KINDS"),
    default="battery unit",
    show_default=True,
    help="What it is.",
)
def command(file: Path, kind: str) -> int:
    """Write an equipment data sheet to FILE in which every word is explained, and the schema for your editor.

    The name of the file is the id by which a job asks for it. A sheet that is there is left as it is; the schema is
    written anew.
    """
    from standfast.foreman.starting import KINDS, new_sheet

    for path in new_sheet(file, next(each for each in KINDS if each == kind)):
        click.echo(f"written: {path}")
    click.echo("Write maker and name, and say with invented = false that it was made from a real manual.")
    return 0
