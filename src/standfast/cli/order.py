"""standfast order."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import firm_option


@click.command(epilog="Example: standfast order my-job --json")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print the order as JSON.")
def command(job: Path, firm: Path | None, as_json: bool) -> int:
    """Show the steps of a JOB in one order, and what is unsafe in any order that they allow.

    A step that some order lets meet power is told with the shortest such order and the smallest extra wait that mends
    it. Exit code 0: hands meet no power in any order; 1: in some they may.
    """
    from standfast.foreman.answers import as_json as to_json
    from standfast.foreman.ordering import ordering
    from standfast.foreman.plan import make_plan

    data: Mapping[str, Any] = ordering(make_plan(job, firm))
    if as_json:
        click.echo(to_json(data))
    else:
        for line in _lines(data):
            click.echo(line)
    return 1 if data["unsafe"] else 0


def _lines(data: Mapping[str, Any]) -> Iterator[str]:
    yield f"{data['job']}; adoption {data['adoption']}"
    part = ""
    for step in data["steps"]:
        if step["part"] != part:
            part = step["part"]
            yield part.upper()
        after = f"   after {', '.join(map(str, step['after']))}" if step["after"] else ""
        yield f"{step['number']:>4}  {step['text']}{after}"
        for turn in step["turns"]:
            yield f"        {turn['change']} {turn['switch']}"
    for each in data["unsafe"]:
        yield f"UNSAFE  step {each['step']}: {each['text']}"
        source = f" from {each['source']} through {', '.join(each['through'])}" if each["source"] else ""
        yield f"        {each['what']}: {each['why']}{source}"
        yield f"        where the steps are done as {', '.join(map(str, each['order']))}"
        waits = [f"step {wait['step']} waits for step {wait['waits_for']}" for wait in each["mended_by"]]
        yield f"        mended where {' and '.join(waits)}" if waits else "        no extra wait mends it"
    if not data["unsafe"]:
        yield f"{len(data['steps'])} steps: in every order that they allow, hands meet no power"
