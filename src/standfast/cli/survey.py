"""standfast survey."""

from pathlib import Path

import click

from standfast.cli.options import firm_option
from standfast.sheet.wanted import Wanted, wanted


@click.command(epilog="Example: standfast survey my-job")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print the list as JSON.")
def command(job: Path, firm: Path | None, as_json: bool) -> int:
    """List what is still to be found out for a JOB, first what most verdicts hang on.

    Exit code 0: every check can be told. 1: something is still to be found out.
    """
    from standfast.foreman.answers import as_json as to_json
    from standfast.foreman.plan import make_plan

    plan = make_plan(job, firm, runner_up=False)
    rows = wanted(plan.ledger)
    untold = plan.ledger.summary()["cannot_tell"]
    if as_json:
        found = [
            {"need": row.need, "why": row.why, "checks": list(row.checks), "alone": list(row.alone)} for row in rows
        ]
        click.echo(
            to_json(
                {"schema": 1, "job": plan.title, "adoption": plan.adoption.name, "wanted": found, "cannot_tell": untold}
            )
        )
    else:
        click.echo(f"{plan.title}; adoption {plan.adoption.name}")
        for row in rows:
            _print(row)
        click.echo(f"{untold} of {len(plan.ledger)} checks cannot be told; to find out: {len(rows)}")
    return 1 if rows else 0


def _print(row: Wanted) -> None:
    settled = f", {len(row.alone)} by this alone" if row.alone else ""
    click.echo(f"{len(row.checks):4}  {row.need}")
    click.echo(f"      holds up {len(row.checks)}{settled}: {', '.join(row.checks)}")
