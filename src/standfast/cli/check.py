"""standfast check."""

import json
from pathlib import Path

import click

from standfast.cli.printing import verdict_lines
from standfast.sheet.printed import check_data


@click.command(epilog="Example: standfast check my-job")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@click.option("--json", "as_json", is_flag=True, help="Print every check with its working as JSON.")
@click.option("--all", "every", is_flag=True, help="List the checks that pass or do not apply too.")
def command(job: Path, as_json: bool, every: bool) -> int:
    """Check a JOB, a folder with a job.toml, against the codes that it names.

    Exit code 0: nothing fails and nothing is open. 1: a check fails or cannot be told. 2: the job file has faults.
    """
    from standfast.foreman.plan import make_plan

    plan = make_plan(job)
    summary = plan.ledger.summary()
    if as_json:
        data = {
            "schema": 1,
            "job": plan.title,
            "adoption": plan.adoption.name,
            "checks": [check_data(check) for check in plan.ledger],
            "summary": summary,
        }
        click.echo(json.dumps(data, indent=1, ensure_ascii=False))
    else:
        click.echo(f"{plan.title}; adoption {plan.adoption.name}")
        for line in verdict_lines(plan.ledger, every=every):
            click.echo(line)
    return 1 if plan.ledger.open else 0
