"""Draws the pictures of the README from the demo job: the elevation, and the first sheet of the permit set."""

import tempfile
from pathlib import Path

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import papers
from standfast.foreman.plan import make_plan
from standfast.paper.pdf import Press

PICTURES = Path(__file__).parent / "pictures"
SHEETS = {"cover.png": "G1", "elevation.png": "A2"}
"""File to the code of the sheet that it shows."""
PPI = 72


def main() -> None:
    """Write the pictures."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, Press() as press:
        permit = papers(make_plan(write_demo("one-wall", Path(folder)))).permit.document
        numbers = press.pdf(permit).numbers
        pages = press.pictures(permit, ppi=PPI)
    for name, code in SHEETS.items():
        (PICTURES / name).write_bytes(pages[numbers[code] - 1])
        print(f"written: {PICTURES / name}")


if __name__ == "__main__":
    main()
