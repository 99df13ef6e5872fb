"""standfast demo."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from standfast.cli.options import OneOf
from standfast.cli.printing import packed_lines, verdict_lines

if TYPE_CHECKING:  # a call for help loads nothing
    from standfast.foreman.plan import JobPlan


@click.command(epilog="Example: standfast demo stack-outdoors --out demo")
@click.argument("job", type=OneOf("demo", "standfast.foreman.demo", "DEMOS"), default="one-wall")
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path("standfast-demo"), show_default=True,
    help="Folder for the demo job; an earlier demo there is written over, any other job is left as it is.",
)  # fmt: skip
@click.option("--list", "listed", is_flag=True, help="Only say which demo jobs there are.")
def command(job: str, out: Path, listed: bool) -> int:
    """Run a demo JOB on an invented house: work it out, and write its papers. The main one is one-wall.

    House, people, firm and equipment do not exist. Exit codes are those of `pack`.
    """
    from standfast.foreman.demo import DEMOS, write_demo
    from standfast.foreman.pack import pack
    from standfast.foreman.plan import make_plan

    if listed:
        for name, about in DEMOS.items():
            click.echo(f"{name:16} {about}")
        return 0
    plan = make_plan(write_demo(job, out))
    packed = pack(plan)
    click.echo(f"{plan.title}; adoption {plan.adoption.name}. Everything in it is invented.")
    for line in (*_chosen(plan), *verdict_lines(plan.ledger, every=False)):
        click.echo(f"  {line}")
    for line in packed_lines(packed):
        click.echo(line)
    return 1 if packed.against else 0


def _chosen(plan: "JobPlan") -> Iterator[str]:
    """What was chosen, in a few lines."""
    made = plan.design
    for place in made.siting.places:
        if not place.left.missing and not place.bottom.missing:
            at = f"{place.left.quantity:.0f} mm from its left end, {place.bottom.quantity:.0f} mm above the floor"
            yield f"place     {place.unit.id} on {place.wall}, {at}"
    for held in made.anchorages:
        if held.fixing is not None:
            yield f"held by   {held.unit}: {len(held.holes)} × {held.fixing.content.name}"
    for unit in made.wiring.units:
        if not unit.breaker.missing and not unit.circuit.conductor.size.missing:
            size = unit.circuit.conductor.size.word
            yield f"circuit   {unit.circuit.id}: {unit.breaker.quantity:g} A breaker, {size} AWG conductors"
    for circuit in made.wiring.metric.circuits if made.wiring.metric is not None else ():
        yield f"circuit   {circuit.id}: {circuit.line}"
    heaviest = plan.lifting.heaviest
    if heaviest is not None:
        yield f"lifting   {heaviest.way}{', ' + heaviest.aid if heaviest.aid else ''}: {heaviest.reason}"
