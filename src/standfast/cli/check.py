"""standfast check."""

from pathlib import Path

import click

from standfast.cli.options import firm_option
from standfast.cli.printing import verdict_lines


@click.command(epilog="Example: standfast check my-job")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print every check with its working as JSON.")
@click.option("--all", "every", is_flag=True, help="List the checks that pass or do not apply too.")
def command(job: Path, firm: Path | None, as_json: bool, every: bool) -> int:
    """Check a JOB, a folder with a job.toml, against the codes that it names.

    Exit code 0: nothing fails and nothing is open. 1: a check fails or cannot be told. 2: the job file has faults.
    """
    from standfast.foreman.plan import make_plan

    plan = make_plan(job, firm)
    if as_json:
        from standfast.foreman.answers import answer
        from standfast.foreman.answers import as_json as to_json

        click.echo(to_json(answer(plan)))
    else:
        click.echo(f"{plan.title}; adoption {plan.adoption.name}")
        for line in verdict_lines(plan.ledger, every=every):
            click.echo(line)
    return 1 if plan.ledger.open else 0
