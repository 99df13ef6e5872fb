"""Faults of the link of a data sheet: an address twice, or a setting behind a cover that no step takes off."""

from collections.abc import Iterator

from standfast.equipment.model import Sheet
from standfast.faults import Fault
from standfast.reading import Document


def linked(sheet: Document[Sheet]) -> Iterator[Fault]:
    """Faults between words of [link], and with the steps."""
    link = sheet.content.link
    if link is None:
        return
    for number, address in enumerate(link.addresses):
        if address in link.addresses[:number]:
            told, why = f"address {address} is there twice", "two units with one address do not answer"
            yield sheet.fault(("link", "addresses", number), told, why, "give each place on the link its own")
    if link.addresses and link.address != "set by hand":
        told, why = "addresses are stated", f'address is "{link.address or "not stated"}"'
        yield sheet.fault(("link", "addresses"), told, why, 'write address = "set by hand", or take addresses away')
    covers = {each.under for each in sheet.content.zones}
    if link.under is not None and link.under not in covers:
        told, why = f'no zone is under "{link.under}"', "no step would have to take it off"
        yield sheet.fault(("link", "under"), told, why, "write the name of a cover of [[zones]]")
