"""The reference of a file format in Markdown: every word, what it means, what it takes. Made from the models."""

from collections.abc import Iterator

from pydantic.fields import FieldInfo

from standfast.reading.help import sentence, table_in
from standfast.reading.kinds import bare, choices, is_list, measures
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
    dimension = measures(field.annotation, tuple(field.metadata))
    words = choices(field.annotation)
    many = "list of " if is_list(field.annotation) else ""
    if words:
        return many + " · ".join(f"`{each}`" for each in words)
    if dimension:
        units = ", ".join(name for name, unit in UNITS.items() if unit.dimension == dimension)
        what = (
            "points"
            if many and field.annotation is not None and "tuple[tuple" in repr(bare(field.annotation))
            else dimension
        )
        return f'{many}{what}, for instance `"{EXAMPLES[dimension]}"` ({units})'
    kind = bare(field.annotation)
    if many:
        return "list of whole numbers" if "int" in repr(kind) else "list of text"
    return _PLAIN.get(kind, "a date, `2026-05-04`") if isinstance(kind, type) else "text"
