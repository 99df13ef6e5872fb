"""Nothing is asked of a network: a job is packed with every socket closed."""

import subprocess
import sys
from pathlib import Path

CLOSED = """
import sys

def closed(event, arguments):
    if event.partition(".")[0] in ("socket", "ssl", "http", "urllib", "ftplib", "smtplib"):
        raise RuntimeError(f"the network was asked: {event}")

sys.addaudithook(closed)
"""
TEMPLATES = Path(__file__).parents[2] / "src" / "standfast" / "paper" / "templates"


def process(script: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run a script with every socket of Python closed."""
    call = [sys.executable, "-c", CLOSED + script, *arguments]
    return subprocess.run(call, capture_output=True, text=True, timeout=60, check=False)


def test_the_demo_is_packed_with_every_socket_closed(tmp_path: Path) -> None:
    found = process("from standfast.cli import run\nsys.exit(run(['demo', '--out', sys.argv[1]]))", str(tmp_path))
    assert found.returncode in (0, 1), found.stderr
    assert found.stderr == ""
    assert (tmp_path / "out" / "permit-set.pdf").stat().st_size > 10_000


def test_a_socket_would_have_been_seen() -> None:
    found = process("import socket\nsocket.create_connection(('127.0.0.1', 9))")
    assert found.returncode == 1
    assert "the network was asked" in found.stderr


def test_no_template_asks_for_a_package_that_would_be_fetched() -> None:
    pages = list(TEMPLATES.rglob("*.typ"))
    assert pages
    for page in pages:
        assert "@preview" not in page.read_text("utf-8"), page.name
        assert "@local" not in page.read_text("utf-8"), page.name
