"""standfast import."""

from pathlib import Path

import click

from standfast.cli.options import database_option


@click.command(name="import", epilog="Example: standfast import my-job --database sqlite:///firm.db")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@database_option
def command(job: Path, database: str | None) -> int:
    """Bring a JOB folder into a database: its revisions, the files that they name, its field record and photos.

    What was changed in the folder since its newest revision becomes a revision, there as here. JOB may also be the copy
    that a tablet made of its record, a zip file, of a job that the database has. Importing again adds what is new and
    nothing else.
    """
    from standfast.foreman.keeping import bring_in, now, told
    from standfast.foreman.office.opening import opened

    store = opened(database or "")
    try:
        if job.suffix.lower() == ".zip":
            from standfast.foreman.copies import bring_copy

            found = bring_copy(job, store, now())
        else:
            found = bring_in(job, store, now())
    finally:
        store.close()
    click.echo(f"imported: {told(found)}")
    click.echo(f"id: {found.job}")
    return 0
