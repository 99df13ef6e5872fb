"""Whether the text of a listing names a standard: what does not is the listing of nothing."""

import re

from standfast.design.installation.build import JobFile
from standfast.sheet import Value, missing

STANDARD = re.compile(r"\b[A-Z]{2,}(/[A-Z]+)?[ -]?[A-Z]*\d{2,}")
"""Letters of a body and the number of its standard, as every listing has them."""


def standard_named(job: JobFile, path: str) -> Value:
    """The text of a listing; missing where it names no standard: "none" or "yes" says of no listing which it is."""
    text = job.fact(path, "listing")
    if text.missing or STANDARD.search(text.word):
        return text
    need = f'{path}: "{text.word}" names no standard. Write standard and file, as its certificate does'
    return missing("listing", "", need, text)
