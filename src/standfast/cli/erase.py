"""standfast erase."""

import click

from standfast.cli.options import database_option


@click.command(epilog="Example: standfast erase JOB --reason 'asked by the customer' --yes")
@click.argument("job")
@click.option("--reason", required=True, help="Why; it stands in the record for good.")
@click.option("--yes", is_flag=True, help="Do it. Without this is only said what would be erased.")
@database_option
def command(job: str, reason: str, yes: bool, database: str | None) -> int:
    """Erase photos and names of JOB (its id): their key is destroyed, their hashes stay in the record.

    It cannot be undone. Exports and backups that hold them in the clear are not reached.

    Exit code 0: erased, or said what would be. 2: there is no such job.
    """
    from standfast.foreman.office import erasing
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        if all(each.id != job for each in store.jobs()):
            raise click.UsageError(f"there is no job {job!r} in this database")
        if not yes:
            count = len(store.files(job, private=True))
            click.echo(f"{count} photos and cards would be erased for good; call it again with --yes")
            return 0
        gone = erasing.erase(store, job, reason, universal())
    click.echo(f"erased: {len(gone)} photos and cards; the record says so")
    return 0
