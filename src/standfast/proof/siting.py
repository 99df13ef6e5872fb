"""Cases of siting: layouts judged, limits looked up."""

from typing import Any

from standfast.design.siting.asking import PART, held
from standfast.design.siting.energy import place_limit
from standfast.design.siting.rules import judge
from standfast.design.siting.ruling import Ruling, rule_of, ruling
from standfast.design.siting.zones import WEEP_HOLES
from standfast.faults import NotInEdition
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.proof.siting_layouts import layout_of
from standfast.sheet import Check
from standfast.shelf import Adoption, adoption
from standfast.units import convert

_ADOPTIONS = {
    "us-irc2021-nfpa855-2023": "us-2021",
    "us-irc2024": "us-irc2024",
    "us-ca-crc2022": "us-ca-crc2022",
    "uk-pas63100-2024": "uk-pas63100-2024",
    "au-asnzs5139-2019": "au-asnzs5139-2019",
    "au-asnzs5139-2019-a1": "au-asnzs5139-2019-a1",
    "any": "none",
}
_RULES: dict[str, tuple[str, str]] = {
    "US-LOC-EXT-3FT": ("opening-clearance", ""),
    "CA-DOORWIN-DIRECT": ("opening-clearance", ""),
    "UK-OUT-1M": ("opening-clearance", ""),
    "US-SPACING-3FT": ("unit-spacing", ""),
    "US-E-UNIT-20": ("unit-energy", ""),
    "US-E-UTIL-40": ("energy-utility-space", ""),
    "US-E-ATTGAR-80": ("energy-attached-garage", ""),
    "US-E-DETGAR-80": ("energy-detached-building", ""),
    "US-E-EXTWALL-80": ("energy-exterior-wall", ""),
    "US-E-GROUND-80": ("energy-ground", ""),
    "US-LOC-NO-SLEEP": ("forbidden-place", ""),
    "US-LOC-UTIL-GYP": ("lining", ""),
    "CA-IMPACT-PATH": ("vehicle-path", ""),
    "CA-IMPACT-BACK-36": ("beside-vehicle-path", ""),
    "CA-IMPACT-EXC-76": ("low-door", ""),
    "US-IMPACT-SOLSMART": ("end-wall-height", ""),
    "CA-WHEELSTOP": ("wheel-stop", ""),
    "CA-BOLLARD": ("bollard", ""),
    "NEC-WS-WIDTH": ("working-width", ""),
    "NEC-WS-DEPTH": ("working-depth", ""),
    "NEC-706-SPACES": ("working-depth", "no number of its own"),
    "US-GAS-3FT": ("gas-relief-vent", ""),
    "AU-GAS-CYL-1500": ("gas-cylinder", ""),
    "UK-FLAM-2M": ("flammables", ""),
    "US-GARAGE-18IN": ("ignition-height", ""),
    "US-FLOOD-EQUIP": ("flood-level", ""),
    "US-EVSHED-5FT": ("repurposed-battery", ""),
    "DOOR-SWING": ("door-swing", ""),
    "UK-NO-LOFT": ("roof-space", ""),
    "UK-NO-SLEEP": ("sleeping-room", ""),
    "UK-NO-CUPBOARD": ("cupboard", ""),
    "UK-NO-ESCAPE": ("escape-route", ""),
    "UK-NO-PROTECTED": ("protected-route", ""),
    "UK-SEP-INDOOR": ("fire-separation", ""),
    "UK-DETECT": ("detection", ""),
    "UK-OUTDOOR-FIRST": ("outdoors-first", ""),
    "AU-NO-STAIRS": ("under-stairs", ""),
    "AU-WINDOW-SIDE-600": ("window-zone", "window-beside"),
    "AU-WINDOW-ABOVE-900": ("window-zone", "window-above"),
    "AU-APPLIANCE-600-900": ("appliance-zone", ""),
    "AU-EXIT-600": ("exit-zone", ""),
    "AU-BARRIER": ("barrier", ""),
    "AU-BARRIER-EXTENT": ("barrier-extent", ""),
    "AU-WEEP": ("weep-holes", ""),
    "AU-HALL-1M": ("hall", ""),
}
"""Rule of a case to the rule of the engine, and to the one of its checks that the case means, where there are two."""
_LOWERED_BY = {"vehicle-path": "low-door", "beside-vehicle-path": "low-door"}
"""Rules whose number an exception of the same section changes: it is read with them."""
_PARTS = {"window-beside": "window-zone", "window-above": "window-zone"}
_LIMITS = {
    "energy_per_unit": "unit_energy",
    "scope_energy": "storage_scope",
    "unit_spacing": "unit_spacing",
    "opening_clearance": "opening_clearance",
    "repurposed_battery_clearance": "repurposed_battery",
    "flammables_clearance": "flammables",
    "zone_front": "zone_front",
    "zone_above": "zone_above",
}
_BOOKS = ("crc", "irc", "nfpa855", "pas63100", "asnzs5139")


