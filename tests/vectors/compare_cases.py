"""Readings with the verdict that they must get, from an oracle of its own: fractions, and intervals of them.

Written once to `compare.json`, which Python and the browser run. Nothing here knows the code that is tested.
"""

import re
from fractions import Fraction
from typing import Any

Case = dict[str, Any]


def limit(relation: str, value: str, unit: str = "MΩ", over: str = "cannot tell", upper: str | None = None) -> Case:
    found: Case = {"relation": relation, "value": value, "unit": unit, "over_range": over}
    return found if upper is None else {**found, "upper": upper}


def fraction(text: object) -> Fraction | None:
    """A decimal text of at most forty characters, by the library of fractions."""
    if not isinstance(text, str) or len(text) > 40 or re.search(r"[^0-9.\-]", text):
        return None
    try:
        found = Fraction(text)
    except ValueError:
        return None
    return None if text.startswith((".", "-.")) or text.endswith(".") else found


def oracle(value: str, unit: str, limit: Case | None, uncertainty: Case | None) -> list[str]:
    """The verdict and its reason: the set of true values that the reading allows against the set that passes."""
    others = limit.get("also") if limit is not None else None
    if limit is not None and limit.get("unit") != unit and isinstance(others, list):
        for other in others:  # a limit in several units is the one of the reading
            if isinstance(other, dict) and other.get("unit") == unit:
                return oracle(value, unit, other, uncertainty)
    if not value:
        return ["cannot tell", "no value"]
    if limit is None:
        return ["recorded", ""]
    first, last = fraction(limit.get("value")), fraction(limit.get("upper"))
    kinds: dict[Any, tuple[Any, Any]] = {
        "at least": (first, None), "at most": (None, first), "equal": (first, first), "between": (first, last)
    }  # fmt: skip
    if first is None or limit.get("relation") not in kinds or (limit["relation"] == "between" and last is None):
        return ["cannot tell", "limit not readable"]
    low, high = kinds[limit["relation"]]
    if low is not None and high is not None and low > high:
        return ["cannot tell", "limit not readable"]
    if limit.get("unit") != unit:
        return ["cannot tell", "wrong unit"]
    word = limit.get("over_range")
    if value == "OL":
        return [word if word in ("pass", "fail") else "cannot tell", "over range"]
    over = value[0] == ">"
    x = fraction(value.removeprefix(">")) if over else fraction(value)
    if x is None:
        return ["cannot tell", "not a number"]
    half = Fraction(0)
    if uncertainty is not None:
        percent, digits = fraction(uncertainty.get("percent")), fraction(uncertainty.get("digits"))
        if percent is None or digits is None or min(percent, digits) < 0:
            return ["cannot tell", "uncertainty not readable"]
        half = abs(x) * percent / 100 + digits
    infinity = Fraction(10**90)
    true_low, true_high = x - half, infinity if over else x + half
    pass_low, pass_high = -infinity if low is None else low, infinity if high is None else high
    if pass_low <= true_low and true_high <= pass_high:
        return ["pass", "over range" if over else ""]
    if true_high < pass_low or true_low > pass_high:
        return ["fail", "over range" if over else ""]
    if over:
        return ["fail" if word == "fail" else "cannot tell", "over range"]
    return ["cannot tell", "near the limit"]


