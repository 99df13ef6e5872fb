"""standfast record."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import database_option, firm_option


@click.group(epilog="Example: standfast record show JOB")
def command() -> None:
    """The record of a job in a database, by its id: show it, settle a dispute, take an entry out, seal it."""


@command.command(epilog="Example: standfast record show JOB")
@click.argument("job")
@firm_option
@database_option
def show(job: str, firm: Path | None, database: str | None) -> int:
    """Show what stands against the handover of JOB, what is unsafe or untested now, and the values in dispute.

    Exit code 0: it may be handed over. 1: something stands against it.
    """
    from standfast.foreman.field_record import state
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        _known(store.jobs(), job)
        told = state(store, job, firm, universal())
    for line in _lines(told):
        click.echo(line)
    return 0 if told["ready"] and not told["unsafe"] else 1


@command.command(epilog="Example: standfast record resolve JOB ITEM EVENT --reason 'the other meter was wrong'")
@click.argument("job")
@click.argument("item")
@click.argument("keep")
@click.option("--reason", required=True, help="Why; it stands in the record for good.")
@database_option
def resolve(job: str, item: str, keep: str, reason: str, database: str | None) -> int:
    """Say that of the values of ITEM that were written at one time the one of the event KEEP counts."""
    from standfast.foreman.office import sealing
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        _known(store.jobs(), job)
        sealing.resolve(store, job, item, keep, reason.strip(), universal())
    click.echo(f"settled: {item}")
    return 0


@command.command(epilog="Example: standfast record void JOB EVENT --reason 'wrong circuit'")
@click.argument("job")
@click.argument("event")
@click.option("--reason", required=True, help="Why; it stands in the record for good.")
@database_option
def void(job: str, event: str, reason: str, database: str | None) -> int:
    """Take the entry of an EVENT out of the count. It stays visible."""
    from standfast.foreman.office import sealing
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        _known(store.jobs(), job)
        sealing.void(store, job, event, reason.strip(), universal())
    click.echo(f"taken out: {event}")
    return 0


@command.command(epilog="Example: standfast record seal JOB")
@click.argument("job")
@click.option("--tsa", default="", help="Address of a time-stamp authority that is asked for a stamp; else nobody is.")
@firm_option
@database_option
def seal(job: str, tsa: str, firm: Path | None, database: str | None) -> int:
    """Seal the record of JOB for the handover, as it stands. Refused while anything stands against it."""
    from standfast.foreman.office import sealing
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        _known(store.jobs(), job)
        sealing.seal(store, job, tsa, universal(), firm)
    click.echo("sealed")
    return 0


def _known(jobs: Iterable[Any], job: str) -> None:
    if all(each.id != job for each in jobs):
        raise click.UsageError(f"there is no job {job!r} in this database")


def _lines(told: Mapping[str, Any]) -> Iterator[str]:
    yield "may be handed over" if told["ready"] else "not to be handed over"
    for each in told["because"]:
        yield f"{each['why']:20} {each['what']}"
    for each in told["unsafe"]:
        yield f"{each['kind']:20} {each['text']['en']}"
    for item, one in told["work"]["items"].items():
        if one["state"] == "disputed":
            yield f"dispute {item}"
            for value in one["values"]:
                if value["counts"]:
                    yield f"  {value['event']}  {value['value']} {value['unit']} {value['word']}"