@method("siting.layout")
def layout(case: Inputs) -> dict[str, Any]:
    """Verdict, condition, the rule that binds and its numbers."""
    named = _named(case)
    judged = layout_of(case)
    rules = [_RULES[each][0] for each in named]
    rules += [_LOWERED_BY[each] for each in rules if each in _LOWERED_BY]
    checks = judge(_adoption(case), judged, dict.fromkeys(rules))
    found = ruling([each._replace(id=f"{PART}{name}") for each in checks for name in _names(each, named)])
    if found.verdict == "cannot tell":
        raise BadCase("; ".join(dict.fromkeys(each.reason for each in found.decisive)))
    answer: dict[str, Any] = {"verdict": found.verdict, **_numbers(found)}
    if found.condition:
        answer["condition"] = found.condition
    if found.binding_rule:
        answer["binding_rule"] = found.binding_rule
    energies = [unit.energy.quantity for unit in judged.units if unit.energy is not None]
    if energies:
        answer["total_kwh"] = sum(energies)
    if "AU-WEEP" in named:
        answer["holes_in_zone"] = _holes(checks)
    return answer


@method("siting.limit")
def limit(case: Inputs) -> dict[str, Any]:
    """A value that an adoption sets."""
    quantity, codes = case.word("quantity"), _adoption(case)
    if quantity == "energy_per_place":
        return {"limit_kwh": place_limit(codes, case.word("place").replace("_", " ")).quantity}
    if quantity not in _LIMITS:
        raise BadCase(f"{quantity!r} is no quantity: use one of {', '.join(_LIMITS)}")
    key = _LIMITS[quantity]
    value = held(codes, _BOOKS, key)
    if value.unit == "kWh":
        return {"limit_kwh": value.quantity}
    if value.unit in ("mm", "m"):
        return {"limit_mm": convert(value.quantity, value.unit, "mm")}
    answer = {"limit_ft": convert(value.quantity, value.unit, "ft")}
    try:
        answer["limit_printed_mm"] = held(codes, _BOOKS, f"{key}_printed").quantity
    except NotInEdition:
        return answer
    return answer


def _adoption(case: Inputs) -> Adoption:
    word = case.word("adoption")
    if word not in _ADOPTIONS:
        raise BadCase(f"{word!r} is no adoption: use one of {', '.join(_ADOPTIONS)}")
    return adoption(_ADOPTIONS[word])


def _named(case: Inputs) -> list[str]:
    named = case.raw("rules")
    if not isinstance(named, list) or not named:
        raise BadCase("the input 'rules' is not a list of rules")
    for each in named:
        if not isinstance(each, str) or each not in _RULES:
            raise BadCase(f"{each!r} is no rule known here")
    return named


def _names(check: Check, named: list[str]) -> list[str]:
    """The rules of the case that a check answers for."""
    rule = rule_of(check)
    asked = [each for each in named if _RULES[each][0] == _PARTS.get(rule, rule)]
    exact = [each for each in asked if _RULES[each][1] in ("", rule)]
    return exact or asked[:1]


def _numbers(found: Ruling) -> dict[str, float]:
    numbered = [each for each in found.decisive if each.margin is not None]
    if not numbered:
        return {}
    first = numbered[0]
    if first.demand is None or first.limit is None or first.margin is None:
        return {}
    unit = first.demand.unit.lower()
    answer = {f"margin_{unit}": first.margin}
    pairs = {
        (each.demand.number, each.limit.number)
        for each in numbered
        if each.demand is not None and each.limit is not None
    }
    if len(pairs) == 1:
        answer |= {f"actual_{unit}": first.demand.quantity}
        answer |= {"limit_kwh" if unit == "kwh" else f"required_{unit}": first.limit.quantity}
    return answer


def _holes(checks: list[Check]) -> int:
    return len({each.id.rpartition("/")[2] for each in checks if each.condition == WEEP_HOLES})
