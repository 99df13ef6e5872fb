"""The JSON Schema of a file format, for editors that complete and check while a person types."""

from typing import Any

from standfast.reading.document import NOT_KNOWN
from standfast.reading.help import sentence, table_in
from standfast.reading.quantities import Table

Schema = dict[str, Any]


def schema(model: type[Table], title: str) -> Schema:
    """The schema of a whole file.

    Args:
        model: the class of the file.
        title: what the file is.

    Returns:
        JSON Schema 2020-12 with a description for every word; optional words also take "not known".
    """
    made = model.model_json_schema(by_alias=True)
    tables = {table.__name__: table for table in every_table(model)}
    for name, body in (*made.get("$defs", {}).items(), (model.__name__, made)):
        if name in tables:
            _describe(body, tables[name])
    made["title"] = title
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **made}


def every_table(model: type[Table]) -> list[type[Table]]:
    """The class of the file and of every table in it, each once, in the order of the file."""
    found: list[type[Table]] = [model]
    for table in found:
        for field in table.model_fields.values():
            inner = table_in(field.annotation)
            if inner is not None and inner not in found:
                found.append(inner)
    return found


def _describe(body: Schema, table: type[Table]) -> None:
    body.pop("title", None)
    body["description"] = " ".join((table.__doc__ or "").split())
    for name, field in table.model_fields.items():
        word = field.alias or name
        given = _plain(body["properties"][word])
        if not field.is_required() and table_in(field.annotation) is None:
            given = _or_not_known(given)
        body["properties"][word] = {"description": sentence(table, name), **given}


def _plain(given: Schema) -> Schema:
    """Without what TOML has no use for: titles, defaults, null."""
    kept = {key: value for key, value in given.items() if key not in ("title", "default")}
    if "anyOf" in kept:
        others = [each for each in kept.pop("anyOf") if each.get("type") != "null"]
        kept = {**kept, **(others[0] if len(others) == 1 else {"anyOf": others})}
    return kept


def _or_not_known(given: Schema) -> Schema:
    if "enum" in given:
        return {**{key: value for key, value in given.items() if key != "type"}, "enum": [*given["enum"], NOT_KNOWN]}
    if given.get("type") == "string":
        return given if "pattern" not in given and "format" not in given else {"anyOf": [given, {"const": NOT_KNOWN}]}
    return {"anyOf": [given, {"const": NOT_KNOWN}]}
