"""The equipment schedule: every device of the installation that carries a rating, under its one name."""

from collections.abc import Mapping

from standfast.design.installation import Part
from standfast.design.installation.build import SheetFile
from standfast.equipment.model import Listing
from standfast.handover.contents import Item
from standfast.handover.drawings.one_line_inside import MAIN, is_inside, is_main
from standfast.handover.drawings.one_line_told import OneLine

KINDS: dict[str, str] = {
    "battery": "Battery unit",
    "inverter": "Inverter",
    "fuse": "DC fuse",
    "array": "PV array",
    "breaker": "Circuit breaker",
    "disconnect": "Disconnect",
    "transfer equipment": "Island switch",
    "busbar": "Panelboard",
    "shutdown switch": "Emergency shutdown switch",
}
"""Kinds of part that the schedule lists, and their words."""


def items(told: OneLine, sheets: Mapping[str, SheetFile], places: Mapping[str, str]) -> list[Item]:
    """The equipment schedule of a job, in the order of the installation.

    Args:
        told: ratings and names, as the one-line diagram says them.
        sheets: data sheets by role.
        places: where each device is, in words; a device that is not there stands on the drawings.
    """
    listed = [part for part in told.installation.parts.values() if part.kind in KINDS and _listed(part)]
    return [_item(part, told, sheets, places) for part in listed]


def _listed(part: Part) -> bool:
    """Branch circuits stand in the panel schedules; here are the parts that are new, and what feeds the house."""
    known = part.kind in ("busbar", "inverter", "disconnect") or part.id == "service-disconnect" or is_main(part)
    return not part.existing or known


def _item(part: Part, told: OneLine, sheets: Mapping[str, SheetFile], places: Mapping[str, str]) -> Item:
    sheet = None if part.existing else _sheet(part, sheets)
    model = "existing" if part.existing else "to the rating" if sheet is None else _model(sheet)
    listing = "" if sheet is None else "; ".join(dict.fromkeys(_statement(each) for each in _of_pair(sheet, sheets)))
    at = part.id.removesuffix(MAIN) if is_main(part) else part.id.removesuffix("/inverter")
    where = "existing" if part.existing else places.get(at, "see drawings")
    if part.kind == "inverter" and part.role == "battery":
        model, listing = "inside the battery unit", "as the battery unit"
    if is_inside(part):
        owner = "battery unit" if part.role == "battery" else part.role
        model, listing = f"inside the {owner}", f"as the {owner}"
        where = places.get(part.id.partition("/")[0], where)
    if part.kind == "shutdown switch":
        model, where = "as the manual of the battery unit asks", "outdoors, see site plan"
    ratings = "; ".join(told.words[part.id].lines) if part.id in told.words else ""
    return Item(part.name, KINDS[part.kind], model, "1", ratings, listing, where)


def _of_pair(sheet: SheetFile, sheets: Mapping[str, SheetFile]) -> list[Listing]:
    """The certificates that hold here: those with other equipment than the chosen one are left out."""
    chosen = {each.content.id for each in sheets.values()}
    return [each for each in sheet.content.listing if each.with_ is None or each.with_ in chosen]


def _sheet(part: Part, sheets: Mapping[str, SheetFile]) -> SheetFile | None:
    """The data sheet of a part; that of an inverter without one of its own is the battery unit's."""
    return sheets.get(part.role)


def _model(sheet: SheetFile) -> str:
    named = f"{sheet.content.maker} {sheet.content.name}"
    return f"{named} (invented)" if sheet.content.invented else named


def _statement(listing: Listing) -> str:
    return f"{listing.standard}, {listing.certificate}" if listing.certificate else listing.standard
