"""The reference of a file format in Markdown: every word, what it means, what it takes. Made from the models."""

from collections.abc import Iterator
from typing import get_args, get_origin

from pydantic.fields import FieldInfo

from standfast.reading.help import sentence, table_in
from standfast.reading.kinds import bare, choices, is_id, is_list, measures
from standfast.reading.quantities import EXAMPLES, Table
from standfast.units import UNITS

_PLAIN = {bool: "`true` or `false`", int: "a whole number", float: "a number", str: "text"}


def reference(model: type[Table]) -> str:
    """The reference as Markdown: one heading a table, one line a word."""
    return "\n".join(_table(model, "", "the top of the file")) + "\n"


def _table(table: type[Table], path: str, title: str) -> Iterator[str]:
    yield f"### {title}"
    yield ""
    yield " ".join((table.__doc__ or "").split())
    yield ""
    yield "| word | what it means | what it takes |"
    yield "|---|---|---|"
    inner: list[tuple[str, str, type[Table]]] = []
    for name, field in table.model_fields.items():
        word = field.alias or name
        way = f"{path}.{word}" if path else word
        below = table_in(field.annotation)
        if below is not None:
            head = f"`[[{way}]]`" if is_list(field.annotation) else f"`[{way}]`"
            inner.append((way, head, below))
        takes = "table, see below" if below is not None else _takes(field)
        due = " **Must be there.**" if field.is_required() else ""
        yield f"| `{word}` | {sentence(table, name)}{due} | {takes} |"
    yield ""
    for way, head, below in inner:
        yield from _table(below, way, head)


def _takes(field: FieldInfo) -> str:
    """What a word takes, for the table."""
    words = choices(field.annotation)
    dimension = measures(field.annotation, tuple(field.metadata))
    kind = bare(field.annotation)
    if get_origin(kind) is dict:
        return "a table of names, each with a number"
    if is_list(kind):
        return _list_of(kind, words, dimension)
    if words:
        return " · ".join(f"`{each}`" for each in words)
    if dimension:
        return f'{dimension}, `"{EXAMPLES[dimension]}"`'
    if is_id(field):
        return "a name: small letters, digits, hyphens"
    return _PLAIN.get(kind, "a date, `2026-05-04`") if isinstance(kind, type) else "text"


def _list_of(kind: object, words: list[str], dimension: str) -> str:
    first, last = get_args(kind)[0], get_args(kind)[-1]
    if words:
        return "list of " + " · ".join(f"`{each}`" for each in words)
    if dimension:
        point = f'`["{EXAMPLES[dimension]}", "{EXAMPLES[dimension]}"]`'
        if is_list(first):
            return f"list of points, each {point}"
        return f"list of {dimension}" if last is Ellipsis else f"a point, {point}"
    return "list of whole numbers" if bare(first) is int else "list of text"


def units() -> str:
    """The units that a file may hold, as a Markdown table."""
    rows = ["| quantity | for instance | units |", "|---|---|---|"]
    for dimension, example in EXAMPLES.items():
        names = ", ".join(name for name, unit in UNITS.items() if unit.dimension == dimension)
        rows.append(f'| {dimension} | `"{example}"` | {names} |')
    return "\n".join(rows) + "\n"
