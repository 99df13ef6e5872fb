// A reading against its limit: decimal texts and whole numbers of any length, never a float.
// The same rules as compare.py of the record; both run tests/vectors/compare.json.

const LONGEST = 40;
const OVER = "OL";
const RELATIONS = ["at least", "at most", "between", "equal"];
const NUMBER = /^-?[0-9]+(\.[0-9]+)?$/;
const WORST = ["fail", "cannot tell", "pass", "recorded"];

/** A decimal text as { whole: BigInt, places }; null where it is none. */
export function number(text) {
  if (typeof text !== "string" || text.length > LONGEST || !NUMBER.test(text)) return null;
  const [before, after = ""] = text.split(".");
  return { whole: BigInt(before + after), places: after.length };
}

const at = (each, places) => each.whole * 10n ** BigInt(places - each.places);
const size = (whole) => (whole < 0n ? -whole : whole);

/** The verdict on one reading: [word, reason], reason empty where the numbers say it. */
export function compare(value, unit, limit, uncertainty = null) {
  if (value === "") return ["cannot tell", "no value"];
  if (limit === null || limit === undefined) return ["recorded", ""];
  const same = [limit, ...(Array.isArray(limit.also) ? limit.also : [])].find((each) => each?.unit === unit);
  const bounds = boundsOf(same ?? limit);
  if (bounds === null) return ["cannot tell", "limit not readable"];
  if (same === undefined) return ["cannot tell", "wrong unit"];
  if (value === OVER) {
    const word = ["pass", "fail"].includes(same.over_range) ? same.over_range : "cannot tell";
    return [word, "over range"];
  }
  const over = value.startsWith(">");
  const read = number(over ? value.slice(1) : value);
  if (read === null) return ["cannot tell", "not a number"];
  const band = bandOf(read, uncertainty);
  if (band === null) return ["cannot tell", "uncertainty not readable"];
  const word = within(read, band, bounds, over);
  if (word !== "cannot tell") return [word, over ? "over range" : ""];
  if (over) return [same.over_range === "fail" ? "fail" : "cannot tell", "over range"];
  return ["cannot tell", "near the limit"];
}

/** The worst of several verdicts; of none: cannot tell. */
export function worst(words) {
  const places = words.map((word) => WORST.indexOf(word));
  return places.length ? WORST[Math.min(...places)] : "cannot tell";
}

function boundsOf(limit) {
  const value = number(limit.value);
  const upper = limit.relation === "between" ? number(limit.upper) : value;
  if (value === null || upper === null || !RELATIONS.includes(limit.relation)) return null;
  const places = Math.max(value.places, upper.places);
  if (at(value, places) > at(upper, places)) return null;
  return [limit.relation === "at most" ? null : value, limit.relation === "at least" ? null : upper];
}

function bandOf(read, uncertainty) {
  if (uncertainty === null || uncertainty === undefined) return { whole: 0n, places: 0 };
  const percent = number(uncertainty.percent);
  const digits = number(uncertainty.digits);
  if (percent === null || digits === null || percent.whole < 0n || digits.whole < 0n) return null;
  const share = { whole: size(read.whole) * percent.whole, places: read.places + percent.places + 2 };
  const places = Math.max(share.places, digits.places);
  return { whole: at(share, places) + at(digits, places), places };
}

function within(read, band, [least, most], over) {
  const places = Math.max(...[read, band, least, most].filter((each) => each !== null).map((each) => each.places));
  const low = at(read, places) - at(band, places);
  const high = at(read, places) + at(band, places);
  const aboveLeast = least === null || low >= at(least, places);
  const belowMost = most === null || (!over && high <= at(most, places));
  if (aboveLeast && belowMost) return "pass";
  const tooLow = least !== null && !over && high < at(least, places);
  const tooHigh = most !== null && low > at(most, places);
  return tooLow || tooHigh ? "fail" : "cannot tell";
}
