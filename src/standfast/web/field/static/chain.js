// The text of an event, its hash, and whether a log holds together.

export const VERSION = 1;
export const APP = "0.1.0";
export const FIRST = "0".repeat(64);
export const LONGEST_BYTES = 64_000;
/** Id of this start of the page, and the clock that nobody can set belongs to it. */
export const BOOT = self.crypto?.randomUUID?.() ?? "";

const utf8 = new TextEncoder();

/** SHA-256 of bytes, in hexadecimal. */
export async function sha256(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (each) => each.toString(16).padStart(2, "0")).join("");
}

/** SHA-256 of a text. */
export const hashOfText = (text) => sha256(utf8.encode(text));

/** The hash of an event: over "sf1", a line feed and its exact text. */
export const hashOf = (raw) => hashOfText(`sf1\n${raw}`);

/** The text that a checkpoint signs: how far the log stands, without the checkpoint itself. */
export const headText = (job, dev, seq, hash) => `sf1-head\n${job}\n${dev}\n${seq}\n${hash}`;

/** What the clocks say now: the one that can be set, its offset, and milliseconds since this start. */
export function clocks() {
  const now = new Date();
  const east = -now.getTimezoneOffset();
  const two = (number) => String(Math.floor(number)).padStart(2, "0");
  const size = Math.abs(east);
  const tz = `${east < 0 ? "-" : "+"}${two(size / 60)}:${two(size % 60)}`;
  return { wall: now.toISOString(), tz, mono: Math.round(performance.now() * 10) / 10, boot: BOOT };
}

/** The text of an event that follows `head`; it is never made again from what is read out of it. */
export function textOf({ job, dev, head, type, step = "", data = {}, seen = {}, user = "", id = crypto.randomUUID() }) {
  const { wall, tz, mono, boot } = clocks();
  const event = { v: VERSION, job, dev, seq: head.seq + 1, prev: head.hash, id, type, step, data, seen };
  const raw = JSON.stringify({ ...event, wall, tz, mono, boot, app: APP, user });
  if (utf8.encode(raw).length > LONGEST_BYTES) throw new RangeError("the event is too long");
  return raw;
}

/** The first place at which a log of one device does not hold together; null where it does. */
export async function broken(lines) {
  let seq = 0;
  let prev = FIRST;
  for (const line of lines) {
    const event = JSON.parse(line.raw);
    seq += 1;
    if (event.seq !== seq || line.seq !== seq || event.prev !== prev) return seq;
    if ((await hashOf(line.raw)) !== line.hash) return seq;
    prev = line.hash;
  }
  return null;
}
