"""What the listing of the unit has to say: the pair of battery and inverter, its part on the grid, its DC voltage."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material, SheetFile
from standfast.equipment.model import Listing
from standfast.rulebooks.nfpa70 import storage
from standfast.sheet import Check, Value, chosen, given, is_, missing, one_of
from standfast.survey.joined import unit_ids


def checks(task: Material) -> Iterator[Check]:
    """Listings and DC voltage of the source; of an inverter by itself, of every battery that is joined to it."""
    id, nec, units = task.unit, task.nec, unit_ids(task.job.content) if task.role == "inverter" else [task.unit]
    title = "Battery and inverter are listed together as a storage system"
    for each in units:
        clause = nec.clause("storage_listing")
        yield one_of(f"wiring.listing-pair/{each}", title, clause, _other(task), _listed_with(task))
    title, clause = "The inverter is listed for work beside the grid", nec.clause("source_listing")
    yield one_of(
        f"wiring.listing-interactive/{id}", title, clause, _interactive(task), nec.number("interactive_standards")
    )
    clause, stops = nec.clause("loss_of_source"), task.own("anti_islanding", "anti_islanding")
    yes = chosen("needed", True, "", "nothing of the unit reaches the grid while it is away", clause)
    yield is_(f"wiring.anti-islanding/{id}", "The unit stops feeding the grid when it goes", clause, stops, yes)
    voltage = task.of("battery", "electrical.dc_voltage_max", "U_dc", "V")
    accessible = task.of("battery", "electrical.live_parts_accessible", "accessible")
    for each in units:
        yield storage.dc_voltage(nec, f"wiring.dc-voltage/{each}", voltage, accessible)


def _other(task: Material) -> Value:
    """The inverter that the battery has to be listed with: another sheet, or the same one where it holds both."""
    sheet = task.sheets.get(task.role)
    if sheet is None:
        return missing("inverter", "", f"equipment.{task.role}: choose one by the id of its data sheet")
    return given("inverter", sheet.content.id, "", sheet.place("id"))


def _listed_with(task: Material) -> Value:
    """The sheets that the battery's listing as a storage system names; the inverter's sheet may say it too."""
    sheet, inverter = task.sheets.get("battery"), task.sheets.get(task.role)
    if sheet is None:
        return missing("listed_with", "", "equipment.battery: choose one by the id of its data sheet")
    rows = _rows(task, sheet)
    names = {each.with_ for each in rows if each.with_ is not None}
    if inverter is not None and sheet.content.id in {each.with_ for each in _rows(task, inverter)}:
        names = names | {inverter.content.id}
    said = all(each.with_ for each in rows) or (inverter is not None and inverter.content.id in names)
    if names and said:
        return given("listed_with", tuple(sorted(names)), "", sheet.place("listing"))
    number = task.nec.number("storage_standards").number
    asked = number if isinstance(number, tuple) else ()
    need = f"{sheet.file}: listing to {' or '.join(asked)}, and with: the inverter that the certificate names"
    return missing("listed_with", "", need)


def _rows(task: Material, sheet: SheetFile) -> list[Listing]:
    """What a sheet says of listings as a storage system."""
    number = task.nec.number("storage_standards").number
    asked = number if isinstance(number, tuple) else ()
    return [each for each in sheet.content.listing if each.standard in asked]


def _interactive(task: Material) -> Value:
    """The standard of the inverter's listing for parallel work."""
    sheet = task.sheets.get(task.role)
    if sheet is None:
        return missing("standard", "", f"equipment.{task.role}: choose one by the id of its data sheet")
    number = task.nec.number("interactive_standards").number
    asked = number if isinstance(number, tuple) else ()
    found = next((each.standard for each in sheet.content.listing if each.standard in asked), None)
    if found is not None:
        return given("standard", found, "", sheet.place("listing"))
    if sheet.stated("listing") and not sheet.content.listing:
        return given("standard", "none", "", sheet.place("listing"))
    need = f"listing: {sheet.file} has no listing to {' or '.join(asked)}. Look whether its certificate names one"
    return missing("standard", "", need)
