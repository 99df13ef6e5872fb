"""standfast serve."""

from importlib import import_module
from pathlib import Path
from typing import Any

import click

from standfast.cli.options import database_option, firm_option

_WEB = "standfast.web.serving"
"""The one place from which the command line starts the web, by its name."""


@click.command(epilog="Example: standfast serve --jobs ~/jobs")
@database_option
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option("--port", default=8000, show_default=True, type=click.IntRange(0, 65535), help="Port to listen on.")
@click.option(
    "--name", "names", multiple=True, help="A name by which the server is called; may be given several times."
)
@click.option(
    "--jobs", type=click.Path(path_type=Path, exists=True, file_okay=False),
    help="Folder whose job folders can be taken in.",
)  # fmt: skip
@firm_option
@click.option("--tls-cert", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="Certificate, PEM.")
@click.option("--tls-key", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="Its key, PEM.")
@click.option("--behind-proxy", is_flag=True, help="A proxy on this machine does the TLS and passes requests on.")
@click.option("--plain-http", is_flag=True, help="Let others on the network read along. Tablets do not work that way.")
@click.option("--tsa", default="", help="Address of the time-stamp authority that may be asked when a job is sealed.")
def command(
    database: str | None, host: str, port: int, names: tuple[str, ...], jobs: Path | None, firm: Path | None,
    tls_cert: Path | None, tls_key: Path | None, behind_proxy: bool, plain_http: bool, tsa: str,
) -> None:  # fmt: skip
    """Serve the office and its tablets, until it is stopped with Ctrl-C.

    With nothing configured it keeps everything in one SQLite file of yours and listens to this machine only. Until the
    office has an account, each start prints a link by which it is made.
    """
    web = import_module(_WEB)
    if (tls_cert is None) != (tls_key is None):
        raise click.UsageError("--tls-cert and --tls-key belong together: give both")
    secure = tls_cert is not None or behind_proxy
    if not secure and not plain_http and not web.loopback(host):
        raise click.UsageError(
            f"{host} is reached by others, and without TLS anybody on the way reads passwords and photos: give "
            "--tls-cert and --tls-key, or --behind-proxy where a proxy does that; see docs/serve.md"
        )
    place = web.Place(host, port, tls_cert, tls_key, behind_proxy)
    settings: Any = web.Settings(names, secure, jobs, firm, tsa)
    web.serve(database or "", place, settings, _say)


def _say(line: str) -> None:
    click.echo(line)
