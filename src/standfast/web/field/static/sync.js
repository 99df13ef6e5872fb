// Brings what was saved to the office and takes what others recorded. Runs while the page is open: when the network
// comes back, when the page is looked at, every half minute, and by a button. Nothing is ever deleted here.
import { BOOT, clocks, hashOfText } from "./chain.js";
import { NoServer, Refused, bring, get, getText, post } from "./office.js";
import { NotSaved, fileNamesOf, fileOf, headOf, linesOf, recall, recallNames, remember, take, vectorOf } from "./log.js";

const MOST_EVENTS = 200;
const EVERY_MS = 30_000;
const OVERDUE_MS = 2 * 3_600_000;
const AFTER_MS = 3_000;
const LONGEST_MS = 300_000;
/** Refusals that are about one file: not named, too large, of another kind, damaged. */
const OF_ONE_FILE = [403, 413, 415, 460];

/** What the pages show: state is never, busy, done, no server, refused, no room, stuck. `status` is that of a refusal. */
export const contact = { state: "never", at: "", why: "", todo: "", status: 0, waiting: 0, photos: 0, counted: false, forks: [], skew: 0 };

let failures = 0;
let timer = 0;
let queued = false;
let tell = () => {};
let asked = null;

/** Begin; `hooks` has device() → the tablet or null, changed(), came(job), lost(job, told), clock(job, told). */
export function begin(hooks) {
  asked = hooks;
  tell = hooks.changed;
  self.addEventListener("online", () => soon(0));
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && soon(0));
  recall("skew").then((skew) => (contact.skew ||= skew ?? 0));
  soon(0);
}

/** Today by the clock of the office, as far as it was compared with that of this tablet; ISO 8601. */
export const today = () => new Date(Date.now() - contact.skew).toISOString().slice(0, 10);

/** Try again after so many milliseconds. */
export function soon(ms) {
  clearTimeout(timer);
  timer = setTimeout(now, ms);
}

/** The button: whatever else is going on. */
export const send = () => now();

/** Try now; of several pages one runs, and one more waits for its turn. */
export async function now() {
  clearTimeout(timer);
  if (!asked?.device() || queued) return;
  queued = true;
  await navigator.locks.request("standfast-sync", async () => {
    queued = false;
    contact.state = "busy";
    tell();
    try {
      await everything(asked.device());
      Object.assign(contact, { state: "done", at: new Date().toISOString(), why: "", todo: "", status: 0 });
      await remember({ contact: contact.at });
      failures = 0;
    } catch (error) {
      failures += 1;
      told(error);
    }
  });
  await count().catch(() => (contact.counted = false));
  tell();
  const wait = failures ? Math.min(LONGEST_MS, 5_000 * 2 ** failures) * (0.5 + Math.random()) : EVERY_MS;
  soon(Math.round(wait));
}

/** Whatever it was, it is said, and tried again later. */
function told(error) {
  Object.assign(contact, { why: "", todo: "", status: 0 });
  if (error instanceof NoServer) contact.state = "no server";
  else if (error instanceof NotSaved) contact.state = "no room";
  else if (error instanceof Refused) {
    const why = [error.message, error.why].filter(Boolean).join(" ");
    Object.assign(contact, { state: "refused", why, todo: error.todo, status: error.status });
  } else Object.assign(contact, { state: "stuck", why: String(error?.message ?? error) });
}

/** Something was recorded: send it soon, but not sooner than a server that does not answer is asked again. */
export async function recorded() {
  await count();
  if (!failures) soon(AFTER_MS);
}

/** How many events and photos of this tablet the office has not confirmed. */
export async function count() {
  const dev = asked?.device()?.dev;
  if (!dev) return;
  const sent = new Set(await recallNames("sent "));
  let waiting = 0;
  let photos = 0;
  for (const name of await recallNames("head ")) {
    const job = name.slice("head ".length);
    const acked = (await recall(`acked ${job}`)) ?? {};
    waiting += Math.max(0, (await headOf(job)).seq - (acked[dev] ?? 0));
    photos += (await fileNamesOf(job)).filter((sha) => !sent.has(`sent ${job} ${sha}`)).length;
  }
  const at = contact.at || (await recall("contact")) || asked.device().enrolled;
  Object.assign(contact, { waiting, photos, at, counted: true });
}

/** Whether something has been on this tablet only for so long that a copy should leave it. */
export const overdue = () => contact.waiting + contact.photos > 0 && Date.now() - Date.parse(contact.at) > OVERDUE_MS;

async function everything(device) {
  const { jobs } = await get("/jobs");
  for (const each of jobs) await sheetOf(each);
  await remember({ jobs });
  for (const { job } of jobs) {
    await remember({ [`cards ${job}`]: (await get(`/jobs/${job}/cards`)).cards });
    await events(job, device.dev);
    await files(job);
    await remember({ [`told ${job}`]: { at: new Date().toISOString(), state: await get(`/jobs/${job}/state`) } });
    asked.came(job);
  }
}

async function sheetOf({ job, sheet }) {
  if (await recall(`sheet ${sheet}`)) return;
  const text = await getText(`/jobs/${job}/sheet/${sheet}`);
  if ((await hashOfText(text)) !== sheet) throw new Refused(0, { what: "sheet" });
  await remember({ [`sheet ${sheet}`]: text });
}

async function events(job, dev) {
  for (;;) {
    const acked = (await recall(`acked ${job}`)) ?? {};
    const lines = await linesOf(job);
    const mine = lines.filter((line) => line.dev === dev && line.seq > (acked[dev] ?? 0)).slice(0, MOST_EVENTS);
    const answer = await post(`/jobs/${job}/events`, {
      dev,
      events: mine.map((line) => line.raw),
      have: vectorOf(lines),
    });
    await remember({ [`acked ${job}`]: answer.acked });
    const wrong = await take(job, answer.events.filter((line) => line.dev !== dev));
    const head = await headOf(job);
    const back = (answer.acked[dev] ?? 0) > head.seq;
    const forks = answer.forks.filter((fork) => fork.dev === dev);
    if (back || forks.length) asked.lost(job, { back, acked: answer.acked[dev] ?? 0 });
    contact.forks = [...answer.forks, ...wrong].map((each) => ({ job, dev: each.dev, seq: each.seq }));
    const noted = await atContact(job, answer.now, mine.length);
    const more = answer.more || noted || mine.length === MOST_EVENTS;
    if (!more || back || forks.length) return;
  }
}

/** The two clocks side by side as an event, once a start of the page, when something was brought. True where written. */
async function atContact(job, server, brought) {
  const { wall, mono } = clocks();
  const name = `clock ${job}`;
  contact.skew = Date.parse(wall) - Date.parse(server);
  await remember({ skew: contact.skew });
  if (!brought || (await recall(name)) === BOOT) return false;
  await remember({ [name]: BOOT });
  await asked.clock(job, { server, wall, mono, boot: BOOT });
  return true;
}

/** Bring the photos and cards. One that the office does not take holds up no other one. */
async function files(job) {
  let refused = null;
  for (const sha of await fileNamesOf(job)) {
    const name = `sent ${job} ${sha}`;
    if (await recall(name)) continue;
    try {
      await bring(job, await fileOf(sha));
      await remember({ [name]: true });
    } catch (error) {
      if (!(error instanceof Refused) || !OF_ONE_FILE.includes(error.status)) throw error;
      refused ??= error;
    }
  }
  if (refused) throw refused;
}
