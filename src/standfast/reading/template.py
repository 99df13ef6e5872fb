"""A file of a format with every word in it, explained and commented out: the start of a new job or data sheet."""

from collections.abc import Collection, Iterator, Mapping
from textwrap import wrap

from standfast.reading.help import sentence, table_in
from standfast.reading.kinds import choices, example, is_list
from standfast.reading.quantities import Table


def template(model: type[Table], intro: str, filled: Mapping[str, str], open: Collection[str] = ()) -> str:
    """The text of a new file.

    Args:
        model: the class of the file.
        intro: lines of comment for its head, without the ``#``.
        filled: path → TOML value of the words that are written out; all the others are commented out.
        open: paths of tables whose head is written out, so that their words only wait for the # to go.
    """
    lines = [f"# {line}".rstrip() for line in intro.splitlines()]
    heads = {*open, *(way.rpartition(".")[0] for way in filled)}
    return "\n".join([*lines, *_table(model, "", filled, heads)]) + "\n"


def _table(table: type[Table], path: str, filled: Mapping[str, str], heads: Collection[str]) -> Iterator[str]:
    """The words of a table, then the tables in it."""
    inner: list[tuple[str, str, bool, type[Table]]] = []
    for name, field in table.model_fields.items():
        word = field.alias or name
        way = f"{path}.{word}" if path else word
        below = table_in(field.annotation)
        if below is not None:
            inner.append((way, sentence(table, name), is_list(field.annotation), below))
            continue
        yield from _comment(sentence(table, name))
        words = choices(field.annotation)
        if words and len(words) > 1:
            yield from _comment("One of " + ", ".join(words) + ".")
        yield f"{word} = {filled[way]}" if way in filled else f"#{word} = {example(field, sentence(table, name))}"
    for way, about, many, below in inner:
        head = f"[[{way}]]" if many else f"[{way}]"
        yield ""
        yield from _comment(about)
        yield head if way in heads else f"#{head}"
        yield from _table(below, way, filled, heads)


def _comment(text: str) -> Iterator[str]:
    for line in wrap(text, 116):
        yield f"# {line}"
