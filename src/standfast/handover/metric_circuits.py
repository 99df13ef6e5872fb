"""Circuits that count in square millimetres: the sheet of the set, and rows for spreadsheets."""

from collections.abc import Iterator

from standfast.design.wiring.metric.built import Final, MetricCircuit, MetricWiring
from standfast.paper.document import Block, Heading, Sheet, Table, Text, Words, bold
from standfast.paper.schedule import Cell, Schedule, cell
from standfast.sheet import Value
from standfast.sheet.printed import amount

CODE = "E6"
HEAD = (
    "circuit", "title", "from", "cable", "live mm2", "protective mm2", "device", "curve", "I_n A", "I_b A", "method",
    "C_a", "C_g", "C_i", "I_t A", "I_z A", "length m", "drop %", "rise %", "R1+R2 ohm", "Zs ohm", "Zs greatest ohm",
    "earth fault A",
)  # fmt: skip
_WORDS = (
    "Each circuit at the worst place of its way: a factor holds where its place is, and factors of different places "
    "are not multiplied. Loop impedances are with warm conductors; a reading on a cold circuit is put to the limit for "
    "cold ones, which is lower."
)


def sheet(found: MetricWiring | None) -> list[Sheet]:
    """The sheet of the circuits; none of a job under other rules."""
    if found is None or not found.circuits:
        return []
    blocks: list[Block] = [Words(_WORDS, 8), _built(found)]
    if found.finals:
        blocks += [Heading("Circuits that stay on while the grid is away", 2), _finals(found)]
    return [Sheet(CODE, "Circuits", blocks)]


def schedule(found: MetricWiring) -> Schedule:
    """The circuits as rows."""
    return Schedule("circuits", HEAD, tuple(_cells(each) for each in found.circuits))


def _cells(each: MetricCircuit) -> tuple[Cell, ...]:
    values = (
        each.cable, each.area, each.protective_area, each.device, each.curve, each.I_n, each.I_b, each.method,
        *(each.factors[name] for name in ("ambient", "grouping", "insulation")), each.I_t, each.I_z, each.length,
        each.drop,
    )  # fmt: skip
    rise: Cell = "" if each.rise is None else cell(each.rise)
    loop = (each.r_12, each.loop.grid, each.loop.greatest, each.loop.current)
    return (each.id, each.title, each.panel, *map(cell, values), rise, *map(cell, loop))


def _built(found: MetricWiring) -> Table:
    rows: list[list[Text]] = [list(_row(each)) for each in found.circuits]
    head = [
        "Circuit",
        "Cable and device",
        "Ib ≤ In ≤ Iz",
        "Method, It, Ca, Cg, Ci",
        "Drop, rise",
        "Zs, greatest",
        "R1 + R2",
    ]
    return Table(head, rows, [2, 4.2, 2, 2.8, 1.5, 1.8, 1.1], size=8)


def _row(each: MetricCircuit) -> Iterator[Text]:
    factors = ", ".join(_bare(each.factors[name]) for name in ("ambient", "grouping", "insulation"))
    yield [bold(each.title)]
    yield each.line
    yield f"{amount(each.I_b)} ≤ {amount(each.I_n)} ≤ {amount(each.I_z)}"
    yield f"{amount(each.method)}, {amount(each.I_t)}; {factors}"
    yield amount(each.drop) if each.rise is None else f"{amount(each.drop)}, {amount(each.rise)}"
    yield f"{amount(each.loop.grid)} ≤ {amount(each.loop.greatest)}"
    yield amount(each.r_12)


def _finals(found: MetricWiring) -> Table:
    rows: list[list[Text]] = [list(_final(each)) for each in found.finals]
    head = [
        "Circuit",
        "Device",
        "Zs grid, greatest",
        "Fault on the grid",
        "Zs island",
        "Fault on the inverter",
        "Within",
    ]
    return Table(head, rows, [2.4, 2, 2, 1.4, 1.4, 1.6, 1], size=8)


def _final(each: Final) -> Iterator[Text]:
    residual = "residual device not known" if each.residual is None else "no residual device"
    residual = f"residual device {amount(each.I_dn)}" if each.residual else residual
    yield [bold(each.title)]
    yield f"{amount(each.I_n)}, {residual}"
    yield f"{amount(each.loop.grid)}, {amount(each.loop.greatest)}"
    yield amount(each.loop.current)
    yield _or(each.loop.island)
    yield _or(each.loop.island_current)
    yield amount(each.loop.longest)


def _or(value: Value | None) -> str:
    return "not carried" if value is None else amount(value)


def _bare(value: Value) -> str:
    return "not known" if value.missing else f"{value.quantity:g}"
