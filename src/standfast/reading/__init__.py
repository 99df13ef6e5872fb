"""From the text of a TOML file to a frozen model, every fault at once, and facts with their place in the file."""

from standfast.reading.document import Document
from standfast.reading.engine import Result, read
from standfast.reading.positions import Index, Place, index
from standfast.reading.quantities import amount

__all__ = ["Document", "Index", "Place", "Result", "amount", "index", "read"]
