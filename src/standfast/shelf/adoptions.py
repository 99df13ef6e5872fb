"""Which books, editions and amendments are in force at a place and date.

An adoption is a file ``rulebooks/adoptions/<name>.toml``:

* ``title``, for the cover;
* ``[books]``, book to edition;
* ``like``, another adoption whose books hold where this one names none;
* ``overlays``, the amendments of places, each over those before it;
* ``from`` and ``until``, the first and the last day on which it is in force;
* ``symbols = "iec"``, where drawings use the symbols of IEC 60617 and not those of North America;
* ``carriage``, book and edition of the rules by which a battery that leaves the house is carried; no authority adopts
  them, they hold in the country.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, NamedTuple

import tomli

from standfast.faults import NotInEdition
from standfast.shelf.amended import Amended, Overlay, overlay
from standfast.shelf.compared import Compared, OwnCopy
from standfast.shelf.editions import Edition

IN_FORCE = "codes.in-force"
"""Id of the check on the dates of an adoption, which the cover repeats."""


class Adoption(NamedTuple):
    """The books and editions in force for a place and date.

    Attributes:
        name: for instance ``us-2021``.
        title: for the cover.
        books: book to edition.
        facts: everything else the file says.
        overlays: amendments of the place, each over those before it.
        compared: what the firm has read in its own copy, by book.
    """

    name: str
    title: str
    books: Mapping[str, str]
    facts: Mapping[str, Any]
    overlays: tuple[Overlay, ...] = ()
    compared: Mapping[str, tuple[Compared, ...]] = {}

    @property
    def begins(self) -> date | None:
        """First day in force; None where the adoption states none."""
        return self.facts.get("from")

    @property
    def ends(self) -> date | None:
        """Last day in force; None where the adoption states none."""
        return self.facts.get("until")

    @property
    def symbols(self) -> str:
        """Symbols of its drawings: ``iec``, or ``ansi`` where neither it nor one that it is like names any."""
        if "symbols" not in self.facts and "like" in self.facts:
            return adoption(self.facts["like"]).symbols
        return str(self.facts.get("symbols", "ansi"))

    @property
    def carriage(self) -> Edition | None:
        """The rules of carriage of the country; None where the adoption, and one that it is like, names none."""
        if "carriage" not in self.facts:
            return adoption(self.facts["like"]).carriage if "like" in self.facts else None
        return edition(*str(self.facts["carriage"]).split())

    def book(self, name: str) -> Edition:
        """The edition of a book in force. NotInEdition where the adoption names none."""
        if name not in self.books:
            raise NotInEdition(f"the adoption {self.name} names no edition of {name}")
        return _layered(name, self.books[name], self.overlays, self.compared.get(name, ()))

    def read_in_print(self, compared: Iterable[Compared]) -> "Adoption":
        """This adoption with what a firm has compared, as far as its editions are in force."""
        held: dict[str, tuple[Compared, ...]] = {}
        for each in compared:
            if self.books.get(each.book) == each.edition:
                held[each.book] = (*held.get(each.book, ()), each)
        return self._replace(compared=held)


@cache
def edition(book: str, year: str) -> Edition:
    """An edition of a book. NotInEdition where it is not on the shelf."""
    folder = files("standfast.rulebooks") / book / "editions" / year
    if not folder.is_dir():
        raise NotInEdition(f"{book} {year} is not on the shelf")
    found = Edition(book, year, folder)
    base = found.facts.get("amends")
    if base is None:
        return found
    from standfast.shelf.consolidated import Consolidated

    return Consolidated(edition(book, base), found)


@cache
def _layered(book: str, year: str, overlays: tuple[Overlay, ...], compared: tuple[Compared, ...]) -> Edition:
    """An edition with what was compared of it, and over that what the places have changed."""
    found = edition(book, year)
    if compared:
        found = OwnCopy(found, compared)
    for each in overlays:
        if book in each.books:
            found = Amended(found, each)
    return found


def adoptions() -> list[str]:
    """Names of the adoptions on the shelf."""
    return sorted(path.name.removesuffix(".toml") for path in _shelf().iterdir() if path.name.endswith(".toml"))


def families() -> list[str]:
    """Words by which a job may ask for the adoption of a country that is in force on its date."""
    return sorted({family for name in adoptions() if (family := adoption(name).facts.get("family")) is not None})


def adopted_on(name: str, day: date) -> Adoption:
    """An adoption by its name; or of a family, by its word, the one that is in force on a day.

    While two are in force, the newest of those that are held in full; where none is, the newest. Where the day lies
    outside all of them, the nearest: whoever prints it says that it was not in force.

    Args:
        name: of an adoption or a family.
        day: date of the job.

    Raises:
        NotInEdition: where neither is on the shelf.
    """
    if (_shelf() / f"{name}.toml").is_file():
        return adoption(name)
    members = [each for each in map(adoption, adoptions()) if each.facts.get("family") == name]
    if not members:
        raise NotInEdition(f"no adoption {name!r} is on the shelf: use one of {', '.join([*adoptions(), *families()])}")
    members.sort(key=lambda each: each.begins or date.min)
    begun = [each for each in members if (each.begins or date.min) <= day] or members[:1]
    held = [each for each in begun if each.ends is None or day <= each.ends] or begun[-1:]
    full = [each for each in held if not any(each.book(book).thin for book in each.books)]
    return (full or held)[-1]


@cache
def adoption(name: str) -> Adoption:
    """An adoption by name. NotInEdition where it is not on the shelf."""
    path = _shelf() / f"{name}.toml"
    if not path.is_file():
        raise NotInEdition(f"no adoption {name!r} is on the shelf: use one of {', '.join(adoptions())}")
    facts = tomli.loads(path.read_text("utf-8"))
    like = adoption(facts["like"]).books if "like" in facts else {}
    overlays = tuple(overlay(each) for each in facts.get("overlays", ()))
    return Adoption(name, facts["title"], {**like, **facts.get("books", {})}, facts, overlays)


def _shelf() -> Traversable:
    return files("standfast.rulebooks") / "adoptions"
