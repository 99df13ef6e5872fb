"""standfast tablet."""

import click

from standfast.cli.options import database_option, firm_option


@click.group(epilog="Example: standfast tablet list")
def command() -> None:
    """Tablets: enrol one, list them, hand a job out to one, withdraw one."""


@command.command("list", epilog="Example: standfast tablet list")
@database_option
def show(database: str | None) -> int:
    """List every tablet, and the jobs that it has."""
    from standfast.foreman.office import tablets
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        for each in tablets.devices(store):
            state = f"withdrawn {each.withdrawn[:10]}" if each.withdrawn else f"enrolled {each.enrolled[:10]}"
            click.echo(f"{each.id}  {state}  {each.name}")
            for job in tablets.handed(store, each.id, universal()):
                click.echo(f"    has job {job}")
    return 0


@command.command(epilog="Example: standfast tablet code")
@database_option
def code(database: str | None) -> int:
    """Print the path of a link by which one tablet is enrolled, once, within ten minutes."""
    from standfast.foreman.office import tablets
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        path = f"/field/#enrol={tablets.code(store, universal())}"
    click.echo("open on the tablet, behind the address of the server, once, within ten minutes:", err=True)
    click.echo(path)
    return 0


@command.command("hand-out", epilog="Example: standfast tablet hand-out JOB TABLET")
@click.argument("job")
@click.argument("tablet")
@firm_option
@database_option
def hand_out(job: str, tablet: str, firm: str | None, database: str | None) -> int:
    """Compile the newest revision of JOB (its id) into a field sheet and give it to TABLET (its id)."""
    from pathlib import Path

    from standfast.foreman.office import handing
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        sheet = handing.hand_out(store, job, [tablet], Path(firm) if firm else None, universal())
    click.echo(f"handed out; field sheet {sheet}")
    return 0


@command.command("take-back", epilog="Example: standfast tablet take-back JOB TABLET")
@click.argument("job")
@click.argument("tablet")
@database_option
def take_back(job: str, tablet: str, database: str | None) -> int:
    """Let TABLET (its id) write to JOB (its id) no longer. What it brought stays."""
    from standfast.foreman.office import tablets
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        tablets.take_back(store, tablet, job, universal())
    click.echo("taken back")
    return 0


@command.command(epilog="Example: standfast tablet withdraw TABLET")
@click.argument("tablet")
@database_option
def withdraw(tablet: str, database: str | None) -> int:
    """Take the right of TABLET (its id) to speak away. What it brought stays."""
    from standfast.foreman.office import tablets
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        gone = tablets.withdraw(store, tablet, universal())
    click.echo(f"withdrawn: {gone.name}")
    return 0
