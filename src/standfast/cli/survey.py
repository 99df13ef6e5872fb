"""standfast survey."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from standfast.cli.options import firm_option

if TYPE_CHECKING:
    from standfast.foreman.surveyed import Surveyed
    from standfast.sheet.wanted import Wanted


@click.command(epilog="Example: standfast survey my-job")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print the list as JSON.")
def command(job: Path, firm: Path | None, as_json: bool) -> int:
    """List what is still to be found out for a JOB, first what most verdicts hang on.

    A job that has only been begun is told what it needs before anything can be worked out. At the end stand the
    documents that the authority asks and the set has not.

    Exit code 0: every check can be told and no document is missing. 1: something is still to be found out.
    """
    from standfast.foreman.answers import as_json as to_json
    from standfast.foreman.surveyed import surveyed

    found = surveyed(job, firm)
    if as_json:
        click.echo(to_json(_data(found)))
    else:
        click.echo(f"{found.title}; adoption {found.adoption}")
        for row in found.rows:
            _print(row)
        for each in found.documents:
            click.echo(f"document  {each.document}: {each.remark}")
        click.echo(
            f"{found.untold} of {found.checks} checks cannot be told; documents missing: {len(found.documents)}; "
            f"to find out: {len(found.rows)}"
        )
    return 1 if found.rows or found.documents else 0


def _data(found: "Surveyed") -> Mapping[str, object]:
    """The list in the form of ``schemas/survey.json``."""
    rows = [
        {"need": row.need, "why": row.why, "file": row.file or None, "word": row.word or None,
         "checks": list(row.checks), "alone": list(row.alone)}
        for row in found.rows
    ]  # fmt: skip
    papers = [{"document": each.document, "add": each.remark} for each in found.documents]
    return {
        "schema": 1, "job": found.title, "adoption": found.adoption, "wanted": rows, "documents": papers,
        "cannot_tell": found.untold,
    }  # fmt: skip


def _print(row: "Wanted") -> None:
    click.echo(f"{len(row.checks):4}  {row.need}" if row.checks else f"begin {row.need}")
    if row.checks:
        settled = f", {len(row.alone)} by this alone" if row.alone else ""
        click.echo(f"      holds up {len(row.checks)}{settled}: {', '.join(row.checks)}")
