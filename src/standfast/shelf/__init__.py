"""Opens the data of a book's edition, and says which editions are in force at a place and date.

``editions`` and ``table`` hold one edition of one book; ``amended`` what a place changes in it; ``compared`` what a
firm has read in its own printed copy; ``adoptions`` which books, editions and amendments are in force;
``operators`` what a grid operator asks beside them.
"""

from standfast.shelf.adoptions import Adoption, adopted_on, adoption, adoptions, edition, families
from standfast.shelf.amended import Overlay, overlay
from standfast.shelf.compared import Compared
from standfast.shelf.editions import Edition
from standfast.shelf.operators import as_asked, editions_of, operator, operators
from standfast.shelf.table import Cell, Row, Table

__all__ = [
    "Adoption",
    "Cell",
    "Compared",
    "Edition",
    "Overlay",
    "Row",
    "Table",
    "adopted_on",
    "adoption",
    "adoptions",
    "as_asked",
    "edition",
    "editions_of",
    "families",
    "operator",
    "operators",
    "overlay",
]
