"""The sentence that each word of a file format carries: one source for editor help, reference and missing facts.

The sentences stand under the fields of the models as plain strings. They are read from the model's source only when
somebody asks, so that reading a job costs nothing for them.
"""

import re
from functools import cache
from importlib import resources
from typing import get_args

from pydantic.fields import FieldInfo

from standfast.reading.positions import Path
from standfast.reading.quantities import Table

_CLASS = re.compile(r"^class (\w+)\(", re.MULTILINE)
_FIELD = re.compile(r'^    (\w+): .*?\n    """(.*?)"""', re.MULTILINE | re.DOTALL)


def word(name: str, field: FieldInfo) -> str:
    """The word of a field as files write it."""
    return field.alias or name


def annotation(table: type[Table], word: str) -> object:
    """The type of a word of a table; None where the table knows no such word."""
    return next((field.annotation for name, field in table.model_fields.items() if word in (name, field.alias)), None)


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


def sentence(table: type[Table], field: str) -> str:
    """What the field says about itself; empty where it says nothing."""
    return _module(table.__module__).get((table.__name__, field), "")


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
