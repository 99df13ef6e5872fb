// What was recorded of each item: values, verdicts, which of them count, what is disputed. The rules of values.py.
import { after, bare, count, given, last, listed, text } from "./causal.js";
import { compare, worst } from "./compare.js";

const TOLD_BY = {
  reading: ["reading"], torque: ["reading"], mark: ["reading"], name: ["reading"],
  serial: ["scan", "reading"], photo: ["photo"], timer: ["timer"],
};
export const SHA = /^[0-9a-f]{64}$/;

/** The state of every item of a sheet, by its id. */
export function items(told, sheet) {
  const parts = new Map();
  for (const event of told.of("reading", "scan", "photo", "timer")) {
    for (const part of event.type === "reading" ? listed(event.data, "values") : [event.data]) {
      const id = text(part, "item");
      if (!parts.has(id)) parts.set(id, []);
      parts.get(id).push([event, part]);
    }
  }
  const all = sheet.steps.flatMap((step) => step.items.map((item) => [step.id, item]));
  return bare(all.map(([step, item]) => [item.id, itemState(told, step, item, parts.get(item.id) ?? [])]));
}

function itemState(told, step, item, parts) {
  const kinds = Object.hasOwn(TOLD_BY, item.kind) ? TOLD_BY[item.kind] : [];
  const entries = parts.filter(([event]) => kinds.includes(event.type)).map((each) => entryOf(item, ...each));
  const valid = entries.filter((each) => !told.gone.has(each.event.id));
  const found = { step, item, entries, counting: [], state: "open", verdict: ["cannot tell", "no value"] };
  if (!valid.length) return found;
  const wanted = Math.max(1, count(item, "count"));
  if (item.kind === "photo" || (item.kind === "serial" && wanted > 1)) {
    found.counting = valid;
    const shown = new Map(valid.map((each) => [each.value, each.n]));
    found.state = [...shown.values()].reduce((sum, n) => sum + n, 0) >= wanted ? "recorded" : "part";
  } else {
    found.counting = resolved(told, latest(valid));
    found.state = Math.min(...found.counting.map((each) => each.n)) < wanted ? "part" : "recorded";
    const different = found.counting.map((each) => JSON.stringify([each.value, each.unit, each.exceptions]));
    if (new Set(different).size > 1) found.state = "disputed";
  }
  found.verdict = worstOf(found.counting.map((each) => each.verdict));
  return found;
}

function entryOf(item, event, part) {
  const limit = item.limit ?? null;
  const entry = { event, unit: "", n: 1, exceptions: [], tool: text(event.data, "tool") };
  let verdict;
  if (event.type === "reading") {
    const [value, unit] = [text(part, "value"), text(part, "unit")];
    Object.assign(entry, { value, unit, n: count(part, "n") || 1 });
    verdict = compare(value, unit, limit, item.uncertainty);
    entry.exceptions = listed(part, "exceptions").map((each) => {
      const other = text(each, "value");
      return { which: text(each, "which"), value: other, verdict: compare(other, unit, limit, item.uncertainty) };
    });
  } else if (event.type === "scan") {
    entry.value = text(part, "text");
    verdict = given(part, "check") === false ? ["cannot tell", "check failed"] : compare(entry.value, "", limit);
  } else if (event.type === "photo") {
    Object.assign(entry, { value: text(part, "sha"), n: count(part, "equal") || 1 });
    verdict = SHA.test(entry.value) ? ["recorded", ""] : ["cannot tell", "no photo"];
  } else {
    entry.value = text(part, "judged");
    verdict = judged(entry.value, count(part, "waited_ms"), count(item, "seconds"));
  }
  entry.verdict = worstOf([verdict, ...entry.exceptions.map((each) => each.verdict)]);
  return entry;
}

function judged(value, waitedMs, seconds) {
  if (!["seen", "not seen"].includes(value)) return ["cannot tell", "no value"];
  if (waitedMs < seconds * 1000) return ["cannot tell", "too early"];
  return value === "seen" ? ["pass", ""] : ["fail", "not seen"];
}

function worstOf(verdicts) {
  const word = worst(verdicts.map(([each]) => each));
  return verdicts.find(([each]) => each === word) ?? [word, "no value"];
}

function latest(entries) {
  const still = new Set(last(entries.map((each) => each.event)).map((each) => each.hash));
  return entries.filter((each) => still.has(each.event.hash));
}

/** Ids that a word on a dispute names. */
export const named = (resolve) => new Set(listed(resolve.data, "of").filter((each) => typeof each === "string"));

/** Every word on a dispute that has a reason and keeps one of those that it names. */
export const resolves = (told) =>
  told.counting("resolve").filter((each) => text(each.data, "reason") && named(each).has(text(each.data, "keep")));

/**
 * What is left of concurrent values where somebody said which one counts. A later word that keeps a value takes back an
 * earlier one that dropped it; two who say different things, neither having seen the other's word, settle nothing.
 */
function resolved(told, counting) {
  const there = new Set(counting.map((each) => each.event.id));
  const said = resolves(told).filter((each) => there.has(text(each.data, "keep")));
  const keeps = said.map((each) => [text(each.data, "keep"), each]);
  const takenBack = (id, by) => keeps.some(([kept, other]) => id === kept && after(other, by));
  const drops = said
    .flatMap((each) => [...named(each)].filter((id) => id !== text(each.data, "keep")).map((id) => [id, each]))
    .filter(([id, by]) => !takenBack(id, by));
  if (drops.some(([id, each]) => keeps.some(([kept, by]) => id === kept && !after(each, by)))) return counting;
  const dropped = new Set(drops.map(([id]) => id));
  const left = counting.filter((each) => !dropped.has(each.event.id));
  return left.length ? left : counting;
}

/** An entry as it stands in the state. */
export function asData(entry, state, gone) {
  const { event } = entry;
  const exceptions = entry.exceptions.map(({ which, value, verdict: [word, reason] }) => ({ which, value, word, reason }));
  return {
    event: event.id, dev: event.dev, seq: event.seq, by: event.user, value: entry.value, unit: entry.unit, n: entry.n,
    tool: entry.tool, word: entry.verdict[0], reason: entry.verdict[1], counts: state.counting.includes(entry),
    void: gone.has(event.id), exceptions,
  };
}

