// How far each log is known, what is missing or stands there twice, which files and instruments are named.
// The rules of logs.py and calibration.py of the record.
import { after, bare, byPlace, given, listed, sorted, text } from "./causal.js";
import { worst } from "./compare.js";
import { SHA, named, resolves } from "./values.js";

const isFile = (sha) => typeof sha === "string" && SHA.test(sha);
const FILES = { photo: "sha", problem: "sha", sign: "image" };

/** Devices, gaps, forks, files, what was erased, what the sheet does not know and what this version does not. */
export function logs(told, sheet) {
  const places = new Map();
  for (const each of [...told.events, ...told.later].sort(byPlace)) {
    if (!places.has(each.dev)) places.set(each.dev, new Map());
    const own = places.get(each.dev);
    own.set(each.seq, [...(own.get(each.seq) ?? []), each]);
  }
  const sheets = new Map(told.of("begin", "sheet").map((each) => [each.dev, text(each.data, "sheet")]));
  return {
    devices: bare([...places].map(([dev, own]) => [
      dev, { last: Math.max(...own.keys()), events: own.size, sheet: sheets.get(dev) ?? "" },
    ])),
    gaps: gaps(told, places),
    forks: forks(told, places),
    files: sorted(files(told)),
    erased: sorted(told.of("erased").flatMap((each) => listed(each.data, "what").filter(isFile))),
    unknown: unknown(told, sheet),
    later: told.later.map((each) => each.id),
  };
}

function files(told) {
  return told.events.flatMap((each) => {
    const manifest = each.type === "manifest" ? listed(each.data, "files") : [];
    const one = Object.hasOwn(FILES, each.type) ? [given(each.data, FILES[each.type])] : [];
    return [...manifest, ...one].filter(isFile);
  });
}

function gaps(told, places) {
  const seen = new Map([...places].map(([dev, own]) => [dev, Math.max(...own.keys())]));
  for (const each of [...told.events, ...told.later]) {
    for (const [dev, far] of Object.entries(each.seen)) seen.set(dev, Math.max(seen.get(dev) ?? 0, far));
  }
  const found = [];
  for (const dev of sorted(seen.keys())) {
    let before = 0;
    const own = [...(places.get(dev)?.keys() ?? [])].sort((one, other) => one - other);
    for (const seq of [...own, seen.get(dev) + 1]) {
      if (seq > before + 1) found.push({ dev, first: before + 1, last: seq - 1 });
      before = seq;
    }
  }
  return found;
}

function forks(told, places) {
  const said = resolves(told);
  const found = [];
  for (const dev of sorted(places.keys())) {
    const own = [...places.get(dev)].sort(([one], [other]) => one - other);
    for (const [seq, events] of own.filter(([, all]) => all.length > 1)) {
      const ids = events.map((each) => each.id);
      // Texts of one id cannot be told apart by a word.
      const apart = new Set(ids).size === ids.length;
      const settled = apart && said.some((each) => ids.every((id) => named(each).has(id)));
      found.push({ dev, seq, events: ids, settled });
    }
  }
  return found;
}

function unknown(told, sheet) {
  const steps = new Set(sheet.steps.map((step) => step.id));
  const items = new Set(sheet.steps.flatMap((step) => step.items.map((item) => item.id)));
  const isOn = (event) => {
    const parts = event.type === "reading" ? listed(event.data, "values") : [event.data];
    const asked = event.type === "override" ? [] : parts.map((each) => text(each, "item")).filter(Boolean);
    return (!event.step || steps.has(event.step)) && asked.every((id) => items.has(id));
  };
  return told.events.filter((each) => !isOn(each)).map((each) => each.id);
}

const DATE = /^[0-9]{4}-[0-9]{2}-[0-9]{2}$/;
const day = (each) => text(each.data, "server").slice(0, 10);

/** For each item that asks for an instrument whether one in calibration was used, and what each was used for. */
export function used(told, sheet, items) {
  const tools = new Map(sheet.tools.map((tool) => [tool.id, tool]));
  const contacts = told.of("clock").filter((each) => DATE.test(day(each)));
  const ofItems = bare();
  const ofTools = new Map();
  for (const [id, one] of Object.entries(items)) {
    for (const { tool } of one.counting) if (tools.has(tool)) ofTools.set(tool, [...(ofTools.get(tool) ?? []), id]);
    const found = one.counting.map((each) => fit(each, one.item, tools, contacts));
    if (!one.item.tool_kind?.length || !found.length) continue;
    const word = worst(found.map(([each]) => each));
    ofItems[id] = { word, reason: found.find(([each]) => each === word)[1] };
  }
  return { items: ofItems, used: bare([...ofTools].map(([tool, ids]) => [tool, sorted(ids)])) };
}

function fit({ tool, event }, item, tools, contacts) {
  if (!tool) return ["cannot tell", "no instrument named"];
  if (!tools.has(tool)) return ["cannot tell", "not on the sheet"];
  const kinds = [tools.get(tool).kind, ...(tools.get(tool).functions ?? [])];
  if (!kinds.some((kind) => item.tool_kind?.includes(kind))) return ["cannot tell", "of another kind"];
  const until = tools.get(tool).calibrated_until;
  if (typeof until !== "string" || !DATE.test(until)) return ["cannot tell", "no date of calibration"];
  const earliest = sorted(contacts.filter((each) => after(event, each)).map(day));
  const latest = sorted(contacts.filter((each) => after(each, event)).map(day));
  if (latest.length && latest[0] <= until) return ["pass", ""];
  if (earliest.length && earliest.at(-1) > until) return ["fail", "calibration was over"];
  return ["cannot tell", "date not certain"];
}
