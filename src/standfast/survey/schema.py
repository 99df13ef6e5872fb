"""What editors and people need to write a job file: its JSON Schema and its reference."""

from standfast.reading import reference as _reference
from standfast.reading import schema as _schema
from standfast.survey.model import Job


def schema() -> _schema.Schema:
    """JSON Schema of the job file, for ``#:schema ./job.schema.json``."""
    return _schema.schema(Job, "standfast job file")


def reference() -> str:
    """Every word of the job file, and every unit, as Markdown."""
    return f"## Units\n\n{_reference.units()}\n## Every word\n\n{_reference.reference(Job)}"
