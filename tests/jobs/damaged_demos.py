"""Damage from outside to the whole demos: what a wrong hand, a wrong tape and a wrong data sheet do to a job folder."""

import random
import re
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any, NamedTuple

import tomli
import tomlkit

from standfast.equipment.read import KINDS, shipped
from standfast.faults import FaultsFound, Refusal
from standfast.foreman.demo import job_text
from standfast.foreman.plan import ROLES, JobPlan, make_plan

WHOLE = ("one-wall", "detached-pair", "stack-outdoors", "cabinet")
NUMBER = re.compile(r"\d+(\.\d+)?")
DUE = (
    "id", "name", "kind", "title", "schema", "maker", "from", "to", "at", "height", "left", "bottom", "width", "depth",
)  # fmt: skip
"""Words without which many a file cannot be read at all."""
FACTORS = (0.0, 0.1, 0.1, 0.5, 2.0, 10.0, 10.0, -1.0)
Way = tuple[str | int, ...]
Data = dict[str, Any]


class Folder(NamedTuple):
    """What lies in a job's folder, as data: the job and the data sheets that it names."""

    job: Data
    sheets: dict[str, Data]

    def written(self, path: Path) -> Path:
        """Write it where make_plan reads it."""
        (path / "sheets").mkdir(parents=True, exist_ok=True)
        (path / "job.toml").write_text(tomlkit.dumps(self.job), "utf-8")
        for id, sheet in self.sheets.items():
            (path / "sheets" / f"{id}.toml").write_text(tomlkit.dumps(sheet), "utf-8")
        return path

    def copy(self) -> "Folder":
        return deepcopy(self)


def sound(name: str) -> Folder:
    """A demo with the data sheets that it names lying beside it."""
    job = tomli.loads(job_text(name))
    ids = {job["equipment"][role] for role in ROLES if role in job["equipment"]}
    return Folder(job, {id: tomli.loads(shipped()[id]) for id in sorted(ids)})


def planned(folder: Folder, path: Path) -> JobPlan | None:
    """The plan; None where the file is refused with faults, or the rules cannot be applied."""
    try:
        return make_plan(folder.written(path))
    except (FaultsFound, Refusal):
        return None


def leaves(data: object, way: Way = ()) -> Iterator[Way]:
    """The way to every word that holds no table."""
    if isinstance(data, dict):
        for key, inner in data.items():
            yield from leaves(inner, (*way, key))
    elif isinstance(data, list) and data and isinstance(data[0], dict):
        for number, inner in enumerate(data):
            yield from leaves(inner, (*way, number))
    else:
        yield way


def tables(data: object, way: Way = ()) -> Iterator[Way]:
    """The way to every table in a file or in a list of it."""
    if isinstance(data, dict):
        if way:
            yield way
        for key, inner in data.items():
            yield from tables(inner, (*way, key))
    elif isinstance(data, list):
        for number, inner in enumerate(data):
            yield from tables(inner, (*way, number))


def at(data: Any, way: Way) -> Any:
    for part in way:
        data = data[part]
    return data


def without(data: Any, way: Way) -> None:
    """Take out what stands there."""
    del at(data, way[:-1])[way[-1]]


def put(data: Any, way: Way, value: object) -> None:
    at(data, way[:-1])[way[-1]] = value


def _some(chance: random.Random, folder: Folder) -> Data:
    """Mostly the job, now and then a data sheet."""
    return folder.job if chance.random() < 0.7 else folder.sheets[chance.choice(sorted(folder.sheets))]


def _word(chance: random.Random, data: Data) -> Way:
    """A word that may be left out, and now and then one that may not."""
    due = () if chance.random() < 0.1 else DUE
    return chance.choice([way for way in leaves(data) if way[-1] not in due])


def no_word(chance: random.Random, folder: Folder) -> None:
    data = _some(chance, folder)
    without(data, _word(chance, data))


def no_table(chance: random.Random, folder: Folder) -> None:
    data = _some(chance, folder)
    without(data, chance.choice(list(tables(data))))


def not_known(chance: random.Random, folder: Folder) -> None:
    data = _some(chance, folder)
    put(data, _word(chance, data), "not known")


def scaled(value: object, factor: float) -> object:
    """A number, or the first one of a text, times a factor."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return type(value)(value * factor)
    found = NUMBER.search(value) if isinstance(value, str) else None
    if found is None or not isinstance(value, str):
        return value
    return f"{value[: found.start()]}{float(found.group()) * factor:g}{value[found.end() :]}"


def another_number(chance: random.Random, folder: Folder) -> None:
    data = _some(chance, folder)
    ways = [way for way in leaves(data) if scaled(at(data, way), 10.0) != at(data, way)]
    way = chance.choice(ways)
    put(data, way, scaled(at(data, way), chance.choice(FACTORS)))


def exchanged_ids(chance: random.Random, folder: Folder) -> None:
    """Two ids exchanged at one place each."""
    ids = [way for way in leaves(folder.job) if way[-1] in ("id", "from", "to", "wall", "room", "behind", "feeds")]
    one, two = chance.sample(ids, 2)
    first, second = at(folder.job, one), at(folder.job, two)
    put(folder.job, one, second)
    put(folder.job, two, first)


def another_quantity(chance: random.Random, folder: Folder) -> None:
    folder.job.setdefault("equipment", {})["quantity"] = chance.choice([0, 1, 2, 3, 8])


def another_sheet(chance: random.Random, folder: Folder) -> None:
    """Another sheet in a role, mostly of a kind that it takes, or none."""
    role = chance.choice(ROLES)
    fit = [id for id, text in shipped().items() if tomli.loads(text)["kind"] in KINDS[role]]
    id = chance.choice([None, *(fit if chance.random() < 0.9 else shipped())])
    if id is None:
        folder.job["equipment"].pop(role, None)
    else:
        folder.job["equipment"][role] = id


DAMAGES = (
    *[no_word] * 3, no_table, *[not_known] * 5, *[another_number] * 6, exchanged_ids, another_quantity,
    *[another_sheet] * 2,
)  # fmt: skip


def damaged(name: str, seed: int) -> Folder:
    """A demo with one to four damages; the same seed gives the same damage."""
    chance = random.Random(f"{name} {seed}")
    folder = sound(name)
    for _ in range(chance.randint(1, 4)):
        try:
            chance.choice(DAMAGES)(chance, folder)
        except (KeyError, AttributeError, TypeError):
            continue  # an earlier damage took away what this one would have hit
    return folder
