"""standfast demo."""

from pathlib import Path

import click

from standfast.cli.printing import packed_lines, verdict_lines


@click.command(epilog="Example: standfast demo --out demo")
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path("standfast-demo"), show_default=True,
    help="Folder for the demo job; an earlier demo there is written over, any other job is left as it is.",
)  # fmt: skip
@click.option("--faulty", is_flag=True, help="The demo job that is full of faults instead.")
def command(out: Path, faulty: bool) -> int:
    """Run the main job on an invented house: work it out, and write its papers.

    House, people, firm and equipment do not exist. Exit codes are those of `pack`.
    """
    from standfast.foreman.demo import write_demo
    from standfast.foreman.pack import pack
    from standfast.foreman.plan import make_plan

    folder = write_demo("faulty" if faulty else "one_wall", out)
    plan = make_plan(folder)
    packed = pack(plan)
    made, unit = plan.design, plan.design.wiring.unit
    click.echo(f"{plan.title}; adoption {plan.adoption.name}. Everything in it is invented.")
    left, bottom = made.siting.places[0].left, made.siting.places[0].bottom
    if not left.missing and not bottom.missing:
        at = f"{left.quantity:.0f} mm from its left end, {bottom.quantity:.0f} mm above the floor"
        click.echo(f"  place     on {made.siting.places[0].wall}, {at}")
    held = made.anchorages[0]
    if held.fixing is not None:
        click.echo(f"  held by   {len(held.holes)} × {held.fixing.content.name}")
    if unit is not None and not unit.breaker.missing and not unit.circuit.conductor.size.missing:
        size = unit.circuit.conductor.size.word
        click.echo(f"  circuit   {unit.breaker.quantity:g} A breaker, {size} AWG conductors")
    heaviest = plan.lifting.heaviest
    if heaviest is not None:
        click.echo(f"  lifting   {heaviest.way}{', ' + heaviest.aid if heaviest.aid else ''}: {heaviest.reason}")
    for line in verdict_lines(plan.ledger, every=False):
        click.echo(f"  {line}")
    for line in packed_lines(packed):
        click.echo(line)
    return 1 if packed.against else 0
