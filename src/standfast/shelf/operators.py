"""What a grid operator asks of the settings of a unit: amendments of a book on the grid, dated.

A folder ``rulebooks/operators/<name>/<edition>/`` is an overlay like that of a place (see ``amended``) and states its
days with ``from`` and ``until``. A job names the operator, and its date decides which of his editions holds.
"""

from datetime import date
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from standfast.faults import NotInEdition
from standfast.shelf.amended import Amended, Overlay, overlay
from standfast.shelf.editions import Edition


@cache
def operators() -> list[str]:
    """Names of the operators on the shelf."""
    return sorted(path.name for path in _shelf().iterdir() if path.is_dir() and _editions(path.name))


@cache
def editions_of(name: str) -> tuple[Overlay, ...]:
    """Every edition of an operator's settings, oldest first. NotInEdition for an operator that is not on the shelf."""
    if name not in operators():
        raise NotInEdition(f"no settings of an operator {name!r} are on the shelf: use one of {', '.join(operators())}")
    found = (overlay(each, f"operators/{name}") for each in _editions(name))
    return tuple(sorted(found, key=lambda each: each.begins or date.min))


def operator(name: str, day: date) -> Overlay:
    """The settings of an operator that hold on a day. NotInEdition where none does."""
    for each in editions_of(name):
        if (each.begins is None or each.begins <= day) and (each.ends is None or day <= each.ends):
            return each
    spans = ", ".join(_span(each) for each in editions_of(name))
    raise NotInEdition(f"no settings of the operator {name!r} hold on {day.isoformat()}: there are {spans}")


def as_asked(book: Edition, overlay: Overlay | None) -> Edition:
    """A book as an operator has changed it; itself where there is no operator or he changes nothing of it."""
    return book if overlay is None or book.book not in overlay.books else Amended(book, overlay)


def _span(overlay: Overlay) -> str:
    begins, ends = (None if day is None else day.isoformat() for day in (overlay.begins, overlay.ends))
    return f"{overlay.edition} ({' '.join(filter(None, (begins and f'from {begins}', ends and f'until {ends}')))})"


def _editions(name: str) -> list[str]:
    return [path.name for path in (_shelf() / name).iterdir() if (path / "overlay.toml").is_file()]


def _shelf() -> Traversable:
    return files("standfast.rulebooks") / "operators"
