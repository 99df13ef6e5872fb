"""standfast export."""

from pathlib import Path

import click

from standfast.cli.options import database_option


@click.command(epilog="Example: standfast export 7c9e6679 my-job --database sqlite:///firm.db")
@click.argument("id")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@database_option
def command(id: str, folder: Path, database: str | None) -> int:
    """Write the job with an ID, or with the beginning of one, from a database into a FOLDER, to the byte.

    Accounts, tablets, keys and sessions are no part of a job and never leave. A folder of the same job gets what is
    new; what was changed in it by hand is never written over. Photos and cards of people stand there unencrypted.
    """
    from standfast.foreman.keeping import hand_out, now, told
    from standfast.foreman.office.opening import opened

    store = opened(database or "")
    try:
        found = hand_out(id, folder, store, now())
    finally:
        store.close()
    click.echo(f"exported into {folder}: {told(found)}")
    return 0
