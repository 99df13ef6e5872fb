"""standfast check."""

from pathlib import Path

import click

from standfast.cli.options import firm_option, remedies_option
from standfast.cli.printing import change_lines, verdict_lines


@click.command(epilog="Example: standfast check my-job --against us-2020")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print every check with its working as JSON.")
@click.option("--all", "every", is_flag=True, help="List the checks that pass or do not apply too.")
@click.option("--adoption", help="Check against this adoption instead of the one that the job names.")
@click.option("--against", help="Show what changes between the codes of the job and this adoption.")
@remedies_option
def command(
    job: Path, firm: Path | None, as_json: bool, every: bool, adoption: str | None, against: str | None,
    no_remedies: bool,
) -> int:  # fmt: skip
    """Check a JOB, a folder with a job.toml, against the codes that it names.

    Under a check that fails stands what would clear it: changes of the job file that were each tried on the whole job.
    With --against it is worked out under both; what is printed are the verdicts, limits and clauses that differ.

    Exit code 0: nothing fails and nothing is open. 1: a check fails or cannot be told. 2: the job file has faults.
    """
    from standfast.foreman.plan import make_plan
    from standfast.foreman.remedies import remedied

    plan = make_plan(job, firm, adoption, runner_up=False)
    if not no_remedies and against is None:
        plan = remedied(plan)
    if against is not None:
        from standfast.foreman.answers import as_json as to_json
        from standfast.foreman.comparing import answer as compared

        data = compared(plan, make_plan(job, firm, against, runner_up=False))
        for line in [to_json(data)] if as_json else change_lines(data):
            click.echo(line)
    elif as_json:
        from standfast.foreman.answers import answer
        from standfast.foreman.answers import as_json as to_json

        click.echo(to_json(answer(plan)))
    else:
        click.echo(f"{plan.title}; adoption {plan.adoption.name}")
        for line in verdict_lines(plan.ledger, every=every):
            click.echo(line)
    return 1 if plan.ledger.open else 0
