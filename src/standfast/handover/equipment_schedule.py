"""The equipment schedule: every device of the installation that carries a rating, under its one name."""

from collections.abc import Mapping

from standfast.design.installation import Part
from standfast.design.installation.build import SheetFile
from standfast.equipment.model import Listing
from standfast.handover.contents import Item
from standfast.handover.drawings.one_line_told import OneLine

ROLES: dict[str, str] = {
    "battery": "battery",
    "inverter": "inverter",
    "breaker": "breaker",
    "disconnect": "disconnect",
    "transfer equipment": "island_switch",
}
"""Kind of part to the role of its data sheet."""
KINDS: dict[str, str] = {
    "battery": "Battery unit",
    "inverter": "Inverter",
    "breaker": "Circuit breaker",
    "disconnect": "Disconnect",
    "transfer equipment": "Island switch",
    "busbar": "Panelboard",
    "shutdown switch": "Emergency shutdown switch",
}
"""Kinds of part that the schedule lists, and their words."""


def items(told: OneLine, sheets: Mapping[str, SheetFile], place: str) -> list[Item]:
    """The equipment schedule of a job, in the order of the installation.

    Args:
        told: ratings and names, as the one-line diagram says them.
        sheets: data sheets by role.
        place: where the battery hangs, in words.
    """
    listed = [part for part in told.installation.parts.values() if part.kind in KINDS and _listed(part)]
    return [_item(part, told, sheets, place) for part in listed]


def _listed(part: Part) -> bool:
    """Branch circuits stand in the panel schedules; here are the parts that are new, and what feeds the house."""
    return not part.existing or part.kind in ("busbar", "inverter", "disconnect") or part.id == "service-disconnect"


def _item(part: Part, told: OneLine, sheets: Mapping[str, SheetFile], place: str) -> Item:
    sheet = None if part.existing else _sheet(part, sheets)
    model = "existing" if part.existing else "to the rating" if sheet is None else _model(sheet)
    listing = "" if sheet is None else "; ".join(dict.fromkeys(_statement(each) for each in sheet.content.listing))
    where = "existing" if part.existing else place if part.kind in ("battery", "inverter") else "see drawings"
    if part.kind == "inverter" and not part.existing and "inverter" not in sheets:
        model, listing = "inside the battery unit", "as the battery unit"
    if part.kind == "shutdown switch":
        model, where = "as the manual of the battery unit asks", "outdoors, see site plan"
    ratings = "; ".join(told.words[part.id].lines) if part.id in told.words else ""
    return Item(part.name, KINDS[part.kind], model, "1", ratings, listing, where)


def _sheet(part: Part, sheets: Mapping[str, SheetFile]) -> SheetFile | None:
    """The data sheet of a part; an inverter without one of its own is inside the battery unit."""
    sheet = sheets.get(ROLES.get(part.kind, ""))
    return sheets.get("battery") if sheet is None and part.kind == "inverter" else sheet


def _model(sheet: SheetFile) -> str:
    named = f"{sheet.content.maker} {sheet.content.name}"
    return f"{named} (invented)" if sheet.content.invented else named


def _statement(listing: Listing) -> str:
    return f"{listing.standard}, {listing.certificate}" if listing.certificate else listing.standard
