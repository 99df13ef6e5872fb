"""Prints a hash of every paper of job folders before it is pressed; test_same_bytes runs it in processes of its own."""

import hashlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path

from standfast.foreman.answers import answer, as_json
from standfast.foreman.designed import designed
from standfast.foreman.pack import papers
from standfast.foreman.plan import make_plan
from standfast.paper import schedule
from standfast.paper.document import data
from standfast.paper.drawing import Drawing


def plain(part: object) -> str:
    """What the press gets as a file of its own."""
    return part.svg() if isinstance(part, Drawing) else repr(part)


def written(folder: Path) -> Iterator[tuple[str, str]]:
    """Name and content of each paper."""
    plan = make_plan(folder)
    made = papers(plan)
    documents = {"permit": made.permit.document, "work": made.work, "defects": made.defects, **made.removals}
    for name, document in documents.items():
        yield name, json.dumps(data(document), default=plain)
    for name, drawing in made.drawings.items():
        yield name, drawing.svg()
    for each in made.schedules:
        yield each.name, schedule.as_csv(each)
    yield "materials", made.materials
    yield "checks", as_json(answer(plan))
    yield "design", as_json(designed(plan))
    yield "counter", "\n".join(map(str, made.permit.counter))


if __name__ == "__main__":
    found = {
        f"{Path(folder).name}/{name}": hashlib.sha256(text.encode()).hexdigest()
        for folder in sys.argv[1:]
        for name, text in written(Path(folder))
    }
    sys.stdout.write(json.dumps(found))
