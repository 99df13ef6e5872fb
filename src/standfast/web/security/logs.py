"""What the server writes down: ways and answers, never a secret, never what people typed."""

import logging
import re

LOG = logging.getLogger("standfast.web")
_SECRET = re.compile(r"(?<![A-Za-z0-9_-])[A-Za-z0-9_-]{43}(?![A-Za-z0-9_-])")
"""Every secret of ours is 256 bits in the letters of addresses: 43 of them."""


class Masked(logging.Filter):
    """Blots out whatever looks like a secret, wherever it came from."""

    def filter(self, record: logging.LogRecord) -> bool:
        """Let every line through, with its secrets blotted out and on one line."""
        text = _SECRET.sub("(secret)", record.getMessage())
        record.msg, record.args = "".join(each if each.isprintable() else "?" for each in text), ()
        return True


def write_to(stream: logging.Handler) -> None:
    """Have the server's log written."""
    stream.setFormatter(logging.Formatter("%(asctime)s %(message)s", "%Y-%m-%dT%H:%M:%S"))
    stream.addFilter(Masked())
    LOG.addHandler(stream)
    LOG.setLevel(logging.INFO)
    LOG.propagate = False


def note(what: str, *parts: str) -> None:
    """Write a line: what happened, and short words about it (ids, roles, places), none of them typed by anybody."""
    LOG.info("%s", " ".join([what, *parts]))
