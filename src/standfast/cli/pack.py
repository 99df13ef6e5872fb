"""standfast pack."""

import json
from pathlib import Path

import click

from standfast.cli.options import OneOf, firm_option
from standfast.cli.printing import packed_lines


@click.command(epilog="Example: standfast pack my-job")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option(
    "--language", "languages", multiple=True, type=OneOf("language", "standfast.words", "OTHERS"),
    help="Write the work order in this language too, beside English; may be given several times.",
)  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print what was written and the counter list as JSON.")
def command(job: Path, firm: Path | None, languages: tuple[str, ...], as_json: bool) -> int:
    """Write the permit set, the work order, the sheet of existing defects, drawings and lists of a JOB into its out/.

    First the counter list is printed: every document that the authority asks, and where it is. With anything open or
    missing the set says NOT READY TO SUBMIT, and the exit code is 1.
    """
    from standfast.foreman.pack import pack
    from standfast.foreman.plan import make_plan
    from standfast.foreman.remedies import remedied

    packed = pack(remedied(make_plan(job, firm)), languages)
    if as_json:
        data = {
            "schema": 1,
            "ready": not packed.against,
            "against": packed.against,
            "counter": packed.counter,
            "written": [str(path) for path in packed.paths],
            "left_out": packed.left_out,
        }
        click.echo(json.dumps(data, indent=1, ensure_ascii=False))
        return 1 if packed.against else 0
    click.echo("Counter list:")
    for line in packed.counter:
        click.echo(f"  {line}")
    for line in packed_lines(packed):
        click.echo(line)
    return 1 if packed.against else 0
