"""The text of a data sheet → a DataSheet and its faults; and the order in which sheets are looked up."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from typing import NamedTuple

from standfast.equipment.model import Kind, Sheet
from standfast.equipment.stacked import braced
from standfast.equipment.translated import other_numbers
from standfast.equipment.worked import worked
from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.complaints import nearest
from standfast.reading.document import NOT_KNOWN
from standfast.reading.positions import Path


class DataSheet(Document[Sheet]):
    """A data sheet as read; `fact` gives its numbers to the calculation sheet."""

    __slots__ = ()

    @property
    def sheet(self) -> Sheet:
        """The model of the whole sheet."""
        return self.content


class Reading(NamedTuple):
    """What came out of a data sheet; `sheet` is None where not even its head could be understood."""

    sheet: DataSheet | None
    faults: list[Fault]


NEEDS: dict[str, tuple[str, ...]] = {
    "battery unit": ("energy", "electrical", "fixing"), "inverter": ("electrical",), "lag screw": ("fastener",),
    "wood screw": ("fastener",), "anchor": ("anchor",), "aid": ("aid",), "breaker": ("switch",),
    "disconnect": ("switch",), "island switch": ("switch",), "brace plug": ("plug",), "fuse": ("switch",),
}  # fmt: skip
"""The tables that a sheet of each kind must have."""


KINDS: dict[str, tuple[Kind, ...]] = {
    "battery": ("battery unit",), "inverter": ("inverter",), "fastener": ("lag screw", "wood screw", "anchor"),
    "anchor": ("anchor",), "breaker": ("breaker",), "disconnect": ("disconnect",),
    "island_switch": ("island switch",), "disconnect_fastener": ("lag screw", "wood screw", "anchor"), "aid": ("aid",),
    "plug": ("brace plug",), "dc_disconnect": ("disconnect",), "dc_overcurrent": ("fuse", "breaker"),
    "inverter_fastener": ("lag screw", "wood screw", "anchor"), "base_anchor": ("anchor",),
}  # fmt: skip
"""The kinds of sheet that each word of [equipment] in a job takes."""


def misfit(role: str, sheet: Sheet) -> str:
    """What is wrong with a sheet in its role, for instance a screw as a battery; empty where it fits."""
    fit = KINDS[role]
    due = " or ".join(fit)
    return "" if sheet.kind in fit else f'{role} = "{sheet.id}" names a sheet of kind "{sheet.kind}", not {due}'


_STAND_IN: dict[Path, object] = {
    ("schema",): 1, ("id",): "not-known", ("invented",): True, ("maker",): NOT_KNOWN, ("name",): NOT_KNOWN,
}  # fmt: skip
"""Lets the rest of a sheet with a faulty head be looked at for faults. Never comes out of `read`."""


def read(text: str, file: str) -> Reading:
    """Read a data sheet: everything that is wrong, at once."""
    document, faults, headed = engine.read(text, file, Sheet, _STAND_IN)
    if document is None:
        return Reading(None, faults)
    sheet = DataSheet(file, document.content, document.index, document.unknown, document.raw)
    return Reading(sheet if headed else None, engine.in_order([*faults, *crossed(sheet)]))


def crossed(sheet: DataSheet) -> Iterator[Fault]:
    """Faults between words that are each in order by themselves."""
    content = sheet.sheet
    for table in NEEDS[content.kind]:
        if getattr(content, table) is None and (table,) not in sheet.index.words:
            why = f"a sheet of this kind needs the table [{table}]"
            yield sheet.fault(("kind",), f'kind is "{content.kind}"', why, f"add the table [{table}]")
    for word in ("terminals", "parts", "joints", "steps", "indications"):
        yield from engine.doubles(sheet, word)
    steps, shown = sheet.named("steps"), sheet.named("indications")
    joints = sheet.named("joints") | sheet.named("terminals")
    for number, step in enumerate(content.steps):
        at = ("steps", number)
        for position, before in enumerate(step.after):
            yield from _points(sheet, (*at, "after", position), before, steps - {step.id}, "step")
        yield from _points(sheet, (*at, "joint"), step.joint, joints, "joint or terminal")
        yield from _points(sheet, (*at, "indication"), step.indication, shown, "indication")
    yield from _circle(sheet)
    yield from worked(sheet)
    yield from braced(sheet)
    yield from other_numbers(sheet, content.translations)


def _points(
    sheet: DataSheet, path: tuple[str | int, ...], word: str | None, known: set[str], what: str
) -> Iterator[Fault]:
    if word is not None and word not in known:
        advice = nearest(word, sorted(known)) if known else f"add the {what}"
        yield sheet.fault(path, f'there is no {what} "{word}"', "", advice)


def _circle(sheet: DataSheet) -> Iterator[Fault]:
    """Steps that wait for each other."""
    waits = {step.id: set(step.after) for step in sheet.sheet.steps}
    while True:
        free = {step for step, before in waits.items() if not before & waits.keys()}
        if not free:
            break
        waits = {step: before for step, before in waits.items() if step not in free}
    ring = _ring(waits)
    for number, step in enumerate(sheet.sheet.steps):
        if step.id in ring:
            turned = ring[ring.index(step.id) :] + ring[: ring.index(step.id)]
            why = " waits for ".join(f'"{each}"' for each in (*turned, step.id))
            what = f'step "{step.id}" can never begin'
            yield sheet.fault(("steps", number, "after"), what, why, "take one of the steps out of after")
            return


def _ring(waits: Mapping[str, set[str]]) -> list[str]:
    """Steps of which each waits for the next and the last for the first; empty where none waits for itself.

    Args:
        waits: of each step that can never begin what it waits for; each waits for one of the others.
    """
    way: list[str] = []
    step = min(waits, default="")
    while step and step not in way:
        way.append(step)
        step = min(waits[step] & waits.keys())
    return way[way.index(step) :] if step else []


@cache
def shipped() -> Mapping[str, str]:
    """The invented sheets of the package: id → text."""
    folder = resources.files("standfast.equipment").joinpath("sheets")
    names = sorted(each.name for each in folder.iterdir() if each.name.endswith(".toml"))
    return {name.removesuffix(".toml"): folder.joinpath(name).read_text(encoding="utf-8") for name in names}


def find(id: str, *folders: Mapping[str, str]) -> Reading:
    """The data sheet of an id.

    Args:
        id: the id of the sheet, which is also the name of its file without ``.toml``.
        folders: id → text, the folder that comes first wins: the job's, the firm's. The package comes last.

    Returns:
        The reading of the first sheet found; None and one fault without a line where there is none.
    """
    for folder in (*folders, shipped()):
        if id in folder:
            reading = read(folder[id], f"{id}.toml")
            if reading.sheet is not None and reading.sheet.sheet.id != id:
                what = f'id is "{reading.sheet.sheet.id}" in a file that is called {id}.toml'
                fault = reading.sheet.fault(("id",), what, "a job finds a sheet by both", "make them the same")
                return Reading(reading.sheet, [*reading.faults, fault])
            return reading
    known = sorted({*shipped(), *(each for folder in folders for each in folder)})
    what = f'there is no data sheet "{id}"'
    return Reading(None, [Fault(f"{id}.toml", 0, 0, what, "looked for in job, firm and package", nearest(id, known))])
