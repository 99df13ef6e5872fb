"""standfast new."""

from datetime import date, datetime
from pathlib import Path

import click


@click.command(epilog="Example: standfast new my-job --adoption us-2021")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option("--adoption", default="us-2021", show_default=True, help="The codes in force at the place.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Date of the first revision; today if left out.")
def command(folder: Path, adoption: str, day: datetime | None) -> int:
    """Write a job.toml into FOLDER in which every word is explained, and the schema for your editor.

    A job that is there is left as it is; the schema is written anew.
    """
    from standfast.foreman.starting import new_job

    today = day.date() if day else date.today()  # noqa: DTZ011 - a job is dated by the day where it is written
    for path in new_job(folder, today, adoption):
        click.echo(f"written: {path}")
    click.echo(f"Fill in what you know; what is still to be found out: standfast survey {folder}")
    return 0
