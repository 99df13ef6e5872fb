"""standfast account."""

import sys

import click

from standfast.cli.options import database_option

ROLES = ("office", "crew", "reader")


@click.group(epilog="Example: standfast account add 'Ana Ruiz' --role office")
def command() -> None:
    """Accounts of the office: add one, list them, withdraw one."""


@command.command(epilog="Example: standfast account add 'Ana Ruiz' --role office")
@click.argument("name")
@click.option("--role", type=click.Choice(ROLES), default="crew", show_default=True, help="What they may do.")
@click.option("--language", default="en", show_default=True, help="In which the pages speak to them.")
@database_option
def add(name: str, role: str, language: str, database: str | None) -> int:
    """Make an account for NAME. The password is asked for, or read as a line from standard input."""
    from standfast.foreman.office import accounts
    from standfast.foreman.office.opening import at_the_desk

    if sys.stdin.isatty():
        password = click.prompt("Password", hide_input=True, confirmation_prompt=True)
    else:
        password = sys.stdin.readline().rstrip("\r\n")
    with at_the_desk(database or "") as store:
        person = accounts.add(store, name, role, password, language)
    click.echo(f"{person.id}  {person.role:6}  {person.name}")
    return 0


@command.command("list", epilog="Example: standfast account list")
@database_option
def show(database: str | None) -> int:
    """List every account."""
    from standfast.foreman.office import accounts
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        for each in accounts.people(store):
            click.echo(f"{each.id}  {each.role:6}  {each.name}")
    return 0


@command.command(epilog="Example: standfast account withdraw 'Ana Ruiz'")
@click.argument("name")
@database_option
def withdraw(name: str, database: str | None) -> int:
    """Take the account of NAME away, with its passkeys; its sessions end."""
    from standfast.foreman.office import accounts, passkeys
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        person = accounts.named(store, name)
        if person is None:
            raise click.UsageError(f"there is no account {name!r}: see standfast account list")
        accounts.withdraw(store, person, universal())
        passkeys.forget(store, person.id, "", universal())
    click.echo(f"withdrawn: {person.name}")
    return 0


@command.command(epilog="Example: standfast account invite --role office")
@click.option("--role", type=click.Choice(ROLES), default="crew", show_default=True, help="What the account may do.")
@database_option
def invite(role: str, database: str | None) -> int:
    """Print the path of a link by which one account is made, once, within a day."""
    from standfast.foreman.office import accounts
    from standfast.foreman.office.cabinet import universal
    from standfast.foreman.office.opening import at_the_desk

    with at_the_desk(database or "") as store:
        path = f"/office/join/{accounts.invite(store, role, universal())}"
    click.echo("give to that person, behind the address of the server; good once, for a day:", err=True)
    click.echo(path)
    return 0