AT_LEAST, AT_MOST = limit("at least", "1", over="pass"), limit("at most", "0.5", "Ω", "fail")
BETWEEN, EQUAL = limit("between", "228", "V", upper="253"), limit("equal", "60.0", "Hz")
LIMITS = (AT_LEAST, AT_MOST, BETWEEN, EQUAL)
READ = {
    "MΩ": (
        "0",
        "1",
        "1.0",
        "0.99",
        "0.999999999999999999999",
        "1.0000000000000000001",
        "999",
        "-1",
        "2",
        "1.03",
        "0.97",
    ),
    "Ω": ("0", "0.5", "0.50", "0.51", "0.500000000000000000001", "0.49", "-0.5", "12", "0.4", "0.6"),
    "V": ("227.9", "228", "228.0", "240", "253", "253.0", "253.1", "-240", "0", "260"),
    "Hz": ("60", "60.0", "60.00", "59.99", "60.01", "-60", "0", "50"),
}
BANDS: tuple[Case, ...] = (
    {"percent": "3", "digits": "0.02"}, {"percent": "0", "digits": "0"}, {"percent": "1.5", "digits": "0"},
    {"percent": "0", "digits": "0.1"},
)  # fmt: skip
OVER = ("OL", ">0.1", ">0.5", ">0.6", ">1", ">1.03", ">228", ">253", ">254", ">60", ">61", ">999", ">-5", ">", ">OL")
NOT_NUMBERS = (
    "", " ", "1 ", " 1", "+1", "1,0", "1.", ".5", "1e3", "١", "--1", "-", "0x10", "NaN", "Infinity", "ol", "O.L", "<1",
    ">>1", "1.2.3", "1\n", "one", "1/2", "−1", "½", "9" * 40, "9" * 41, "0." + "0" * 37 + "1", "0." + "0" * 38 + "12",
    "1_0", "OL ", "null",
)  # fmt: skip
BAD_LIMITS: tuple[Case, ...] = (
    limit("at least", ""), limit("at least", "one"), limit("more than", "1"), limit("between", "1"),
    limit("at most", "1e3"), limit("between", "2", upper="1"), limit("between", "1", upper="x"),
    {"relation": "at least", "unit": "MΩ"},
    {"relation": "at least", "value": "1"}, {"value": "1", "unit": "MΩ"}, limit("equal", "1", over="maybe"),
    limit("between", "1", upper="1"), limit("at least", "-1"), limit("at most", "-0"),
    limit("at least", "1", over="recorded"),
)  # fmt: skip
TORQUE: Case = {
    **limit("equal", "9", "N·m", "fail"),
    "also": [limit("equal", "79.7", "lbf·in", "cannot tell"), limit("equal", "x", "lbf·ft", "pass")],
}
BAD_BANDS: tuple[Case, ...] = (
    {}, {"percent": "3"}, {"digits": "1"}, {"percent": "-3", "digits": "0"}, {"percent": "x", "digits": "0"},
    {"percent": "3", "digits": "-1"}, {"percent": "100", "digits": "0"}, {"percent": "0.0000000001", "digits": "0"},
)  # fmt: skip


def cases() -> list[Case]:
    """Every case, each with the answer of the oracle."""
    found: list[tuple[str, str, Case | None, Case | None]] = []
    for each in LIMITS:
        found += [(value, each["unit"], each, None) for value in READ[each["unit"]]]
        found += [(value, each["unit"], each, band) for value in READ[each["unit"]] for band in BANDS]
        found += [(value, each["unit"], {**each, "over_range": word}, None)
                  for value in OVER for word in ("pass", "fail", "cannot tell")]  # fmt: skip
        found += [(value, each["unit"], each, BANDS[0]) for value in OVER]
    found += [(value, "MΩ", AT_LEAST, None) for value in NOT_NUMBERS]
    found += [("5", unit, AT_LEAST, None) for unit in ("", "kΩ", "Ω", "MΩ ", "mΩ", "MΩ", "Mohm")]
    found += [(value, "MΩ", bad, None) for value in ("1", "OL", "", "-0") for bad in BAD_LIMITS]
    found += [("1.02", "MΩ", AT_LEAST, bad) for bad in BAD_BANDS]
    found += [(value, "", None, None) for value in ("", "7", "made", "OL", " ")]
    found += [(value, unit, TORQUE, None) for unit in ("N·m", "lbf·in", "lbf·ft", "")
              for value in ("9", "79.7", "79.70", "9.01", "", "x", "OL", ">9", ">80")]  # fmt: skip
    found += [
        ("9", "lbf·in", {**TORQUE, "also": odd}, None)
        for odd in (None, [], "x", [None, 3, "lbf·in"], {"unit": "lbf·in"})
    ]
    found += [("9", unit, {**TORQUE, "value": "x"}, None) for unit in ("N·m", "lbf·in", "V")]
    return [
        {"value": value, "unit": unit, "limit": bound, "uncertainty": band, "expect": oracle(value, unit, bound, band)}
        for value, unit, bound, band in found
    ]
