"""Where each word of a TOML file stands: path → line and column.

Works on text that a TOML reader has accepted, so it only has to find its way, not to judge. Paths are tuples of keys
and list numbers: ``("walls", 0, "openings", 1, "left")``.
"""

import re
from bisect import bisect_right
from typing import NamedTuple

import tomli

Path = tuple[str | int, ...]


class Place(NamedTuple):
    """A place in a text; line and column count from 1, columns in characters."""

    line: int
    column: int


class Index(NamedTuple):
    """Places of the words and of the values of one file.

    Attributes:
        words: path → where the word (or the head of the table) stands.
        values: path → where the value begins; the same as the word for a table with a head.
    """

    words: dict[Path, Place]
    values: dict[Path, Place]

    def word(self, path: Path) -> Place:
        """Where a word stands; an absent one is placed at the nearest table round it, the file itself at 1:1."""
        return self._nearest(self.words, path)

    def value(self, path: Path) -> Place:
        """Where a value begins; an absent one is placed at the nearest table round it."""
        return self._nearest(self.values, path)

    def without(self, path: Path) -> "Index":
        """The places after the item of a list was taken out: later items of that list move up by one."""
        return Index(*({moved: at for way, at in each.items() if (moved := shifted(way, path))} for each in self))

    @staticmethod
    def _nearest(places: dict[Path, Place], path: Path) -> Place:
        while path and path not in places:
            path = path[:-1]
        return places.get(path, Place(1, 1))


def shifted(way: Path, out: Path) -> Path:
    """A path after the list item `out` was taken away; empty where the path led into that item."""
    *holder, number = out
    depth = len(holder)
    if len(way) <= depth or list(way[:depth]) != holder or not isinstance(number, int):
        return way
    at = way[depth]
    if not isinstance(at, int) or at < number:
        return way
    return () if at == number else (*way[:depth], at - 1, *way[depth + 1 :])


_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_KEY = re.compile(r"[A-Za-z0-9_-]+|\"(?:\\.|[^\"\\])*\"|'[^']*'")
_TEXT = re.compile(
    r'"""(?:\\.|[^\\])*?"""(?:"{0,2})' + r"|'''.*?'''(?:'{0,2})" + r"|\"(?:\\.|[^\"\\])*\"|'[^']*'", re.DOTALL
)
_PLAIN = re.compile(r"[^,\]}\n#]*")


def index(text: str) -> Index:
    """The places of every word and value of a valid TOML text."""
    return _Walk(text).run()


class _Walk:
    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self.words: dict[Path, Place] = {}
        self.values: dict[Path, Place] = {}
        self.counts: dict[Path, int] = {}

    def run(self) -> Index:
        table: Path = ()
        self.skip(_BLANK)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self.head()
            else:
                self.pair(table)
            self.skip(_BLANK)
        return Index(self.words, self.values)

    def head(self) -> Path:
        """A table head; gives the path of the table that follows."""
        many = self.text.startswith("[[", self.at)
        start = self.place()
        self.at += 2 if many else 1
        path: Path = ()
        keys = self.keys()
        for number, (key, _) in enumerate(keys, 1):
            path = (*path, key)
            self.note(path, start)
            if many and number == len(keys):
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
                self.note(path, start)
        self.at += 2 if many else 1
        return path

    def pair(self, table: Path) -> None:
        """One ``key = value``."""
        path, last = table, self.place()
        for key, last in self.keys():
            path = (*path, key)
            self.note(path, last)
        self.at += 1  # the equals sign
        self.skip(_SPACE)
        self.value(path)

    def value(self, path: Path) -> None:
        self.values[path] = self.place()
        first = self.text[self.at]
        if first in "\"'":
            self.skip(_TEXT)
        elif first == "[":
            self.items(path)
        elif first == "{":
            self.members(path)
        else:
            self.skip(_PLAIN)

    def items(self, path: Path) -> None:
        self.at += 1
        number = 0
        while self.upcoming() != "]":
            self.words[(*path, number)] = self.place()
            self.value((*path, number))
            number += 1
            if self.upcoming() == ",":
                self.at += 1
        self.at += 1

    def members(self, path: Path) -> None:
        self.at += 1
        while self.upcoming() != "}":
            self.pair(path)
            if self.upcoming() == ",":
                self.at += 1
        self.at += 1

    def keys(self) -> list[tuple[str, Place]]:
        """The parts of a dotted key, each with its place."""
        found: list[tuple[str, Place]] = []
        while True:
            self.skip(_SPACE)
            place, start = self.place(), self.at
            self.skip(_KEY)
            found.append((_plain(self.text[start : self.at]), place))
            self.skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return found
            self.at += 1

    def note(self, path: Path, place: Place) -> None:
        self.words.setdefault(path, place)
        self.values.setdefault(path, place)

    def skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        if match is not None:
            self.at = match.end()

    def upcoming(self) -> str:
        self.skip(_BLANK)
        return self.text[self.at]

    def place(self) -> Place:
        line = bisect_right(self.starts, self.at)
        return Place(line, self.at - self.starts[line - 1] + 1)


def _plain(key: str) -> str:
    """A key without its quotes."""
    if not key.startswith(('"', "'")):
        return key
    (found,) = tomli.loads(f"{key} = 0")
    return found
