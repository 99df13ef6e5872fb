"""The sentence that each word of a file format carries: one source for editor help, reference and missing facts.

The sentences stand under the fields of the models as plain strings. They are read from the model's source only when
somebody asks, so that reading a job costs nothing for them.
"""

import re
from functools import cache
from importlib import resources
from typing import get_args

from standfast.reading.kinds import is_list
from standfast.reading.positions import Path
from standfast.reading.quantities import Table

_CLASS = re.compile(r"^class (\w+)\(", re.MULTILINE)
_FIELD = re.compile(r'^    (\w+): .*?\n    """(.*?)"""', re.MULTILINE | re.DOTALL)


def annotation(table: type[Table], word: str) -> object:
    """The type of a word of a table; None where the table knows no such word."""
    return next((field.annotation for name, field in table.model_fields.items() if word in (name, field.alias)), None)


def words_of(table: type[Table] | None) -> list[str]:
    """The words of a table as files write them."""
    return [field.alias or name for name, field in table.model_fields.items()] if table else []


def table_in(kind: object) -> type[Table] | None:
    """The table class inside a type: of a table, of an optional one, or of a list of them."""
    if isinstance(kind, type) and issubclass(kind, Table):
        return kind
    return next((found for each in get_args(kind) if (found := table_in(each)) is not None), None)


def table_at(model: type[Table], path: Path) -> type[Table] | None:
    """The class of the table at a path of the file; None where there is no table."""
    table: type[Table] | None = model
    for part in path:
        if isinstance(part, str):
            table = table_in(annotation(table, part)) if table else None
    return table


def homes_of(model: type[Table], word: str, path: str = "") -> list[str]:
    """Heads of the tables that know a word: ``[body]``, ``[[walls.obstacles]]``."""
    found: list[str] = []
    for name, field in model.model_fields.items():
        way = f"{path}.{field.alias or name}" if path else field.alias or name
        inner = table_in(field.annotation)
        if inner is not None:
            head = f"[[{way}]]" if is_list(field.annotation) else f"[{way}]"
            knows = any(word in (each, known.alias) for each, known in inner.model_fields.items())
            found += [head] if knows else []
            found += homes_of(inner, word, way)
    return found


def sentence(table: type[Table], field: str) -> str:
    """What the field says about itself, in its table or in one that this table extends; empty where it says nothing."""
    homes = (each for each in table.__mro__ if issubclass(each, Table))
    return next((said for home in homes if (said := _module(home.__module__).get((home.__name__, field)))), "")


@cache
def _module(name: str) -> dict[tuple[str, str], str]:
    package, _, module = name.rpartition(".")
    source = resources.files(package).joinpath(f"{module}.py").read_text(encoding="utf-8")
    heads = list(_CLASS.finditer(source))
    ends = [head.start() for head in heads[1:]] + [len(source)]
    found: dict[tuple[str, str], str] = {}
    for head, end in zip(heads, ends, strict=True):
        for match in _FIELD.finditer(source, head.end(), end):
            found[head[1], match[1]] = " ".join(match[2].split())
    return found
