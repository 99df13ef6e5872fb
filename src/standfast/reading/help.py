"""The sentence that each word of a file format carries: one source for editor help, reference and missing facts.

The sentences stand under the fields of the models as plain strings. They are read from the model's source only when
somebody asks, so that reading a job costs nothing for them.
"""

import re
from functools import cache
from importlib import resources

from standfast.reading.quantities import Table

_CLASS = re.compile(r"^class (\w+)\(", re.MULTILINE)
_FIELD = re.compile(r'^    (\w+): .*?\n    """(.*?)"""', re.MULTILINE | re.DOTALL)


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
