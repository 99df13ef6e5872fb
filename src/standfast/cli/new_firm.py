"""standfast new-firm."""

from pathlib import Path

import click


@click.command(epilog="Example: standfast new-firm our-firm")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
def command(folder: Path) -> int:
    """Write a firm.toml into FOLDER in which every word is explained, and the schema for your editor.

    It holds people and licences, tools with their calibration, lifting aids, prices and stock. A firm file that is
    there is left as it is; the schema is written anew.
    """
    from standfast.foreman.starting import new_firm

    for path in new_firm(folder):
        click.echo(f"written: {path}")
    click.echo(f"Fill in what you know, then: standfast check my-job --firm {folder}")
    return 0
