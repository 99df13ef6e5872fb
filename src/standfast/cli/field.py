"""standfast field."""

from pathlib import Path

import click

from standfast.cli.options import firm_option


@click.command(epilog="Example: standfast field my-job --out field-sheet.json")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--language", "languages", multiple=True, help="Beside English and those of the crew: es.")
@click.option("--out", type=click.Path(path_type=Path), help="File to write it to; else it is printed.")
def command(job: Path, firm: Path | None, languages: tuple[str, ...], out: Path | None) -> int:
    """Compile a JOB into its field sheet: steps, limits and texts that a tablet works from without signal.

    The text is the same for the same job, editions and program; its SHA-256 is the name by which a field record knows
    it, and is said on the error stream.
    """
    from standfast.foreman.field import field_sheet, sheet_hash
    from standfast.foreman.files import write
    from standfast.foreman.plan import make_plan

    text = field_sheet(make_plan(job, firm), languages)
    if out is None:
        click.echo(text)
    else:
        write(out, text)
    click.echo(f"sheet {sheet_hash(text)}", err=True)
    return 0
