"""An edition that is an earlier one with an amendment of the book itself: what the amendment leaves alone stands.

``edition.toml`` says ``amends``, the edition that it changes; the folder then holds only what differs. Every clause and
number is cited under the amended edition, which prints all of them.
"""

from typing import Any

from standfast.shelf.editions import Edition


class Consolidated(Edition):
    """An edition over the one that it amends."""

    def __init__(self, base: Edition, own: Edition) -> None:
        super().__init__(own.book, own.edition, own.folder)
        self._base = base

    def read(self, name: str) -> dict[str, Any]:
        """The content of a file: entries of the amendment in place of those of the same key, or beside the others."""
        own = super().read(name)
        if name == "edition.toml":
            return own
        base = self._base.read(name)
        if name == "coverage.toml":
            changed = {entry["clause"] for entry in own.get("clause", ())}
            kept = [entry for entry in base.get("clause", ()) if entry["clause"] not in changed]
            return {**base, "clause": [*kept, *own.get("clause", ())]}
        return {**base, **own}

    def rows(self, file: str) -> str:
        """The text of a file of rows: of the amendment where it has one, else of the edition that it amends."""
        return super().rows(file) if (self.folder / "tables" / file).is_file() else self._base.rows(file)
