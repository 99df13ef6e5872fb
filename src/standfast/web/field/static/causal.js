// Which event came after which: by what its writer had seen, never by a clock. The rules of causal.py of the record.
import { VERSION } from "./chain.js";

const TYPES = new Set([
  "begin", "sheet", "person", "done", "reading", "photo", "scan", "timer", "problem", "closed", "hold", "override",
  "void", "resolve", "sign", "checkpoint", "witness", "clock", "manifest", "seal", "erased",
]);

/** A map without anything of its own, so that any id may stand in it. */
export const bare = (entries = []) => {
  const made = Object.create(null);
  for (const [key, value] of entries) made[key] = value;
  return made;
};

const isMap = (data) => typeof data === "object" && data !== null && !Array.isArray(data);
const own = (data, key) => (isMap(data) && Object.hasOwn(data, key) ? data[key] : undefined);

/** A text that an event tells; empty where it tells none. */
export const text = (data, key) => (typeof own(data, key) === "string" ? data[key] : "");

/** A whole number that an event tells, from 0; 0 where it tells none. */
export const count = (data, key) => {
  const found = own(data, key);
  return Number.isSafeInteger(found) && found > 0 ? found : 0;
};

/** A list that an event tells; empty where it tells none. */
export const listed = (data, key) => (Array.isArray(own(data, key)) ? data[key] : []);

/** Anything that an event tells; undefined where it tells nothing. */
export const given = own;

/** The events of lines of the store, each once, with its text's hash. */
export const read = (line) => ({ ...JSON.parse(line.raw), hash: line.hash });

const sees = (one, other) =>
  one.dev === other.dev ? one.seq > other.seq : (own(one.seen, other.dev) ?? 0) >= other.seq;

/** True where one event was written by someone who had the other; two that claim it of each other are concurrent. */
export const after = (later, earlier) => sees(later, earlier) && !sees(earlier, later);

/** The events that none of the others came after; all of them where they claim to follow each other in a ring. */
export function last(events) {
  const ends = new Map();
  for (const { dev, seq } of events) ends.set(dev, Math.max(ends.get(dev) ?? 0, seq));
  const newest = events.filter((each) => each.seq === ends.get(each.dev));
  const found = newest.filter((each) => !events.some((other) => after(other, each)));
  return found.length ? found : [...events];
}

const order = (one, other) => (one < other ? -1 : one > other ? 1 : 0);
export const byPlace = (one, other) =>
  order(one.dev, other.dev) || one.seq - other.seq || order(one.hash, other.hash);
/** A list of texts in the order of their code units, each once. */
export const sorted = (texts) => [...new Set(texts)].sort(order);

/** Everything that was told, each event once: understood, of a later version, and what was declared void. */
export function known(events) {
  const once = [...new Map(events.map((each) => [each.hash, each])).values()].sort(byPlace);
  const fits = (each) => TYPES.has(each.type) && each.v <= VERSION;
  const understood = once.filter(fits);
  const voids = understood.filter((each) => each.type === "void");
  const gone = new Set(voids.filter((each) => text(each.data, "reason")).map((each) => text(each.data, "of")));
  voids.forEach((each) => gone.delete(each.id));
  const of = (...types) => understood.filter((each) => types.includes(each.type));
  const counting = (...types) => of(...types).filter((each) => !gone.has(each.id));
  return { events: understood, later: once.filter((each) => !fits(each)), gone, of, counting };
}
