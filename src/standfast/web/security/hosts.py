"""By which names the server lets itself be called: a page elsewhere that points its own name at us is turned away."""

import ipaddress
import re
from collections.abc import Collection

LOOPBACK = ("localhost",)
_HOST = re.compile(r"(\[[0-9A-Fa-f:.]+\]|[^\[\]:/@,\s%]+)(?::[0-9]{1,5})?")


def called(host: str, names: Collection[str]) -> bool:
    """True where the Host of a request is one of ours.

    An address in numbers is always ours: what arrives here was sent to it, and no name can be bent to be one.
    """
    name = _name(host)
    if not name:
        return False
    if name in LOOPBACK or name in {each.casefold() for each in names}:
        return True
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True


def place(address: str) -> str:
    """From where somebody asks, as attempts are counted: of IPv6 the network of 64 bits, which one line has whole."""
    try:
        found = ipaddress.ip_address(address)
    except ValueError:
        return address
    if found.version == 4:
        return str(found)
    if found.ipv4_mapped is not None:
        return str(found.ipv4_mapped)
    return str(ipaddress.IPv6Network((int(found), 64), strict=False).network_address)


def loopback(host: str) -> bool:
    """True for an address that only this machine reaches."""
    if host.casefold() in LOOPBACK:
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def same_site(origin: str, host: str, *, secure: bool) -> bool:
    """True where the Origin of a request is the page's own."""
    scheme = "https" if secure else "http"
    return origin.casefold() == f"{scheme}://{host.casefold()}"


def _name(host: str) -> str:
    """A host without its port; empty where it is none: nothing else may stand behind the name."""
    found = _HOST.fullmatch(host)
    return found[1].casefold() if found else ""
