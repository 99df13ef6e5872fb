"""Runs the server until it is told to stop; what runs then is finished first."""

import errno
import logging
import os
import signal
import ssl
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from socket import AI_PASSIVE, SOCK_STREAM, create_server, getaddrinfo, socket
from typing import NamedTuple

import uvicorn

from standfast.faults import Fault, FaultsFound
from standfast.foreman.office import accounts
from standfast.foreman.office.cabinet import universal
from standfast.foreman.office.opening import opened
from standfast.foreman.office.uploads import Uploads
from standfast.web.app import make_app
from standfast.web.security.hosts import loopback
from standfast.web.security.logs import write_to
from standfast.web.settings import House, Settings
from standfast.web.shipped import lacking

__all__ = ["Place", "Settings", "loopback", "serve"]
GRACE_S = 10
"""How long a request may go on after the server was told to stop."""
CONNECTIONS = 500


class Place(NamedTuple):
    """Where the server listens, and by what it is reached."""

    host: str
    port: int
    cert: Path | None = None
    key: Path | None = None
    behind_proxy: bool = False


class _Server(uvicorn.Server):
    """Tells when it listens, and where."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[str], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            host, port, *_ = self.servers[0].sockets[0].getsockname()
            self._ready(f"{host}:{port}" if ":" not in host else f"[{host}]:{port}")


def serve(url: str, place: Place, settings: Settings, say: Callable[[str], None]) -> None:
    """Open the database and answer until SIGINT or SIGTERM.

    Args:
        url: of the database.
        place: where to listen.
        settings: how the server is called and what it may.
        say: tells whoever started it where it listens, and the link by which the first account is made.
    """
    write_to(logging.StreamHandler())
    _fit(place)
    store = opened(url)

    def ready(address: str) -> None:
        named = (
            settings.names[0] + address[address.rindex(":") :] if settings.names and not place.behind_proxy else address
        )
        called = settings.names[0] if settings.names and place.behind_proxy else named
        here = f"{'https' if settings.secure else 'http'}://{called}"
        say(f"standfast listens: {here}/office/")
        if missing := lacking():
            say(missing)
        if not accounts.has_office(store):
            code = accounts.invite(store, "office", universal())
            say(f"make the first account, once, within a day: {here}/office/join/{code}")

    try:
        house = House(settings, store, Uploads(store))
        config = uvicorn.Config(
            make_app(house), host=place.host, port=place.port, ssl_certfile=place.cert, ssl_keyfile=place.key,
            proxy_headers=place.behind_proxy, forwarded_allow_ips="127.0.0.1" if place.behind_proxy else "",
            server_header=False, access_log=False, log_config=None, lifespan="off", ws="none", timeout_keep_alive=15,
            limit_concurrency=CONNECTIONS, timeout_graceful_shutdown=GRACE_S, h11_max_incomplete_event_size=32_768,
        )  # fmt: skip
        with ExitStack() as doors:
            listening = [doors.enter_context(each) for each in _listening(place)]
            # The server stops by itself at a signal and then raises it once more: that is all there is to do.
            for each in (signal.SIGINT, signal.SIGTERM):
                signal.signal(each, lambda *_: None)
            _Server(config, ready).run(listening)
    finally:
        store.close()


def _listening(place: Place) -> list[socket]:
    """Sockets that listen at every address of the host.

    Raises:
        FaultsFound: where there is no such host, or the port is taken.
    """
    try:
        known = getaddrinfo(place.host, place.port, type=SOCK_STREAM, flags=AI_PASSIVE)
    except OSError as error:
        raise _refused("--host", f"{place.host} is not known", error, "name an address of this machine") from None
    found: list[socket] = []
    failed = OSError("it has no address")
    for family, address in dict.fromkeys((family, address) for family, *_, address in known):
        try:
            found.append(create_server((str(address[0]), place.port), family=family))
        except OSError as error:
            failed = error
            if error.errno == errno.EADDRINUSE:
                break
    if found and failed.errno != errno.EADDRINUSE:
        return found
    for each in found:
        each.close()
    if failed.errno == errno.EADDRINUSE:
        todo = "another program has it, perhaps this one once more: end that, or take another with --port"
        raise _refused("--port", f"port {place.port} is taken", None, todo)
    raise _refused(
        "--host",
        f"nothing can listen at {place.host}, port {place.port}",
        failed,
        "take an address of this machine, and a port from 1024 on",
    )


def _fit(place: Place) -> None:
    """Look at the certificate and its key before anything is opened.

    Raises:
        FaultsFound: where they cannot be used.
    """
    if place.cert is None or place.key is None:
        return
    try:
        ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(place.cert, place.key)
    except (ssl.SSLError, OSError) as error:
        todo = "give the certificate of the server and the key that belongs to it, both as PEM, without a password"
        why = None if isinstance(error, ssl.SSLError) else error
        raise _refused("--tls-cert", f"{place.cert} and {place.key} are no such pair", why, todo) from None


def _refused(option: str, what: str, error: OSError | None, todo: str) -> FaultsFound:
    """A call that cannot be followed."""
    number = error.errno if error else None
    why = "" if error is None else os.strerror(number).lower() if number and number > 0 else str(error.strerror)
    return FaultsFound([Fault(f"standfast serve: {option}", 0, 0, what, why, todo)])
