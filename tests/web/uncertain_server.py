"""A server that is killed at one of its statements of SQL. Run by itself:

    python uncertain_server.py URL PORT

Each line of its input is a number: a child serves the database until its so-manyth point, and kills itself there with
SIGKILL; 0 for never. A point is before each statement that writes and on both sides of each commit. It prints the id of
each child, and how it ended once it has. What is loaded is loaded once.
"""

import os
import signal
import sys
import threading
from typing import Any

import uvicorn
from sqlalchemy import Engine, event
from sqlalchemy.engine.default import DefaultDialect

from standfast.foreman.office.opening import opened
from standfast.foreman.office.uploads import Uploads
from standfast.web.app import make_app
from standfast.web.settings import House, Settings


class Killer:
    """Counts points, and ends this program at one of them."""

    def __init__(self, at: int) -> None:
        self.left = at

    def __call__(self) -> None:
        self.left -= 1
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)


def armed(kill: Killer) -> None:
    """Let every statement that writes be a point, and both sides of the commit after it."""
    here = threading.local()

    def before_statement(_db: Any, _cursor: Any, statement: str, *_more: Any) -> None:
        if not statement.lstrip().startswith(("SELECT", "PRAGMA", "BEGIN")):
            here.wrote = True
            kill()

    event.listen(Engine, "before_cursor_execute", before_statement)
    real = DefaultDialect.do_commit

    def commit(self: DefaultDialect, connection: Any) -> None:
        wrote, here.wrote = getattr(here, "wrote", False), False
        if wrote:
            kill()
        real(self, connection)
        if wrote:
            kill()

    DefaultDialect.do_commit = commit  # type: ignore[method-assign]


def serve(url: str, port: int, at: int) -> None:
    """Serve until the end."""
    store = opened(url)
    if at:
        armed(Killer(at))
    house = House(Settings(), store, Uploads(store))
    config = uvicorn.Config(
        make_app(house), host="127.0.0.1", port=port, lifespan="off", ws="none", log_config=None, access_log=False
    )
    uvicorn.Server(config).run()


if __name__ == "__main__":
    import standfast.foreman.office.isolation
    import standfast.store.database  # noqa: F401 - once, and not in each child

    for line in sys.stdin:
        child = os.fork()
        if not child:
            serve(sys.argv[1], int(sys.argv[2]), int(line))
            os._exit(0)
        sys.stdout.write(f"{child}\n")
        sys.stdout.flush()
        sys.stdout.write(f"{os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])}\n")
        sys.stdout.flush()
