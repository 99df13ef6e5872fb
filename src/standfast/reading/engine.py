"""Reads the text of a TOML file into a model and a list of faults; keeps what it understood."""

import copy
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Generic, NamedTuple, TypeVar

import tomli
from pydantic import ValidationError

from standfast.faults import Fault
from standfast.reading.complaints import complaints
from standfast.reading.document import NOT_KNOWN, Document, leaves
from standfast.reading.positions import Index, Path, index, shifted
from standfast.reading.quantities import Table, shown

M = TypeVar("M", bound=Table)
_SYNTAX_FAULTS = 10
_ROUNDS = 50
PLACEHOLDER = "…"
"""Stands in a new file where a text of the user's own belongs."""
_MONSTER = re.compile(r"\d{400}|[\[{][\[{\s]{98}")
"""What can stop the TOML reader: a number of hundreds of digits, lists nested a hundred deep."""


class Result(NamedTuple, Generic[M]):
    """What came out of a file.

    Attributes:
        document: what was understood; None where nothing could be.
        faults: everything wrong, in the order of the file; empty where the file is good.
        headed: false where words that must be there are missing or faulty and something stands in for them: such a
            document serves to find more faults and for nothing else.
    """

    document: Document[M] | None
    faults: list[Fault]
    headed: bool


def read(text: str, file: str, model: type[M], stand_in: Mapping[Path, object]) -> Result[M]:
    """Read a file.

    Args:
        text: the whole text.
        file: its name, for the faults.
        model: the class of the whole file.
        stand_in: path → value of words without which the rest could not be looked at; see Result.headed.
    """
    data, text, faults = _parse(text, file)
    if data is None:
        return Result(None, in_order(faults), headed=False)
    places = index(text)
    unknown = frozenset(path for path, value in leaves(data) if value == NOT_KNOWN and isinstance(path[-1], str))
    tree = copy.deepcopy(data)
    for path in sorted(unknown, key=len, reverse=True):
        _drop(tree, path)
    found = _validate(tree, file, model, places, unknown, stand_in)
    document = None if found.content is None else Document(file, found.content, found.places, found.unknown, data)
    unwritten = _unwritten(data, file, places) if PLACEHOLDER in text else ()
    return Result(document, in_order([*faults, *unwritten, *found.faults]), found.headed)


def _unwritten(data: object, file: str, places: Index) -> Iterator[Fault]:
    """Texts that are still what a new file has in their place."""
    for path, value in leaves(data):
        if value == PLACEHOLDER:
            line, column = places.value(path)
            what, why = (
                f'{path[-1]} is still the placeholder "{PLACEHOLDER}"',
                "it would be printed as if it were known",
            )
            yield Fault(file, line, column, what, why, "write the text, or take the line out")


def again(document: Document[M], changes: Iterable[tuple[Path, object]]) -> Document[M] | None:
    """A document with words changed, without its text: for trying what a change would do, in a fraction of the time.

    Args:
        document: a file without faults.
        changes: path → new value, in their order; None takes the word out. List items on the way must exist; a path
            that ends in a number takes an item of a list out, or adds one where the number is one past the last; 0
            begins a list that is not there.

    Returns:
        The changed document, with the places of the old text; None where a new value is not one of its word.
    """
    data, unknown = copy.deepcopy(dict(document.raw)), document.unknown
    for path, value in changes:
        unknown = unknown - {path}
        for depth in range(1, len(path)):
            if _get(data, path[:depth]) is None:
                _put(data, path[:depth], [] if isinstance(path[depth], int) else {})
        if value is None:
            _drop(data, path)
            if isinstance(path[-1], int):
                unknown = frozenset(moved for way in unknown if (moved := shifted(way, path)))
        else:
            _put(data, path, value)
    tree = copy.deepcopy(data)
    for path in sorted(unknown, key=len, reverse=True):
        _drop(tree, path)
    try:
        content = type(document.content).model_validate(tree)
    except ValidationError:
        return None
    return Document(document.file, content, document.index, unknown, data)


def in_order(faults: Iterable[Fault]) -> list[Fault]:
    """Each fault once, in the order of the file."""
    return sorted(set(faults))


def _parse(text: str, file: str) -> tuple[dict[str, object] | None, str, list[Fault]]:
    """The data, and the text that gave it: lines that are no TOML are blanked, each with a fault."""
    faults: list[Fault] = []
    while True:
        try:
            return tomli.loads(text), text, faults
        except tomli.TOMLDecodeError as error:
            rows = text.split("\n")
            line = min(error.lineno, len(rows))
            column = min(error.colno, len(rows[line - 1]) + 1)
            what = f"this is no TOML: {_told(error.msg)}"
        except (ValueError, RecursionError):
            monster = _MONSTER.search(text)
            line = text.count("\n", 0, monster.start()) + 1 if monster is not None else 1
            why = "a number is too long, or lists go too deep"
            fault = Fault(file, line, 1, "this is no TOML that can be read", why, "write it shorter")
            return None, text, [*faults, fault]
        again = _blank(text, line)
        repeated = bool(faults) and faults[-1].line >= line
        if not repeated:
            faults.append(Fault(file, line, column, what, "", _advice(text, line)))
        if repeated or again == text or len(faults) >= _SYNTAX_FAULTS:
            return None, text, faults
        text = again


