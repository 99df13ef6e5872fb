"""standfast explain."""

import json
from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import firm_option, remedies_option
from standfast.cli.printing import choice_lines, working_lines
from standfast.faults import Fault, FaultsFound
from standfast.sheet.printed import check_data

CHOICE = "choice"
"""The word that asks for the choice and not for a check."""


@click.command(epilog="Example: standfast explain my-job wiring.interrupting")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("check")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print as JSON.")
@remedies_option
def command(job: Path, check: str, firm: Path | None, as_json: bool, no_remedies: bool) -> int:
    """Show the working behind every CHECK of a JOB whose id holds the text given.

    Each number is shown with its formula, the inputs it was made from, its clause with edition or its place in the job
    file, and where the number of a code was read. The word "choice" shows what was chosen and why, with its price.
    """
    from standfast.foreman.chosen import chosen
    from standfast.foreman.plan import make_plan
    from standfast.foreman.remedies import remedied

    plan = make_plan(job, firm)
    if check == CHOICE:
        return _choice(chosen(plan.design.choice), as_json=as_json)
    found = plan.ledger.find(check)
    if not found:
        near = get_close_matches(check, [each.id for each in plan.ledger], n=3, cutoff=0.4)
        todo = f"`standfast check {job} --all` lists them" + (f"; near are {', '.join(near)}" if near else "")
        raise FaultsFound([Fault(str(job), 0, 0, f"no check has {check!r} in its id", "", todo)])
    if not no_remedies:
        ids = [each.id for each in found]
        told = remedied(plan, ids).ledger
        found = [told[id] for id in ids]
    if as_json:
        click.echo(
            json.dumps({"schema": 1, "checks": [check_data(each) for each in found]}, indent=1, ensure_ascii=False)
        )
        return 0
    for number, each in enumerate(found):
        if number:
            click.echo("")
        for line in working_lines(each):
            click.echo(line)
    return 0


def _choice(choice: Mapping[str, Any], *, as_json: bool) -> int:
    if as_json:
        click.echo(json.dumps({"schema": 1, "choice": choice}, indent=1, ensure_ascii=False))
        return 0
    for line in choice_lines(choice):
        click.echo(line)
    return 0
