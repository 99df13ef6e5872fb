"""An invented garage with walls of one's own, for the tests of siting."""

from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.equipment import read
from standfast.equipment.read import DataSheet, shipped
from standfast.sheet import Check
from standfast.shelf import adoption
from standfast.survey import read as read_job
from standfast.survey.read import Survey

US = adoption("us-2021")
HEAD = """schema = 1
[job]
name = "Invented garage"
invented = true
date = 2026-05-04
adoption = "us-2021"
[conditions]
temperature_high = "100 °F"
temperature_low = "30 °F"
flood_hazard_area = false
[tolerances]
placing = "10 mm"
"""
GARAGE = {
    "kind": '"attached garage"', "ceiling": '"9 ft"', "lining": '"finished"', "separated": "true",
    "opens_into": '"outside"', "detection": '"heat detector, interconnected"', "other_storage": '"0 kWh"',
}  # fmt: skip
PANEL = {
    "kind": '"panelboard"', "width": '"16 in"', "height": '"30 in"', "bottom": '"45 in"', "depth": '"4 in"',
    "volts_to_ground": '"120 V"', "state": '"existing"',
}  # fmt: skip
Words = dict[str, str]


def _words(words: Words) -> str:
    return "".join(f"{word} = {value}\n" for word, value in words.items())


def room(id: str = "garage", **changed: str) -> str:
    """A room of the job: a garage, with words changed."""
    return f'[[rooms]]\nid = "{id}"\n' + _words({**GARAGE, **changed})


def obstacle(id: str, left: str, **changed: str) -> str:
    """A thing on the wall before it: a panel, with words changed."""
    return f'[[walls.obstacles]]\nid = "{id}"\nleft = "{left}"\n' + _words({**PANEL, **changed})


def wall(id: str = "east", *more: str, length: str = "20 ft", build: str = "concrete", **changed: str) -> str:
    """A wall that no vehicle reaches, with things on it and other tables."""
    words = {
        "room": '"garage"', "length": f'"{length}"', "height": '"9 ft"', "facing": '"20 ft"', "facing_is": '"bare"',
        "vehicles": "false", **changed,
    }  # fmt: skip
    none = "".join(f"{list} = []\n" for list in ("openings", "obstacles") if f"[[walls.{list}]]" not in "".join(more))
    return f'[[walls]]\nid = "{id}"\n{_words(words)}{none}[walls.build_up]\nkind = "{build}"\n' + "".join(more)


LOW = '[[acceptances]]\nid = "low"\nwhat = "ignition height"\naccepted = true\n'
"""The authority does not ask for the height of ignition sources."""


def job(*parts: str, quantity: int = 2, low: str = LOW) -> Survey:
    """A job of these parts, without faults; `low` is what the authority said of the height of ignition sources."""
    text = HEAD + low + "".join(parts) + f'[equipment]\nbattery = "demo-wall-10"\nquantity = {quantity}\n'
    reading = read_job(text)
    assert reading.survey is not None
    assert not reading.faults, reading.faults
    return reading.survey


def sheet(*swaps: tuple[str, str], id: str = "demo-wall-10") -> DataSheet:
    """A shipped data sheet with words changed."""
    text = shipped()[id]
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    found = read(text, f"{id}.toml")
    assert found.sheet is not None and not found.faults, found.faults
    return found.sheet


def placed(survey: Survey, battery: DataSheet | None = None, inverter: DataSheet | None = None) -> Siting:
    """The units of a job at their places."""
    sheets = {"battery": battery or sheet()} | ({} if inverter is None else {"inverter": inverter})
    return site(US, survey, sheets)


def wish(unit: int, wall: str = "east", **edges: str) -> str:
    """What is wished for one unit of several."""
    return f'[[wishes.units]]\nid = "battery-{unit}"\nwall = "{wall}"\n' + _words(
        {word: f'"{edge}"' for word, edge in edges.items()}
    )


def check(siting: Siting, id: str) -> Check:
    """A check by its id without its trade."""
    return next(each for each in siting.checks if each.id == f"siting.{id}")


def open_ids(siting: Siting) -> set[str]:
    """The ids of the checks that fail or cannot be told, without their trade."""
    return {each.id.removeprefix("siting.") for each in siting.checks if each.open}


def lefts(siting: Siting) -> list[float]:
    """The left edges of the units, mm, in the order of their names."""
    return [each.left.quantity for each in siting.places]
