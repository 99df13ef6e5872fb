"""Every number, table and clause of every edition says what it is and where it was seen; every key in use exists."""

import ast
import csv
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import tomli

from standfast import shelf

SRC = Path(__file__).parents[2] / "src" / "standfast"
BOOKS = SRC / "rulebooks"
EDITIONS = sorted(path.parent for path in BOOKS.glob("*/editions/*/edition.toml"))
NAMES = [f"{path.parents[1].name}-{path.name}" for path in EDITIONS]
SEEN = {"secondary", "memory", "common practice"}
"""Nothing was compared with a printed standard: *print* may not be claimed."""
STATES = {"done", "not done", "not for homes", "out of scope"}
BETWEEN = {"refuse", "next row", "row below", "linear"}


@cache
def toml(path: Path) -> dict[str, Any]:
    return tomli.loads(path.read_text("utf-8")) if path.is_file() else {}


def sourced(entry: dict[str, Any]) -> list[str]:
    """What a number or table fails to say about itself."""
    wrong = [word for word in ("clause", "seen", "where") if not str(entry.get(word, "")).strip()]
    return wrong + ([f"seen {entry['seen']!r}"] if entry.get("seen") not in SEEN else [])


@pytest.mark.parametrize("folder", EDITIONS, ids=NAMES)
def test_an_edition_names_itself_and_says_what_it_covers(folder: Path) -> None:
    facts = toml(folder / "edition.toml")
    assert all(str(facts.get(word, "")).strip() for word in ("title", "short", "published"))
    assert all(str(clause).strip() for clause in toml(folder / "clauses.toml").values())
    covered = toml(folder / "coverage.toml").get("clause", [])
    assert covered, "coverage.toml lists no clause"
    for entry in covered:
        assert entry["clause"], entry
        assert entry["subject"], entry
        assert entry["state"] in STATES, entry
        assert entry["state"] == "done" or entry.get("reason", "").strip(), f"{entry['clause']}: no reason"


@pytest.mark.parametrize("folder", EDITIONS, ids=NAMES)
def test_every_number_has_clause_unit_and_source(folder: Path) -> None:
    for key, entry in toml(folder / "numbers.toml").items():
        assert not sourced(entry), f"{key}: {sourced(entry)}"
        assert isinstance(entry["unit"], str), key
        word = isinstance(entry["number"], str | bool | list)
        assert word == (entry["unit"] == ""), f"{key}: a quantity has a unit, a word has none"
        assert str(entry.get("symbol", key)).isidentifier(), key


@pytest.mark.parametrize("folder", EDITIONS, ids=NAMES)
def test_every_table_has_its_file_its_rules_and_its_source(folder: Path) -> None:
    tables = toml(folder / "tables.toml")
    for key, facts in tables.items():
        assert not sourced(facts), f"{key}: {sourced(facts)}"
        assert facts["title"], key
        assert facts["between"] in BETWEEN, key
        assert facts["beyond"] == "refuse", key
        assert ("unit" in facts) != ("units" in facts), f"{key}: one unit, or one for each column"
        path = folder / "tables" / facts["file"]
        assert path.is_file(), f"{key}: {path.name} is not there"
        rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
        assert rows, f"{key} is empty"
        where = [tuple(row[name] for name in facts["keys"]) for row in rows]
        assert len(set(where)) == len(where), f"{key}: two rows with one key"
        assert all(None not in row and None not in row.values() for row in rows), f"{key}: a ragged row"
        seen = {row["seen"] for row in rows if row.get("seen")}
        assert seen <= SEEN, f"{key}: {seen - SEEN}"


@pytest.mark.parametrize("folder", EDITIONS, ids=NAMES)
def test_no_file_of_rows_lies_about_without_a_table(folder: Path) -> None:
    named = {facts["file"] for facts in toml(folder / "tables.toml").values()}
    there = {path.name for path in (folder / "tables").glob("*")}
    assert there == named


def test_every_book_of_an_adoption_is_on_the_shelf() -> None:
    there = {(path.parents[1].name, path.name) for path in EDITIONS}
    for path in sorted((BOOKS / "adoptions").glob("*.toml")):
        found = shelf.adoption(path.stem)
        assert found.title
        assert found.books
        assert set(found.books.items()) <= there, path.name


FILES = {"clause": "clauses.toml", "number": "numbers.toml", "bounding": "numbers.toml", "table": "tables.toml"}


def asked(path: Path) -> Iterator[tuple[int, str, str]]:
    """Line, kind and key of every ``….clause("key")`` and its like; keys that are put together are left out.

    The inputs of a published case have a ``number`` too: in that room only a book is asked for a key.
    """
    cases = "proof" in path.parts
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        match node:
            case ast.Call(ast.Attribute(whom, kind), [ast.Constant(str(key)), *_]) if kind in FILES:
                if not cases or (isinstance(whom, ast.Name) and whom.id == "book"):
                    yield node.lineno, kind, key


def held(folders: list[Path], kind: str) -> set[str]:
    return {key for folder in folders for key in toml(folder / FILES[kind])}


def test_every_key_that_is_asked_for_is_held_by_an_edition() -> None:
    asked_for = 0
    for path in sorted(SRC.rglob("*.py")):
        inside = re.search(r"rulebooks/(\w+)/", path.as_posix())
        folders = [each for each in EDITIONS if inside is None or each.parents[1].name == inside[1]]
        for line, kind, key in asked(path):
            asked_for += 1
            assert key in held(folders, kind), f"{path.relative_to(SRC)}:{line}: no edition holds the {kind} {key!r}"
    assert asked_for > 100


OVERLAYS = sorted(path.parent for path in (BOOKS / "overlays").glob("*/overlay.toml"))
OPERATORS = sorted(path.parent for path in (BOOKS / "operators").glob("*/*/overlay.toml"))
AMENDED = {f"{path.parent.name}-{path.name}": path for path in [*OVERLAYS, *OPERATORS]}


@pytest.mark.parametrize("folder", AMENDED.values(), ids=AMENDED)
def test_amendments_name_their_place_and_change_what_a_book_holds(folder: Path) -> None:
    facts = toml(folder / "overlay.toml")
    assert all(str(facts[word]).strip() for word in ("title", "short", "edition", "where"))
    assert not facts["invented"] or "invented" in facts["title"]
    changed = sorted(path for path in folder.iterdir() if path.is_dir())
    assert changed, "it changes no book"
    for book in changed:
        editions = [each for each in EDITIONS if each.parents[1].name == book.name]
        assert editions, f"{book.name} is no book"
        for key, entry in toml(book / "numbers.toml").items():
            assert not sourced(entry), f"{key}: {sourced(entry)}"
            units = {each[key]["unit"] for one in editions if key in (each := toml(one / "numbers.toml"))}
            assert not units or entry["unit"] in units, f"{key}: another unit than the book's"
        for key, facts in toml(book / "tables.toml").items():
            assert not sourced(facts), f"{key}: {sourced(facts)}"
            assert (book / "tables" / facts["file"]).is_file(), key
        assert all(str(clause).strip() for clause in toml(book / "clauses.toml").values())


def test_every_place_of_an_adoption_is_on_the_shelf_and_every_place_is_adopted_somewhere() -> None:
    adopted = {each.name for name in shelf.adoptions() for each in shelf.adoption(name).overlays}
    assert adopted == {path.name for path in OVERLAYS}
    for name in shelf.adoptions():
        found = shelf.adoption(name)
        assert found.begins is None or found.ends is None or found.begins < found.ends, name
