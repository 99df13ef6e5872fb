"""What a field of a model takes, read from its type: words, a quantity, a list, an example."""

import re
from types import UnionType
from typing import Annotated, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from standfast.reading.quantities import EXAMPLES, Of


def bare(annotation: object) -> object:
    """A type without its optional and its marks."""
    if get_origin(annotation) is Annotated:
        return bare(get_args(annotation)[0])
    if get_origin(annotation) in (Union, UnionType):
        return bare(next(each for each in get_args(annotation) if each is not type(None)))
    return annotation


def is_list(annotation: object) -> bool:
    """True for a list of anything."""
    return get_origin(bare(annotation)) is tuple


def choices(annotation: object) -> list[str]:
    """The words that a field takes, as TOML writes them; empty where it takes others too."""
    kind = bare(annotation)
    if get_origin(kind) is tuple:
        return choices(get_args(kind)[0])
    if get_origin(kind) is not Literal:
        return []
    return [f'"{each}"' if isinstance(each, str) else str(each).lower() for each in get_args(kind)]


def measures(annotation: object, metadata: tuple[object, ...] = ()) -> str:
    """The dimension of a quantity; empty for anything else."""
    for each in (*metadata, *get_args(annotation)):
        if isinstance(each, Of):
            return each.dimension
    return next((found for each in get_args(annotation) if (found := measures(each))), "")


def is_id(field: FieldInfo) -> bool:
    """True for a name by which other words refer to something."""
    return "pattern" in repr(field.metadata) or "pattern" in repr(field.annotation)


_SAID = re.compile(r': ("[^"]+"|\d[\d-]*|\[[\[\]"\w\s,]+\])(?: or more)?\.?$')
"""The example at the end of a sentence of help."""


def example(field: FieldInfo, about: str) -> str:
    """A value of the right kind, as TOML writes it: the one that the sentence of help ends with, if it does."""
    said = _SAID.search(about)
    if said is not None:
        return f"[{said[1]}]" if is_list(field.annotation) and not said[1].startswith("[") else said[1]
    dimension = measures(field.annotation, tuple(field.metadata))
    words = choices(field.annotation)
    kind = bare(field.annotation)
    many = get_origin(kind) is tuple
    if words:
        return f"[{words[0]}]" if many else words[0]
    if dimension:
        text = f'"{EXAMPLES[dimension]}"'
        nested = many and get_origin(bare(get_args(kind)[0])) is tuple
        return f"[[{text}, {text}]]" if nested else f"[{text}, {text}]" if many and len(get_args(kind)) == 2 else text
    plain = {bool: "true", int: "1", float: "1.0"}.get(kind if isinstance(kind, type) else str, "")
    if getattr(kind, "__name__", "") == "date":
        return "2026-05-04"
    if get_origin(kind) is dict:
        return "{ name = 1.0 }"
    if many:
        return "[1, 3]" if bare(get_args(kind)[0]) is int else '["…"]'
    return plain or '"…"'
