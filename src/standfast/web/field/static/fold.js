// From the events of a job and its field sheet to what was done, read, disputed, and whether it may be handed over.
// A pure function of the set of events, by the rules of fold.py of the record; both run tests/vectors/fold.json.
import { bare, given, known, sorted, text } from "./causal.js";
import { hashOfText } from "./chain.js";
import { logs, used } from "./logs.js";
import { overridden, steps } from "./steps.js";
import { asData, items } from "./values.js";

/** What follows from events (as `causal.read` gives them) under a field sheet; `hash` is that of its work. */
export async function fold(events, sheet) {
  const told = known(events);
  const ofItems = items(told, sheet);
  const ofSteps = steps(told, sheet, ofItems);
  const overrides = bare([
    ...Object.entries(ofItems).map(([id, one]) => [id, one.counting.map((each) => each.event)]),
    ...Object.entries(ofSteps).map(([id, one]) => [id, one.valid]),
  ].map(([id, of]) => [id, overridden(told, id, of).map((each) => each.id)]));
  const work = {
    items: bare(Object.entries(ofItems).map(([id, one]) => [id, itemData(told, one, overrides[id])])),
    steps: bare(Object.entries(ofSteps).map(([id, one]) => [id, stepData(told, one, ofItems, overrides[id])])),
    problems: problems(told),
  };
  const tools = used(told, sheet, ofItems);
  const kept = logs(told, sheet);
  const hash = await hashOfText(`sf1-state\n${canonical(work)}`);
  const because = [
    ...against(ofItems, ofSteps, overrides),
    ...Object.entries(tools.items).filter(([id, one]) => one.word !== "pass" && !overrides[id].length)
      .map(([id, one]) => [`tool ${one.word}`, id]),
    ...sorted(kept.gaps.map((gap) => gap.dev)).map((dev) => ["log gap", dev]),
    ...kept.forks.filter((fork) => !fork.settled).map((fork) => ["log fork", `${fork.dev} ${fork.seq}`]),
    ...Object.entries(work.problems).filter(([, one]) => one.state === "open").map(([id]) => ["problem open", id]),
  ].map(([why, what]) => ({ why, what })).sort(byText);
  return { work, tools, logs: kept, signs: signs(told, hash), seals: seals(told, hash), ready: !because.length, because, hash };
}

const byText = (one, other) => compareTexts(one.why, other.why) || compareTexts(one.what, other.what);
const compareTexts = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

function itemData(told, one, override) {
  const values = one.entries.map((each) => asData(each, one, told.gone));
  return { step: one.step, state: one.state, word: one.verdict[0], reason: one.verdict[1], values, override };
}

function stepData(told, one, ofItems, override) {
  const entries = one.step.items.flatMap((item) => ofItems[item.id].counting.map((each) => each.event));
  const early = new Set(one.early.map((each) => each.hash));
  return {
    state: one.state,
    again: one.again,
    override,
    by: sorted([...one.valid, ...entries].map((each) => each.user).filter(Boolean)),
    done: one.dones.map((each) => ({
      event: each.id, by: each.user, early: early.has(each.hash), void: told.gone.has(each.id),
    })),
    holds: bare(one.holds.map((hold) => [hold.kind, {
      state: hold.state,
      looks: hold.looks.map((each) => ({
        event: each.id, by: text(each.data, "by"), seen: given(each.data, "seen") === true,
        text: text(each.data, "text"), counts: hold.counting.includes(each), void: told.gone.has(each.id),
      })),
    }])),
  };
}

function problems(told) {
  const closed = bare();
  for (const each of told.counting("closed")) {
    if (text(each.data, "text")) (closed[text(each.data, "of")] ??= []).push(each.id);
  }
  return bare(told.of("problem").map((each) => [each.id, {
    step: each.step, kind: text(each.data, "kind"), text: text(each.data, "text"), by: each.user,
    photo: text(each.data, "sha"), closed: closed[each.id] ?? [],
    state: told.gone.has(each.id) ? "void" : closed[each.id] ? "closed" : "open",
  }]));
}

function* against(ofItems, ofSteps, overrides) {
  for (const [id, step] of Object.entries(ofSteps)) {
    if (!overrides[id].length) {
      if (step.state !== "done") yield [`step ${step.state}`, id];
      else if (step.again) yield ["step again", id];
    }
    for (const hold of step.holds) {
      const stays = hold.state === "refused" || (hold.state !== "seen" && !overrides[id].length);
      if (stays) yield [`hold ${hold.state}`, `${id}: ${hold.kind}`];
    }
  }
  for (const [id, item] of Object.entries(ofItems)) {
    if (overrides[id].length || (!item.counting.length && overrides[item.step].length)) continue;
    if (item.state !== "recorded") yield [`item ${item.state}`, id];
    const bad = ["fail", "cannot tell"].includes(item.verdict[0]);
    if (item.counting.length && bad) yield [`item ${item.verdict[0]}`, id];
  }
}

const signs = (told, hash) =>
  told.of("sign").map((each) => ({
    event: each.id, role: text(each.data, "role"), by: text(each.data, "by"),
    state: told.gone.has(each.id) ? "void" : text(each.data, "state") === hash ? "current" : "stale",
  }));

const seals = (told, hash) =>
  told.of("seal").map((each) => ({ event: each.id, state: text(each.data, "state") === hash ? "current" : "stale" }));

/** One text for equal data: JSON without spaces, keys sorted by UTF-16 code units. */
export function canonical(data) {
  if (Array.isArray(data)) return `[${data.map(canonical).join(",")}]`;
  if (typeof data !== "object" || data === null) return JSON.stringify(data);
  return `{${Object.keys(data).sort().map((key) => `${JSON.stringify(key)}:${canonical(data[key])}`).join(",")}}`;
}

/** The canonical text of a whole state, as the shared vectors have it. */
export function textOfState({ work, tools, logs: kept, signs: signed, seals: sealed, ready, because }) {
  return canonical({ work, tools, logs: kept, signs: signed, seals: sealed, ready, because });
}
