"""What editors and people need to write a data sheet: its JSON Schema, its reference, a new sheet."""

from json import dumps

from standfast.equipment.model import Kind, Sheet
from standfast.equipment.read import NEEDS
from standfast.reading import reference as _reference
from standfast.reading import schema as _schema
from standfast.reading.template import template

_INTRO = """A data sheet of standfast: what the maker's manual says about one piece of equipment.
Take the # away before a word and write the fact, with the unit that the manual uses.
Leave a word out, or write "not known", where the manual does not say it: nothing is ever filled in for you.
Write down under [source] which manual and pages were read. The name of the file is the id with .toml behind it."""


def schema() -> _schema.Schema:
    """JSON Schema of the data sheet, for ``#:schema ./sheet.schema.json``."""
    return _schema.schema(Sheet, "standfast data sheet")


def reference() -> str:
    """Every word of the data sheet as Markdown."""
    return f"## Every word\n\n{_reference.reference(Sheet)}"


def new(id: str, kind: Kind) -> str:
    """The text of a new data sheet.

    Args:
        id: name by which jobs ask for it.
        kind: what it is: the tables that such a sheet needs are written out.
    """
    filled = {"schema": "1", "id": dumps(id), "kind": dumps(kind), "maker": '"…"', "name": '"…"'}
    return "#:schema ./sheet.schema.json\n" + template(Sheet, _INTRO, filled, open=NEEDS[kind])
