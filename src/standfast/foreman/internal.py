"""What is left behind after an internal fault: a report the user can send."""

import platform
import tempfile
import traceback
from pathlib import Path

from standfast import __version__


def report(error: BaseException, arguments: list[str]) -> Path:
    """Write the traceback, the call and the versions to a file of its own, and give its path."""
    lines = [
        f"standfast {__version__}, Python {platform.python_version()}, {platform.platform()}",
        f"call: {arguments}",
        "",
        "".join(traceback.format_exception(error)),
        "The report holds the call, the names of files and the message of the fault: look before you send it on.",
    ]
    with tempfile.NamedTemporaryFile(
        "w", encoding="utf-8", prefix="standfast-fault-", suffix=".txt", delete=False
    ) as file:
        file.write("\n".join(lines))
    return Path(file.name)
