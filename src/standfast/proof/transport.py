"""Adapters of carriage, of a firm's store, and of rules by date."""

from datetime import date
from typing import Any

from standfast import shelf
from standfast.proof.inputs import BadCase, Inputs, known
from standfast.proof.methods import method
from standfast.rulebooks.cer import photographs
from standfast.rulebooks.cfr49 import lithium
from standfast.rulebooks.ifc import lithium_store
from standfast.sheet import Value, given, missing

PARAGRAPHS = {lithium.GENERAL: "173_185_b", lithium.RECYCLING: "173_185_d", lithium.DAMAGED: "173_185_f"}
PURPOSES, MODES = ("recycling", "reuse", "disposal"), ("road", "air", "sea")
STORES = {"wac_51_54a_0322": ("ifc", "2021-wa")}


@method("transport.lithium_us")
def lithium_us(case: Inputs) -> dict[str, Any]:
    """Which way the rules leave for a lithium-ion battery."""
    book = shelf.edition("cfr49", "2024")
    battery = lithium.Battery(
        given("damaged", case.yes("damaged"), "", "case, damaged"),
        _word(case, "purpose", PURPOSES),
        _word(case, "mode", MODES),
        case.value("mass_kg", "m", "kg") if "mass_kg" in case else missing("m", "kg", "give mass_kg"),
        given("strong", case.yes("strong_casing"), "", "case, strong_casing")
        if "strong_casing" in case
        else missing("strong", "", "give strong_casing"),
    )
    goes, condition = lithium.may_go(book, battery)
    told = known(
        {
            "recycling_relief_allowed": lithium.relief(book, battery),
            "un_performance_packaging_required": lithium.tested_packaging(book, battery),
        }
    )
    told |= {"verdict": "pass" if goes.yes else "fail"} | ({"condition": condition} if condition else {})
    return told | {"paragraph": PARAGRAPHS[lithium.paragraph(book, battery).word]}


@method("fire.lithium_storage")
def lithium_storage(case: Inputs) -> dict[str, Any]:
    """Permit of a store, or whether the section leaves a battery out."""
    if case.word("code") not in STORES:
        raise BadCase(f"no store is held for the code {case.word('code')!r}")
    book, found = shelf.edition(*STORES[case.word("code")]), dict[str, Any]()
    if "volume_ft3" in case:
        volumes = [given("V", each, "ft3", "case, volume_ft3") for each in case.numbers("volume_ft3")]
        found["permit_required"] = [lithium_store.permit_required(book, each).yes for each in volumes]
    if "battery_wh" in case:
        retail = given("retail", case.yes("original_retail_packaging"), "", "case, original_retail_packaging")
        found["exempt"] = lithium_store.exempt(book, case.value("battery_wh", "E", "Wh"), retail).yes
    if not found:
        raise BadCase("give volume_ft3, or battery_wh and original_retail_packaging")
    return found


@method("au.photo_rule")
def photo_rule(case: Inputs) -> dict[str, Any]:
    """Whether installations need photographs that carry place and time."""
    book = shelf.edition("cer", "2026")
    dates = [_date(number) for number in case.whole_numbers("install_date_yyyymmdd")]
    return {"geotagged_photos_required": [photographs.required(book, each).yes for each in dates]}


def _date(number: int) -> Value:
    year, rest = divmod(number, 10000)
    try:
        day = date(year, *divmod(rest, 100))
    except (ValueError, OverflowError) as error:
        raise BadCase(f"{number} is no date of eight digits: {error}") from error
    return given("date", day.isoformat(), "", "case, install_date_yyyymmdd")


def _word(case: Inputs, name: str, words: tuple[str, ...]) -> Value:
    if case.word(name) not in words:
        raise BadCase(f"the input {name!r} is not one of {', '.join(words)}: {case.word(name)!r}")
    return given(name, case.word(name), "", f"case, {name}")
