"""What is left behind after an internal fault: a report the user can send."""

import platform
import tempfile
import traceback

from standfast import __version__


def report(error: BaseException, arguments: list[str]) -> str:
    """Write the traceback, the call and the versions to a file of its own, and say where it is."""
    lines = [
        f"standfast {__version__}, Python {platform.python_version()}, {platform.platform()}",
        f"call: {arguments}",
        "",
        "".join(traceback.format_exception(error)),
        "The report holds the call, the names of files and the message of the fault: look before you send it on.",
    ]
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", prefix="standfast-fault-", suffix=".txt", delete=False
        ) as file:
            file.write("\n".join(lines))
    except OSError as closed:
        return f"no report could be written: {closed.strerror}"
    return f"report: {file.name}"
