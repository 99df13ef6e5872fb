// The job that is open: its sheet, its record, what follows from them, and the one way to add to the record.
import { read } from "./causal.js";
import { FIRST, headText, hashOfText, textOf } from "./chain.js";
import { fold } from "./fold.js";
import { CHECKPOINT_EVERY, sign } from "./keys.js";
import { linesOf, recall, remember, vectorOf } from "./log.js";
import { kept } from "./media.js";
import { recorded } from "./sync.js";
import { here, write } from "./tablet.js";

/** { job, title, sheet, sha, newer, lines, state, cards, user, told, acked } of the open job; null where none is. */
let open = null;
let heard = () => {};
const others = new BroadcastChannel("standfast-record");

/** Call `changed` whenever the open job is another or its record has grown, here or in another page. */
export function listen(changed) {
  heard = changed;
  others.onmessage = ({ data }) => open?.job === data && reload();
}

export const job = () => open;

/** Open a job by its id; the first event of its log on this tablet is written where there is none. */
export async function openJob(id) {
  const known = await handed(id);
  if (!known) return null;
  const sha = (await recall(`taken ${id}`)) ?? known.sheet;
  const text = await recall(`sheet ${sha}`);
  if (text === undefined) return null;
  open = { job: id, title: known.title, sheet: JSON.parse(text), sha };
  await reload();
  if (!open.lines.some((line) => line.dev === here().dev)) {
    await record("begin", "", { sheet: sha, key: here().key, device: here().name });
    await remember({ [`taken ${id}`]: sha });
  }
  return open;
}

const handed = async (id) => ((await recall("jobs")) ?? []).find((each) => each.job === id);

/** The sheet that the office handed out after the one that is in use, where it is here already. */
async function newerThan(sha, id) {
  const sheet = (await handed(id))?.sheet ?? sha;
  return sheet !== sha && (await recall(`sheet ${sheet}`)) ? sheet : "";
}

export function closeJob() {
  open = null;
}

/** Read the record of the open job again. */
export async function reload() {
  if (!open) return;
  const { job: id, sheet } = open;
  const lines = await linesOf(id);
  const events = lines.map(read);
  const state = await fold(events, sheet);
  const facts = {
    lines, events, state, seen: vectorOf(lines),
    cards: cardsIn({ ...(await recall(`cards ${id}`)), ...(await recall(`own cards ${id}`)) }),
    user: (await recall(`user ${id}`)) ?? "",
    newer: await newerThan(open.sha, id),
    told: await recall(`told ${id}`),
    acked: (await recall(`acked ${id}`)) ?? {},
  };
  if (open?.job !== id) return;
  Object.assign(open, facts);
  heard();
}

/**
 * Add an event to the record of the open job, with the files that it names. Resolved once it is on the disk; where it
 * cannot be written, the fault is thrown and nothing of it is there.
 */
export async function record(type, step = "", data = {}, files = []) {
  const { job: id } = open;
  const line = await write(id, (head) => Promise.resolve(eventText(head, type, step, data)), files);
  if (line.seq % CHECKPOINT_EVERY === 0) await checkpoint();
  await recorded();
  await reload();
  others.postMessage(id);
  return line;
}

function eventText(head, type, step, data) {
  const { dev } = here();
  const seen = { ...open.seen };
  delete seen[dev];
  return textOf({ job: open.job, dev, head, type, step, data, seen, user: open.user });
}

/** Sign with the key of this tablet how far its log stands. */
export async function checkpoint() {
  const { job: id } = open;
  const { dev, pair } = here();
  await write(id, async (head) => {
    if (head.hash === FIRST) throw new RangeError("there is nothing to sign yet");
    return eventText(head, "checkpoint", "", { sig: await sign(pair, headText(id, dev, head.seq, head.hash)) });
  });
}

/** The time of this tablet and of the office side by side, as an event. */
export async function clockAt(id, told) {
  const { dev } = here();
  await write(id, async (head) => textOf({ job: id, dev, head, type: "clock", data: told, user: (await recall(`user ${id}`)) ?? "" }));
  if (open?.job === id) await reload();
}

/** The cards among texts by hash: those that name somebody. */
const cardsIn = (texts) => Object.fromEntries(Object.entries(texts).filter(([, text]) => typeof nameOn(text) === "string"));

function nameOn(text) {
  try {
    return JSON.parse(text).name;
  } catch {
    return undefined;
  }
}

/** What is written on somebody's card: { name, licence, role }. */
export function person(sha) {
  try {
    return JSON.parse(open.cards[sha]);
  } catch {
    return { name: sha.slice(0, 8), licence: "", role: "" };
  }
}

/** Make a card: a small text with a salt, kept as a file of the job and named by its hash. */
export async function makeCard({ name, licence, role }) {
  const salt = Array.from(crypto.getRandomValues(new Uint8Array(16)), (each) => each.toString(16).padStart(2, "0")).join("");
  const text = JSON.stringify({ salt, name, licence, role });
  const file = await kept(new Blob([text], { type: "application/json" }));
  await remember({ [`own cards ${open.job}`]: { ...(await recall(`own cards ${open.job}`)), [file.sha]: text } });
  open.cards[file.sha] = text;
  return file;
}

/** Somebody takes the tablet; `file` is their card where it was made just now. */
export async function hold(card, file = null) {
  await remember({ [`user ${open.job}`]: card });
  open.user = card;
  await record("person", "", { card }, file ? [file] : []);
}

/** Take up the newer sheet of the office. */
export async function takeUp() {
  const { job: id, sha: was, newer } = open;
  const text = await recall(`sheet ${newer}`);
  if ((await hashOfText(text)) !== newer) throw new RangeError("the sheet is not the one it says it is");
  await record("sheet", "", { sheet: newer, was });
  await remember({ [`taken ${id}`]: newer });
  await openJob(id);
}
