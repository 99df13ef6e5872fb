"""A file that was read: its content, and its facts as values of the sheet that name their place in the file."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from functools import cache
from typing import Generic, NamedTuple, TypeVar, cast

from standfast.faults import Fault, UnitMismatch
from standfast.reading.help import annotation, sentence, table_in
from standfast.reading.positions import Index, Path
from standfast.reading.quantities import Table, amount
from standfast.sheet import Value, given, missing
from standfast.units import Quantity

NOT_KNOWN = "not known"
"""The word for a fact that was looked for and not found."""

M = TypeVar("M", bound=Table)
T = TypeVar("T")


class Found(NamedTuple):
    """Where a dotted path leads.

    Attributes:
        path: the same way with list numbers, as far as it exists in the file.
        value: what stands there; None where it is absent.
        table: the table class that knows the last word, and the word, for its sentence of help.
        lost: the first part of the path that is absent, as the user would write it; empty where all is there.
    """

    path: Path
    value: object
    table: tuple[type[Table], str] | None
    lost: str


class Document(Generic[M]):
    """One file as read.

    Attributes:
        file: its name.
        content: the frozen model.
        index: the places of its words.
        unknown: paths of the words that say "not known".
        raw: the plain data of the file, with what is faulty too.
    """

    __slots__ = ("_made", "_numbers", "content", "file", "index", "raw", "unknown")

    def __init__(
        self, file: str, content: M, index: Index, unknown: frozenset[Path], raw: Mapping[str, object]
    ) -> None:
        self.file, self.content, self.index, self.unknown, self.raw = file, content, index, unknown, raw
        self._made: dict[object, object] = {}
        self._numbers: dict[int, dict[str, int]] = {}  # of the items of each list, by what Python knows the list by

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Document) and self.content == other.content and self.unknown == other.unknown

    def __hash__(self) -> int:
        return hash((self.file, self.unknown))

    def once(self, make: Callable[[M], T]) -> T:
        """What a function makes of the content, worked out once and kept as long as the file."""
        if make not in self._made:
            self._made[make] = make(self.content)
        return cast(T, self._made[make])

    def place(self, path: str) -> str:
        """``job.toml:12:5 supply.fault_current``: where a word stands, or the nearest table round it."""
        found = self._find(path)
        line, column = self.index.word(found.path)
        return f"{self.file}:{line}:{column} {path}"

    def fact(self, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of the file for the sheet.

        Args:
            path: dotted words; an item of a list by its id or number: ``walls.garage-east.build_up.stud_spacing``.
            symbol: the symbol that the value gets.
            unit: the unit it is converted to; "" for words and yes/no, "1" for counts and bare numbers.

        Returns:
            A *given* value that names its place in the file. An absent fact, or one that says "not known", is a
            *missing* value that says what to find out and where to put it.

        Raises:
            KeyError: where the file format knows no such word.
            UnitMismatch: where the unit measures something else than the fact.
        """
        found = self._find(path)
        if found.value is None or found.lost:
            return missing(symbol, unit, self._need(path, found))
        return given(symbol, _number(found.value, path, unit), unit, self.place(path))

    def has(self, path: str) -> bool:
        """True where the file states the fact."""
        found = self._find(path)
        return not found.lost and found.value is not None

    def left_out(self, path: str) -> bool:
        """True where the file does not speak of a fact: one that it says is not known is not left out."""
        found = self._find(path)
        return not found.lost and found.value is None and found.path not in self.unknown

    def stated(self, path: str) -> bool:
        """True where the file writes a list, though it be empty: ``openings = []`` says that there are none."""
        holder, _, word = path.rpartition(".")
        table = self._find(holder).value if holder else self.content
        return isinstance(table, Table) and _field(type(table), word, path) in table.model_fields_set

    def count(self, path: str, symbol: str) -> Value:
        """How many items a list has; *missing* where the file does not write it, since that does not say *none*.

        Args:
            path: dotted words of the list.
            symbol: the symbol that the value gets.

        Raises:
            KeyError: where the file format knows no such list.
        """
        found, word = self._find(path), path.rpartition(".")[2]
        if found.value is None or found.lost:
            return missing(symbol, "1", self._need(path, found))
        if not self.stated(path):
            what = sentence(*found.table).partition(";")[0] if found.table else ""
            need = f"{path}: {self.file} has no such list. Write them, or {word} = [] where there are none: {what}"
            return missing(symbol, "1", need)
        items = found.value if isinstance(found.value, tuple) else ()
        return given(symbol, float(len(items)), "1", self.place(path))

    def ids(self, path: str) -> list[str]:
        """The ids of a list, in the order of the file: ``ids("walls")``; empty where there is no such list."""
        value = self._find(path).value
        return [_name(item, number) for number, item in enumerate(value)] if isinstance(value, tuple) else []

    def fault(self, path: Path, what: str, why: str, todo: str) -> Fault:
        """A fault at the value of a path."""
        line, column = self.index.value(path)
        return Fault(self.file, line, column, what, why, todo)

    def named(self, *words: str) -> set[str]:
        """Every id that the file gives to items of a list, faulty items too: ``named("panels", "circuits")``."""
        level: list[object] = [self.raw]
        for word in words:
            lists = [each.get(word) for each in level if isinstance(each, Mapping)]
            level = [item for each in lists if isinstance(each, list) for item in each]
        return {each["id"] for each in level if isinstance(each, Mapping) and isinstance(each.get("id"), str)}

    def _find(self, path: str) -> Found:
        value: object = self.content
        way: Path = ()
        table: tuple[type[Table], str] | None = None
        parts = path.split(".")
        for number, part in enumerate(parts):
            if isinstance(value, Table):
                field = _field(type(value), part, path)
                table, way, value = (type(value), field), (*way, part), getattr(value, field)
            elif isinstance(value, tuple) and not isinstance(value, Quantity):
                at = self._which(value, part)
                if at is None:
                    return Found(way, None, table, f"{'.'.join(map(str, way))} {part}")
                way, value = (*way, at), value[at]
            else:
                raise KeyError(f"{path}: {parts[number - 1]} is a fact and holds no {part}")
            if value is None:
                return Found(way, None, _rest(table, parts[number + 1 :], path), "")
        return Found(way, value, table, "")

    def _which(self, items: tuple[object, ...], part: str) -> int | None:
        """The number of an item by its id, the first of several, or by the number itself."""
        known = self._numbers.get(id(items))  # lists live as long as the content, so no other gets the same id
        if known is None:
            known = {_name(items[at], at): at for at in reversed(range(len(items)))}
            self._numbers[id(items)] = known
        at = known.get(part)
        return int(part) if at is None and part.isdecimal() and int(part) < len(items) else at

    def _need(self, path: str, found: Found) -> str:
        if found.lost:
            return f"{path}: {self.file} has no {found.lost}"
        what = sentence(*found.table) if found.table else ""
        state = "says that it is not known" if found.path in self.unknown else "does not say"
        return f"{path}: {self.file} {state}. Find out and write there: {what}"


