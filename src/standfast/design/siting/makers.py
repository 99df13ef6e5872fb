"""What a data sheet asks of the place, as siting reads it."""

from standfast.design.installation.build import SheetFile
from standfast.design.siting.frames import exact
from standfast.design.siting.instructions import SIDES
from standfast.design.siting.layout import Maker
from standfast.sheet import Value, missing


def maker(sheet: SheetFile) -> Maker:
    """What the maker of a battery unit or an inverter asks."""
    fixing = sheet.content.fixing
    between = sheet.fact("clearances.between_units", "c_between", "mm")
    return Maker(
        {side: sheet.fact(f"clearances.{side}", f"c_{side}", "mm") for side in SIDES},
        sheet.fact("clearances.floor_min", "y_least", "mm"),
        sheet.fact("clearances.floor_max", "y_greatest", "mm"),
        sheet.fact("body.switch_height", "y_switch", "mm"),
        _listings(sheet),
        sheet.fact("environment.temperature_min", "T_min", "°C"),
        sheet.fact("environment.temperature_max", "T_max", "°C"),
        sheet.fact("environment.place", "place"),
        sheet.fact("energy.chemistry", "chemistry"),
        tuple((exact(x), exact(y)) for x, y in fixing.holes) if fixing is not None else (),
        0 if fixing is None or fixing.slot is None else exact(fixing.slot) // 2,
        None if between.missing else between,
        sheet.content.body.hung is False,
        _unsaid(sheet),
    )


def _unsaid(sheet: SheetFile) -> dict[str, str]:
    """What has to be found out: the space between units wherever it is absent, a height only where nobody knows it.

    Most manuals state no least or no greatest height, and ask for none; every unit beside another one has a space.
    """
    asked = [word for word in ("floor_min", "floor_max") if not sheet.left_out(f"clearances.{word}")]
    facts = {word: sheet.fact(f"clearances.{word}", word, "mm") for word in ("between_units", *asked)}
    return {word: fact.how for word, fact in facts.items() if fact.missing}


def _listings(sheet: SheetFile) -> Value:
    place, found = sheet.place("listing"), tuple(sorted({each.standard for each in sheet.content.listing}))
    if not found:
        return missing("listings", "", f"{place}: no listing")
    return Value("listings", found, "", "given", place)


def tested_spacing(sheet: SheetFile) -> Value | None:
    """The space between units that a fire test report shows to be enough, mm; None where the sheet names no report."""
    if sheet.content.clearances.spacing_report is None:
        return None
    spacing = sheet.fact("clearances.between_units", "s_test", "mm")
    return None if spacing.missing else spacing
