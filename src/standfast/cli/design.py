"""standfast design."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import firm_option
from standfast.cli.printing import choice_lines

NOT_KNOWN = "not known"
Length = Callable[[float | None], str]
"""How a length in mm is printed."""


@click.command(epilog="Example: standfast design my-job --json")
@click.argument("job", type=click.Path(path_type=Path), default=".")
@firm_option
@click.option("--json", "as_json", is_flag=True, help="Print the design as JSON.")
def command(job: Path, firm: Path | None, as_json: bool) -> int:
    """Show the design that was chosen for a JOB: place, fixing, circuits, busbars, fault currents, labels, lifting,
    and what the work brings of the existing house.

    At the end stand the price rows of what was chosen, what was proven about it, and how far the runner-up is.

    Exit codes are those of `check`: a design with a failing or open check is shown too, and is not to be built.
    """
    from standfast.foreman.answers import as_json as to_json
    from standfast.foreman.designed import designed
    from standfast.foreman.plan import make_plan

    plan = make_plan(job, firm)
    data: Mapping[str, Any] = designed(plan)
    if as_json:
        click.echo(to_json(data))
    else:
        from standfast.foreman.remedies.tape import in_feet

        shown = _feet if in_feet(plan, ("walls", 0, "length")) else _mm
        for line in _lines(data, shown):
            click.echo(line)
        if plan.ledger.open:
            click.echo(f"NOT TO BE BUILT: {len(plan.ledger.open)} checks fail or cannot be told: see standfast check")
    return 1 if plan.ledger.open else 0


def _lines(data: Mapping[str, Any], shown: Length) -> Iterator[str]:
    """The design for people: a line a thing; lengths as the job writes them."""
    yield f"{data['job']}; adoption {data['adoption']}"
    for unit in data["units"]:
        yield from _unit(unit, shown)
    if data["inverter"] is not None:
        yield f"place     inverter on {data['inverter']['wall']}"
        yield from _held(data["inverter"]["fixing"], shown)
    for circuit in data["circuits"]:
        yield from _circuit(circuit)
    voltage = data["voltage"]
    yield f"voltage   drop {_shown(voltage['drop_percent'], '%')}, rise {_shown(voltage['rise_percent'], '%')}"
    for bar in data["busbars"]:
        by = f"by option {bar['option']}" if bar["option"] else "by no option"
        yield f"busbar    {bar['panel']}: {bar['verdict']} {by}; sources × 125 % {_shown(bar['sources_a'], 'A')}"
    for each in data["fault_currents"]:
        yield f"fault     {_shown(each['ka'], 'kA')} at {each['at']}; least {_shown(each['least_ka'], 'kA')}"
    for label in data["labels"]:
        yield f"label     {label['id']} {label['at']}: {label['wording']} ({label['clause']})"
    for row in data["lifting"]:
        aid = f", {row['aid']}" if row["aid"] else ""
        people = "" if row["people"] is None else f", people: {row['people']}"
        yield f"lifting   {row['unit']}, {row['name']} {_shown(row['mass_kg'], 'kg')}: {row['way']}{aid}{people}"
    for part in data["existing"]:
        yield _existing(part)
    yield from choice_lines(data["choice"])


def _unit(unit: Mapping[str, Any], shown: Length) -> Iterator[str]:
    left, bottom = shown(unit["left_mm"]), shown(unit["bottom_mm"])
    yield f"place     {unit['unit']} on {unit['wall']}, {left} from its left end, {bottom} above the floor"
    yield from _held(unit["fixing"], shown)


def _held(fixing: Mapping[str, Any], shown: Length) -> Iterator[str]:
    """What holds a unit, hole by hole, in the wall and in the floor."""
    yield f"held by   {len(fixing['holes'])} × {fixing['name'] or NOT_KNOWN}"
    for hole in fixing["holes"]:
        yield f"          {hole['id']}  {shown(hole['x_mm'])} along, {shown(hole['y_mm'])} up"
    foot = fixing["foot"]
    if foot is None:
        return
    yield f"          and {len(foot['holes'])} × {foot['name'] or NOT_KNOWN} in the floor"
    for hole in foot["holes"]:
        yield f"          {hole['id']}  {shown(hole['x_mm'])} along, {shown(hole['out_mm'])} out of the wall"


def _circuit(circuit: Mapping[str, Any]) -> Iterator[str]:
    metal = circuit["material"] or NOT_KNOWN
    size = f"size {circuit['size'] or NOT_KNOWN} {metal}, equipment ground {circuit['ground'] or NOT_KNOWN}"
    neutral = {True: "with neutral", False: "no neutral", None: "neutral not known"}[circuit["neutral"]]
    yield f"circuit   {circuit['title']}: {_shown(circuit['device_a'], 'A')} device, {size}, {neutral}"
    for tube in circuit["raceways"]:
        size = f"{tube['trade_size'] or NOT_KNOWN} {tube['kind'] or NOT_KNOWN}"
        yield f"          {tube['run']}: {size}, {_shown(tube['fill_percent'], '%')} full"


def _existing(part: Mapping[str, Any]) -> str:
    """A part of the existing house: how it stands, and what is done where it is not in order."""
    at, work = (f" at {part['at']}" if part["at"] else ""), ", ".join(part["work"]) or "not known yet"
    text = f"existing  {part['part']}{at}: {part['state']} ({part['clause']}; brought by: {work})"
    if part["state"] == "in order":
        return text
    invented = " (invented)" if part["invented"] else ""
    price = "no price" if part["price"] is None else f"{part['price']:,.0f} {part['currency']}{invented}"
    return f"{text}; {part['does']}: {price}"


def _shown(number: float | None, unit: str) -> str:
    from standfast.units import show

    return NOT_KNOWN if number is None else show(number, unit)


def _mm(number: float | None) -> str:
    return _shown(number, "mm")


def _feet(number: float | None) -> str:
    """To the sixteenth of an inch, and in mm."""
    from standfast.units import feet_inches

    return NOT_KNOWN if number is None else f"{feet_inches(number)} ({_mm(number)})"