def _rest(table: tuple[type[Table], str] | None, parts: list[str], path: str) -> tuple[type[Table], str] | None:
    """The last word of a way that ends in an absent table."""
    for part in parts:
        inner = table_in(annotation(*table)) if table else None
        if inner is None:
            raise KeyError(f"{path}: there is no table that holds {part}")
        table = (inner, _field(inner, part, path))
    return table


def _field(table: type[Table], word: str, path: str) -> str:
    name = _attribute(table, word)
    if name is None:
        raise KeyError(f"{path}: [{table.__name__}] has no word {word}")
    return name


@cache
def _attribute(table: type[Table], word: str) -> str | None:
    """The attribute of a word; words that Python keeps for itself carry an underscore there."""
    return next((name for name in (word, word + "_") if name in table.model_fields), None)


def _name(item: object, number: int) -> str:
    return str(getattr(item, "id", number))


def _number(value: object, path: str, unit: str) -> float | str | bool | tuple[str, ...]:
    if isinstance(value, Quantity):
        return amount(value, unit)
    if isinstance(value, bool | str):
        plain: bool | str = value
    elif isinstance(value, int | float):
        if unit != "1":
            raise UnitMismatch(f"{path} is a bare number, but was asked in {unit or 'words'}")
        return value
    elif isinstance(value, date):
        plain = value.isoformat()
    elif isinstance(value, Sequence) and all(isinstance(each, str) for each in value):
        return tuple(sorted(map(str, value)))
    else:
        raise KeyError(f"{path} is a table or a list, not a fact")
    if unit:
        raise UnitMismatch(f"{path} is a word, but was asked in {unit}")
    return plain


def leaves(data: object, path: Path = ()) -> Iterator[tuple[Path, object]]:
    """Every value of parsed TOML that is neither a table nor a list, with its path."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from leaves(value, (*path, str(key)))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from leaves(value, (*path, number))
    else:
        yield path, data