def _told(message: str) -> str:
    """What the TOML reader says, with a path as people write it and nothing that cannot be printed."""
    keys = re.search(r"\((?:'[^']*',? ?)+\)", message)
    if keys is not None:
        path = ".".join(re.findall(r"'([^']*)'", keys[0]))
        message = f"{message[: keys.start()]}[{path}]{message[keys.end() :]}"
    return shown(message[:1].lower() + message[1:], quote=False)


def _advice(text: str, line: int) -> str:
    row = text.split("\n")[line - 1].strip()
    if row.startswith("\ufeff"):
        return "save the file as UTF-8 without a byte order mark"
    if row.startswith("["):
        return "write a table as [name] and an item of a list as [[name]], each once"
    if "=" not in row:
        return 'write one word a line: word = "value"'
    return 'write text and quantities in quotes, for instance length = "12 ft", and each word once'


def _blank(text: str, line: int) -> str:
    """The text without a faulty line; a faulty head takes its table with it."""
    rows = text.split("\n")
    head = rows[line - 1].lstrip().startswith("[")
    rows[line - 1] = ""
    while head and line < len(rows) and not rows[line].lstrip().startswith("["):
        rows[line] = ""
        line += 1
    return "\n".join(rows)


class _Valid(NamedTuple, Generic[M]):
    content: M | None
    places: Index
    unknown: frozenset[Path]
    faults: list[Fault]
    headed: bool


def _validate(
    data: dict[str, object],
    file: str,
    model: type[M],
    places: Index,
    unknown: frozenset[Path],
    stand_in: Mapping[Path, object],
) -> _Valid[M]:
    """Validate; then take out what is faulty and validate again, until something stands."""
    faults: list[Fault] = []
    headed = True
    for round in range(_ROUNDS):
        try:
            return _Valid(model.model_validate(data), places, unknown, faults, headed)
        except ValidationError as error:
            errors = error.errors(include_url=False)
        if round == 0:
            faults += complaints(file, errors, model, places, unknown)
        bad: set[Path] = set()
        for each in errors:
            path = each["loc"]
            if each["type"] == "missing" and path in stand_in:
                headed = False
                _put(data, path, stand_in[path])
            else:
                bad.add(_part(data, path[:-1] if each["type"] == "missing" else path))
        if () in bad:
            break
        for path in sorted(bad, key=_order, reverse=True):
            _drop(data, path)
            if isinstance(path[-1], int):
                places = places.without(path)
                unknown = frozenset(moved for way in unknown if (moved := shifted(way, path)))
    return _Valid(None, places, unknown, faults, False)


def _order(path: Path) -> list[tuple[bool, int, str]]:
    """Sorts paths so that later items of a list can be taken out before earlier ones."""
    return [(isinstance(part, int), part if isinstance(part, int) else 0, str(part)) for part in path]


def _part(data: object, path: Path) -> Path:
    """What must go with a faulty value: a list of plain values goes as a whole, since half a polygon would lie."""
    holder = data
    for depth, part in enumerate(path):
        if isinstance(holder, list):
            holder = holder[part] if isinstance(part, int) and part < len(holder) else None
            if not isinstance(holder, dict):
                return path[:depth]
        elif isinstance(holder, dict):
            holder = holder.get(part)
    return path


def _drop(data: object, path: Path) -> None:
    """Take a value out."""
    holder, last = _holder(data, path), path[-1]
    if isinstance(holder, dict):
        holder.pop(last, None)
    elif isinstance(holder, list) and isinstance(last, int) and last < len(holder):
        del holder[last]


def _put(data: object, path: Path, value: object) -> None:
    """Put a value in."""
    holder = _holder(data, path)
    if isinstance(holder, dict):
        holder[path[-1]] = copy.deepcopy(value)
    elif isinstance(holder, list) and path[-1] == len(holder):
        holder.append(copy.deepcopy(value))


def _get(data: object, path: Path) -> object:
    """What stands at a path; None where nothing does."""
    holder = _holder(data, path)
    return holder.get(path[-1]) if isinstance(holder, dict) else holder


def _holder(data: object, path: Path) -> object:
    """The table or list that holds the last step of a path."""
    holder: object = data
    for part in path[:-1]:
        if isinstance(holder, dict):
            holder = holder.get(part)
        elif isinstance(holder, list) and isinstance(part, int) and part < len(holder):
            holder = holder[part]
    return holder


def doubles(document: Document[M], word: str) -> Iterator[Fault]:
    """Items of a list that have the id of an earlier one."""
    yield from same(document, (word,), [getattr(each, "id", "") for each in getattr(document.content, word)])


def same(document: Document[M], path: Path, names: Sequence[str]) -> Iterator[Fault]:
    """A fault for each name of a list that an earlier item has already.

    Args:
        document: the file.
        path: path of the list.
        names: the ids of its items, in order.
    """
    seen: dict[str, int] = {}
    for number, name in enumerate(names):
        if name in seen:
            why = f"line {document.index.word((*path, seen[name])).line} has it too"
            yield document.fault((*path, number, "id"), f'id "{name}" is there twice', why, "give each its own id")
        seen.setdefault(name, number)
