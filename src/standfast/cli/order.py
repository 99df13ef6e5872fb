"""standfast order."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import firm_option

CONDITIONS = ("sound", "end-of-life", "damaged")
WHATS = ("module", "head", "inverter", "unit", "firmware")


@click.command(epilog="Example: standfast order my-job --json")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--removal", is_flag=True, help="The order in which all of it is taken away again.")
@click.option("--condition", type=click.Choice(CONDITIONS), help="Of a removal: the state in which the battery leaves.")
@click.option("--service", type=click.Choice(WHATS), help="The order in which a part is replaced or firmware updated.")
@click.option("--unit", help="Of a service: which unit or inverter, by its id: battery-2.")
@click.option("--after", help="What must be done again when this step, by number or id, is done once more.")
@click.option("--json", "as_json", is_flag=True, help="Print the order as JSON.")
def command(
    job: Path, firm: Path | None, removal: bool, condition: str | None, service: str | None, unit: str | None,
    after: str | None, as_json: bool,
) -> int:  # fmt: skip
    """Show the steps of a JOB in one order, and what is unsafe in any order that they allow.

    Without more it is the installation; a removal or a service starts from the house as it was built. A step that
    some order lets meet power is told with the shortest such order and the smallest extra wait that mends it. With
    --after only the steps are told that count no longer when one is done once more: a cover taken off again, a
    terminal opened, a part exchanged. Exit code 0: in any order hands meet no power and nothing is out of sequence;
    1: in some order it may be so.
    """
    from standfast.foreman.answers import as_json as to_json
    from standfast.foreman.ordering import ordering, removing, serving
    from standfast.foreman.plan import make_plan
    from standfast.foreman.redoing import redoing

    if condition and not removal:
        raise click.UsageError("--condition is that of a removal: give --removal too")
    if removal and service:
        raise click.UsageError("give --removal or --service, not both")
    if unit and not service:
        raise click.UsageError("--unit is that of a service: give --service too")
    plan = make_plan(job, firm)
    data: Mapping[str, Any] = (
        removing(plan, condition or "sound") if removal
        else serving(plan, service, unit or "") if service else ordering(plan)
    )  # fmt: skip
    if after:
        again = redoing(data, after)
        click.echo(to_json(again) if as_json else "\n".join(_again(again)))
        return 0
    if as_json:
        click.echo(to_json(data))
    else:
        for line in _lines(data):
            click.echo(line)
    return 1 if data["unsafe"] else 0


def _again(data: Mapping[str, Any]) -> Iterator[str]:
    """What counts no longer when one step is done once more."""
    yield f"{data['job']}; adoption {data['adoption']}; {data['work']}"
    yield f"Step {data['step']['number']} done once more: {data['step']['text']}"
    if not data["redo"]:
        yield "Nothing else has to be done again: it opens, lands and exchanges nothing that another step relied on."
    for step in data["redo"]:
        yield f"AGAIN {step['number']:>4}  {step['text']}"


def _lines(data: Mapping[str, Any]) -> Iterator[str]:
    units = "".join(f", {each['name']}" for each in data.get("units", ()))
    yield f"{data['job']}; adoption {data['adoption']}; {data['work']}{units}"
    part = ""
    for step in data["steps"]:
        if step["part"] != part:
            part = step["part"]
            yield part.upper()
        after = f"   after {', '.join(map(str, step['after']))}" if step["after"] else ""
        yield f"{step['number']:>4}  {step['text']}{after}"
        for turn in step["turns"]:
            yield f"        {turn['change']} {turn['switch']}"
    yield from _day(data.get("schedule"))
    for each in data.get("tests", ()):
        limit = f"; {each['limit']} ({each['ground']})" if each["limit"] else ""
        yield f"TEST {each['id']}  {each['what']}{limit}"
    for each in data.get("rules", ()):
        yield f"RULE  {each['rule']}: {_rule(each)}: {each['verdict']}"
    for each in data.get("carriage", ()):
        yield f"CARRIAGE  {each['rule']}: {each['what']} (by {each['by']})"
    for each in data["unsafe"]:
        yield f"UNSAFE  step {each['step']}: {each['text']}"
        source = f" from {each['source']} through {', '.join(each['through'])}" if each["source"] else ""
        yield f"        {each['what']}: {each['why']}{source}"
        yield f"        where the steps are done as {', '.join(map(str, each['order']))}"
        waits = [f"step {wait['step']} waits for step {wait['waits_for']}" for wait in each["mended_by"]]
        yield f"        mended where {' and '.join(waits)}" if waits else "        no extra wait mends it"
    if not data["unsafe"]:
        kept = "hands meet no power and nothing is out of sequence"
        yield f"{len(data['steps'])} steps: in every order that they allow, {kept}"


def _rule(rule: Mapping[str, Any]) -> str:
    if rule["then"] is None:
        return str(rule["first"])
    before, after = (", ".join(map(str, rule[word])) or "none" for word in ("before", "after"))
    return f"{rule['first']} (steps {before}), before {rule['then']} (steps {after})"


def _day(day: Mapping[str, Any] | None) -> Iterator[str]:
    """What the crew and the owner have to know of the day."""
    if day is not None:
        yield "THE CREW'S DAY"
        yield from (f"      {line}" for line in day["crew"])
        yield "FOR THE OWNER"
        yield from (f"      {line}" for line in day["owner"])
